import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLine } from '../../pipeline/compare/line-fit.ts';
import {
  combine,
  effectiveDegreesOfFreedom,
  firstOrderUncertainty,
} from '../../pipeline/compare/uncertainty.ts';

const small = fc.double({ min: 0.001, max: 10, noNaN: true });

describe('propagation', () => {
  it('of independent sums is the root sum of squares', () => {
    fc.assert(
      fc.property(small, small, small, (a, b, c) => {
        const covariances = [
          [a * a, 0, 0],
          [0, b * b, 0],
          [0, 0, c * c],
        ];
        const sum = firstOrderUncertainty(([x = 0, y = 0, z = 0]) => x + y - z, [3, 4, 5], covariances);
        expect(sum).toBeCloseTo(combine([a, b, c]), 9);
      }),
    );
  });

  it('of what is common to both cancels in a difference and doubles in a sum', () => {
    const common = [
      [4, 4],
      [4, 4],
    ];
    expect(firstOrderUncertainty(([x = 0, y = 0]) => x - y, [1, 1], common)).toBeCloseTo(0, 9);
    expect(firstOrderUncertainty(([x = 0, y = 0]) => x + y, [1, 1], common)).toBeCloseTo(4, 9);
  });

  it('keeps the degrees of freedom between the fewest and the sum', () => {
    fc.assert(
      fc.property(
        small,
        small,
        fc.integer({ min: 1, max: 30 }),
        fc.integer({ min: 1, max: 30 }),
        (a, b, m, n) => {
          const effective = effectiveDegreesOfFreedom([
            { uncertainty: a, degreesOfFreedom: m },
            { uncertainty: b, degreesOfFreedom: n },
          ]);
          expect(effective).toBeGreaterThanOrEqual(Math.min(m, n) * (1 - 1e-9));
          expect(effective).toBeLessThanOrEqual((m + n) * (1 + 1e-9));
        },
      ),
    );
    const stated = { uncertainty: 1, degreesOfFreedom: Number.POSITIVE_INFINITY };
    expect(effectiveDegreesOfFreedom([{ uncertainty: 1, degreesOfFreedom: 5 }, stated])).toBeCloseTo(20, 9);
  });
});

describe('fitLine', () => {
  it('finds a line it was made from, with no uncertainty', () => {
    const line = fitLine([1, 2, 4, 7], [5, 7, 11, 17]);
    expect(line.intercept).toBeCloseTo(3, 12);
    expect(line.slope).toBeCloseTo(2, 12);
    expect(line.residualSd).toBeLessThan(1e-12);
    expect(line.at(10).value).toBeCloseTo(23, 12);
  });

  // Worked out by hand:
  // x 0 1 2, y 0 1 3: slope 1.5, intercept −1/6, residual sum of squares 1/6, so s² = 1/6, u(slope) = √(1/12).
  it('gives uncertainties worked out by hand', () => {
    const line = fitLine([0, 1, 2], [0, 1, 3]);
    expect(line.slope).toBeCloseTo(1.5, 12);
    expect(line.intercept).toBeCloseTo(-1 / 6, 12);
    expect(line.residualSd).toBeCloseTo(Math.sqrt(1 / 6), 12);
    expect(line.slopeUncertainty).toBeCloseTo(Math.sqrt(1 / 12), 12);
    expect(line.interceptUncertainty).toBeCloseTo(Math.sqrt((1 / 6) * (5 / 6)), 12);
    expect(line.at(1).uncertainty).toBeCloseTo(Math.sqrt(1 / 18), 12);
  });

  it('takes a level line for what it is and refuses an upright one', () => {
    expect(fitLine([1, 2, 3], [4, 4, 4]).slope).toBe(0);
    expect(() => fitLine([2, 2, 2], [1, 2, 3])).toThrow(RangeError);
    expect(() => fitLine([1, 2], [1, 2])).toThrow(RangeError);
  });
});
