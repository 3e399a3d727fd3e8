import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  criticalU,
  mannWhitney,
  mannWhitneyP,
  smallestPossibleP,
} from '../../pipeline/compare/mann-whitney.ts';

const seconds = (min: number, max: number) =>
  fc.array(fc.integer({ min: 500, max: 540 }), { minLength: min, maxLength: max });

/** Every way to choose which of all values are the first set, counted one by one. */
function countedP(a: readonly number[], b: readonly number[]): number {
  const all = [...a, ...b];
  const rankOf = (value: number): number =>
    all.filter(other => other < value).length + (all.filter(other => other === value).length + 1) / 2;
  const ranks = all.map(rankOf);
  const middle = (a.length * (all.length + 1)) / 2;
  const far = Math.abs(ranks.slice(0, a.length).reduce((sum, rank) => sum + rank, 0) - middle);
  let ways = 0;
  let asFar = 0;
  for (let chosen = 0; chosen < 2 ** all.length; chosen++) {
    const picked = ranks.filter((_, i) => (chosen >> i) & 1);
    if (picked.length !== a.length) continue;
    ways++;
    if (Math.abs(picked.reduce((sum, rank) => sum + rank, 0) - middle) >= far - 1e-9) asFar++;
  }
  return asFar / ways;
}

describe('mannWhitney', () => {
  // Exact p of 5 against 5, from enumeration: U 2 → 0.0317460, U 3 → 0.0555556 (8/252 and 14/252).
  it('gives the exact p of small sets', () => {
    expect(mannWhitneyP(2, 5, 5)).toBeCloseTo(8 / 252, 12);
    expect(mannWhitneyP(3, 5, 5)).toBeCloseTo(14 / 252, 12);
    expect(mannWhitney([1, 2, 3, 4, 5], [6, 7, 8, 9, 10])).toEqual({ u: 0, p: 2 / 252, couldDiffer: true });
  });

  it('agrees with counting every way, equal values included', () => {
    fc.assert(
      fc.property(seconds(1, 5), seconds(1, 5), (a, b) => {
        expect(mannWhitney(a, b).p).toBeCloseTo(countedP(a, b), 12);
      }),
      { numRuns: 60 },
    );
  });

  it('is the same whichever set comes first and however they are shifted together', () => {
    fc.assert(
      fc.property(seconds(1, 8), seconds(1, 8), (a, b) => {
        const one = mannWhitney(a, b);
        const other = mannWhitney(b, a);
        expect(other.u).toBe(one.u);
        expect(other.p).toBeCloseTo(one.p, 12);
        const moved = mannWhitney(
          a.map(value => value + 7),
          b.map(value => value + 7),
        );
        expect(moved).toEqual(one);
        expect(one.p).toBeGreaterThan(0);
        expect(one.p).toBeLessThanOrEqual(1 + 1e-12);
      }),
    );
  });

  it('says where so few values could never differ', () => {
    expect(mannWhitney([1, 2, 3], [7, 8, 9])).toEqual({ u: 0, p: 0.1, couldDiffer: false });
    expect(mannWhitney([1, 2, 3], [7, 8, 9, 10]).couldDiffer).toBe(false);
    expect(mannWhitney([1, 2, 3], [7, 8, 9, 10, 11]).couldDiffer).toBe(true);
  });

  it('finds nothing between equal sets', () => {
    expect(mannWhitney([6, 6, 6, 6, 6], [6, 6, 6, 6, 6]).p).toBe(1);
  });

  // Mann and Whitney 1947 as printed in textbooks, two-sided 0.01: 5·5 0, 6·6 2, 8·8 7, 10·10 16 (from memory).
  it('agrees with the printed critical values at one per cent', () => {
    expect(criticalU(4, 4, 0.01)).toBeUndefined();
    expect([
      criticalU(5, 5, 0.01),
      criticalU(6, 6, 0.01),
      criticalU(8, 8, 0.01),
      criticalU(10, 10, 0.01),
    ]).toEqual([0, 2, 7, 16]);
  });

  it('has a smallest p of two over the number of ways', () => {
    expect(smallestPossibleP(6, 6)).toBeCloseTo(2 / 924, 12);
    expect(smallestPossibleP(1, 1)).toBe(1);
  });

  it('needs values that can be ranked', () => {
    expect(() => mannWhitney([], [1])).toThrow(RangeError);
    expect(() => mannWhitney([1], [Number.NaN])).toThrow(RangeError);
  });
});
