import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  correlation,
  lagOneCorrelation,
  meanOf,
  medianOf,
  repeatsOf,
  standardDeviation,
  sumOf,
} from '../../pipeline/compare/repeats.ts';

const some = fc.array(fc.double({ min: -1e3, max: 1e3, noNaN: true }), { minLength: 2, maxLength: 30 });

describe('repeats', () => {
  it('of one value are that value, without a standard deviation', () => {
    expect(repeatsOf([6])).toEqual({
      n: 1,
      smallest: 6,
      largest: 6,
      median: 6,
      mean: 6,
      lowerQuartile: 6,
      upperQuartile: 6,
    });
  });

  it('have the median in the middle, or between the two middle values', () => {
    expect(medianOf([3, 1, 2])).toBe(2);
    expect(medianOf([4, 1, 2, 3])).toBe(2.5);
  });

  // Definition 7 of Hyndman and Fan 1996 on 1 to 8: seven quarters of a place from either end.
  it('have quartiles on the line between neighbours', () => {
    const { lowerQuartile, upperQuartile } = repeatsOf([8, 3, 1, 7, 5, 2, 6, 4]);
    expect([lowerQuartile, upperQuartile]).toEqual([2.75, 6.25]);
    const five = repeatsOf([1, 2, 3, 4, 5]);
    expect([five.lowerQuartile, five.upperQuartile]).toEqual([2, 4]);
  });

  it('lie in order', () => {
    fc.assert(
      fc.property(some, values => {
        const { smallest, lowerQuartile, median, upperQuartile, largest, mean } = repeatsOf(values);
        const inOrder = [smallest, lowerQuartile, median, upperQuartile, largest];
        expect(inOrder).toEqual(inOrder.toSorted((a, b) => a - b));
        expect(mean).toBeGreaterThanOrEqual(smallest - 1e-9);
        expect(mean).toBeLessThanOrEqual(largest + 1e-9);
      }),
    );
  });

  it('do not spread more when all move alike, even by ten million', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 4096 }), { minLength: 2, maxLength: 30 }), counts => {
        // Quarters, so that the shifted values are exact.
        const values = counts.map(count => count / 4);
        const shifted = values.map(value => value + 1e7);
        expect(Math.abs(standardDeviation(shifted) - standardDeviation(values))).toBeLessThan(1e-9);
      }),
    );
  });

  it('leave their list as it was', () => {
    const values = Object.freeze([3, 1, 2]);
    repeatsOf(values);
    expect(values).toEqual([3, 1, 2]);
  });

  it('need values', () => {
    expect(() => repeatsOf([])).toThrow(RangeError);
    expect(() => meanOf([])).toThrow(RangeError);
    expect(() => standardDeviation([1])).toThrow(RangeError);
    expect(() => correlation([1, 2], [1])).toThrow(RangeError);
  });
});

describe('sums and correlations', () => {
  // The example Neumaier's correction was made for: a plain sum gives 0.
  it('lose nothing between large and small', () => {
    expect(sumOf([1, 1e100, 1, -1e100])).toBe(2);
  });

  it('are 1 for a rising and −1 for a falling line', () => {
    expect(correlation([1, 2, 4], [3, 5, 9])).toBeCloseTo(1, 12);
    expect(correlation([1, 2, 4], [-3, -5, -9])).toBeCloseTo(-1, 12);
  });

  it('show a drift through the day', () => {
    expect(lagOneCorrelation(Array.from({ length: 40 }, (_, i) => 6 + 0.01 * i))).toBeGreaterThan(0.9);
    expect(lagOneCorrelation([6, 7, 6, 7, 6, 7, 6, 7])).toBeLessThan(-0.8);
  });
});
