import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { medianInterval, medianIntervalCoverage } from '../../pipeline/compare/median-interval.ts';

describe('medianInterval', () => {
  it('does not exist at 95 % below six values', () => {
    for (let n = 0; n < 6; n++)
      expect(medianInterval(Array.from({ length: n }, (_, i) => i))).toBeUndefined();
    expect(medianInterval([1, 2, 3, 4, 5], 0.9)).toEqual({ low: 1, high: 5, k: 1, coverage: 0.9375 });
  });

  // Table of k for two-sided 95 % (Conover, Practical Nonparametric Statistics, from memory): n 6–8: 1, 9–11: 2, 12–14: 3.
  it('takes the k of the printed tables', () => {
    const printed = [1, 1, 1, 2, 2, 2, 3, 3, 3, 4, 4, 5, 5, 5, 6];
    printed.forEach((k, i) => {
      const values = Array.from({ length: 6 + i }, (_, j) => j + 1);
      expect(medianInterval(values), `n ${6 + i}`).toMatchObject({ k, low: k, high: 7 + i - k });
    });
  });

  it('covers at least what was asked and holds the sample median', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 100, noNaN: true }), { minLength: 1, maxLength: 60 }),
        fc.constantFrom(0.5, 0.9, 0.95, 0.99),
        (values, coverage) => {
          const interval = medianInterval(values, coverage);
          if (interval === undefined) {
            expect(medianIntervalCoverage(values.length, 1)).toBeLessThan(coverage);
            return;
          }
          const { low, high, k } = interval;
          expect(interval.coverage).toBeGreaterThanOrEqual(coverage);
          expect(values.filter(value => value < low).length).toBeLessThan(k);
          expect(values.filter(value => value > high).length).toBeLessThan(k);
          expect(low).toBeLessThanOrEqual(high);
        },
      ),
    );
  });
});
