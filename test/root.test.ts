import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { risingRoot } from '../pipeline/root.ts';

describe('the root of a rising function', () => {
  it('is the square root of a number', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), square => {
        const root = risingRoot(
          x => x * x - square,
          x => 2 * x,
          0,
          square + 1,
          1e-12,
        );
        expect(Math.abs(root - Math.sqrt(square))).toBeLessThan(1e-9 * (1 + Math.sqrt(square)));
      }),
    );
  });

  it('is found across a kink, a level stretch and a slope that misleads', () => {
    const kinked = (x: number): number => (x < 3 ? 1e-3 * (x - 3) - 1 : 5 * (x - 3) - 1);
    expect(risingRoot(kinked, x => (x < 3 ? 1e-3 : 5), 0, 100, 1e-12)).toBeCloseTo(3.2, 9);
    const level = (x: number): number => (x < 7 ? -1 : x - 8);
    expect(risingRoot(level, x => (x < 7 ? 0 : 1), 0, 1000, 1e-12)).toBeCloseTo(8, 9);
    expect(
      risingRoot(
        x => x - 2,
        () => 1e-6,
        0,
        10,
        1e-10,
      ),
    ).toBeCloseTo(2, 8);
  });

  it('is an end where the function is nothing there, and the upper one where it does not rise so far', () => {
    const line = (x: number): number => x - 5;
    expect(risingRoot(line, () => 1, 0, 5, 1e-9)).toBe(5);
    expect(risingRoot(line, () => 1, 5, 9, 1e-9)).toBeCloseTo(5, 8);
    expect(risingRoot(line, () => 1, 0, 4, 1e-9)).toBe(4);
  });
});
