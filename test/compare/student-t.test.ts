import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { studentTFactor, studentTQuantile } from '../../pipeline/compare/student-t.ts';

describe('studentTQuantile', () => {
  // p < 1: one degree is the Cauchy distribution, two have a closed form.
  it('meets the closed forms of one and two degrees of freedom', () => {
    for (const p of [0.001, 0.025, 0.2, 0.5, 0.7, 0.95, 0.975, 0.995, 0.9999]) {
      const cauchy = Math.tan(Math.PI * (p - 0.5));
      expect(Math.abs(studentTQuantile(p, 1) - cauchy)).toBeLessThan(1e-10 * (1 + Math.abs(cauchy)));
      const two = (2 * p - 1) / Math.sqrt(2 * p * (1 - p));
      expect(Math.abs(studentTQuantile(p, 2) - two)).toBeLessThan(1e-10 * (1 + Math.abs(two)));
    }
  });

  // @stdlib/stats-base-dists-t 0.2.2, quantile(0.975, 5): 2.570581835636314.
  it('agrees with a reference library to twelve digits', () => {
    expect(studentTQuantile(0.975, 5)).toBeCloseTo(2.570581835636314, 12);
  });

  // JCGM 100:2008, table G.2, two-sided 95 %, 99 % (columns as printed there).
  it('agrees with the printed table G.2 of JCGM 100', () => {
    const printed: readonly (readonly [number, number, number])[] = [
      [1, 12.71, 63.66],
      [2, 4.3, 9.92],
      [3, 3.18, 5.84],
      [4, 2.78, 4.6],
      [5, 2.57, 4.03],
      [8, 2.31, 3.36],
      [10, 2.23, 3.17],
      [16, 2.12, 2.92],
      [20, 2.09, 2.85],
      [50, 2.01, 2.68],
      [100, 1.984, 2.626],
    ];
    for (const [degrees, t95, t99] of printed) {
      const digits = degrees === 100 ? 0.0005 : 0.005;
      expect(Math.abs(studentTFactor(0.95, degrees) - t95), `95 %, ${degrees}`).toBeLessThanOrEqual(digits);
      expect(Math.abs(studentTFactor(0.99, degrees) - t99), `99 %, ${degrees}`).toBeLessThanOrEqual(digits);
    }
  });

  // Standard normal 0.975 quantile: 1.959963984540054 (any table).
  it('comes to the normal distribution for many degrees of freedom', () => {
    expect(studentTQuantile(0.975, 1e8)).toBeCloseTo(1.959963984540054, 6);
  });

  it('is odd about one half, grows with p and shrinks with degrees of freedom', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.51, max: 0.999, noNaN: true }),
        fc.double({ min: 0.6, max: 300, noNaN: true }),
        (p, degrees) => {
          const t = studentTQuantile(p, degrees);
          expect(Math.abs(studentTQuantile(1 - p, degrees) + t)).toBeLessThanOrEqual(1e-8 * t);
          expect(studentTQuantile(p + (1 - p) / 2, degrees)).toBeGreaterThan(t);
          expect(studentTQuantile(p, degrees + 1)).toBeLessThan(t);
        },
      ),
    );
  });

  it('refuses what is no probability and no degree of freedom', () => {
    for (const p of [0, 1, -0.1, Number.NaN]) expect(() => studentTQuantile(p, 5)).toThrow(RangeError);
    for (const degrees of [0, -1, Number.NaN])
      expect(() => studentTQuantile(0.9, degrees)).toThrow(RangeError);
  });
});
