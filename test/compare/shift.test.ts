import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { criticalU, mannWhitney, mannWhitneyP } from '../../pipeline/compare/mann-whitney.ts';
import { shiftBetween } from '../../pipeline/compare/shift.ts';

const apart = (n: number, step: number, from = 0): number[] =>
  Array.from({ length: n }, (_, i) => from + i * step + (i * i) / 997);

describe('shiftBetween', () => {
  // Hollander and Wolfe, Nonparametric Statistical Methods, examples 4.1, 4.3 and 4.4 (permeability of membranes at
  // term and between the 12th and 26th week); the data stand in the documentation of R's wilcox.test, W = 35 with
  // them; middle and interval from memory.
  it('gives the published estimate and interval of a textbook example', () => {
    const term = [0.8, 0.83, 1.89, 1.04, 1.45, 1.38, 1.91, 1.64, 0.73, 1.46];
    const earlier = [1.15, 0.88, 0.9, 0.74, 1.21];
    const { middle, interval, larger, smaller } = shiftBetween(earlier, term, 0.95);
    expect(larger).toBe(35);
    expect(smaller).toBe(15);
    expect(middle).toBeCloseTo(0.305, 12);
    expect(interval!.low).toBeCloseTo(-0.15, 12);
    expect(interval!.high).toBeCloseTo(0.76, 12);
    expect(interval!.coverage).toBeCloseTo(0.96, 3);
  });

  it('covers what the exact test leaves, for every two sizes up to nine', () => {
    for (let n1 = 1; n1 <= 9; n1++) {
      for (let n2 = 1; n2 <= 9; n2++) {
        const { interval } = shiftBetween(apart(n1, 1), apart(n2, 1.37, 0.1));
        const critical = criticalU(n1, n2);
        expect(interval === undefined).toBe(critical === undefined);
        if (interval === undefined || critical === undefined) continue;
        expect(interval.coverage).toBeCloseTo(1 - mannWhitneyP(critical, n1, n2), 12);
        expect(interval.coverage).toBeGreaterThanOrEqual(0.95);
      }
    }
  });

  it('has no interval for three against three', () => {
    expect(shiftBetween([1, 2, 3], [4, 5, 6]).interval).toBeUndefined();
    expect(shiftBetween([1, 2, 3, 4], [5, 6, 7, 8]).interval).toBeDefined();
  });

  const sample = fc.array(fc.double({ min: 5, max: 9, noNaN: true }), { minLength: 4, maxLength: 9 });

  it('holds exactly the shifts that the test does not reject', () => {
    fc.assert(
      fc.property(sample, sample, fc.double({ min: -3, max: 3, noNaN: true }), (a, b, shift) => {
        const { interval } = shiftBetween(a, b);
        const differences = b.flatMap(y => a.map(x => y - x));
        fc.pre(new Set(differences).size === differences.length);
        fc.pre(differences.every(each => Math.abs(each - shift) > 1e-9));
        const moved = b.map(y => y - shift);
        fc.pre(new Set([...a, ...moved]).size === a.length + b.length);
        const inside = shift > interval!.low && shift < interval!.high;
        expect(mannWhitney(a, moved).p > 0.05).toBe(inside);
      }),
    );
  });

  it('moves with a constant, turns with the sides, and does not mind the order', () => {
    fc.assert(
      fc.property(sample, sample, fc.integer({ min: -8, max: 8 }), (a, b, by) => {
        const one = shiftBetween(a, b);
        const moved = shiftBetween(
          a.map(x => x + by),
          b.map(y => y + by),
        );
        expect(moved.middle).toBeCloseTo(one.middle, 9);
        expect(moved.interval!.low).toBeCloseTo(one.interval!.low, 9);
        const turned = shiftBetween(b, a);
        expect(turned.middle).toBeCloseTo(-one.middle, 12);
        expect(turned.interval!.high).toBeCloseTo(-one.interval!.low, 12);
        expect(shiftBetween([...a].reverse(), [...b].reverse())).toEqual(one);
      }),
    );
  });

  it('refuses nothing and values that are not finite', () => {
    expect(() => shiftBetween([], [1])).toThrow(RangeError);
    expect(() => shiftBetween([1], [Number.NaN])).toThrow(RangeError);
  });
});
