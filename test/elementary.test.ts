/** Held to the engine's own functions, which differ from each other by at most a unit in the last place, and to identities. */
import { describe, expect, it } from 'vitest';
import { exp, log, log1p } from '../pipeline/elementary.ts';

const spread = (count: number, from: number, to: number): readonly number[] =>
  Array.from({ length: count }, (_, k) => from + ((to - from) * (k + 0.37)) / count);

const relative = (value: number, wanted: number): number => Math.abs(value - wanted) / Math.abs(wanted);

describe('the exponential', () => {
  it('is that of the engine to a unit in the last place', () => {
    const points = [...spread(20_000, -700, 700), ...spread(20_000, -2, 2), ...spread(2000, -1e-6, 1e-6)];
    for (const x of points) expect(relative(exp(x), Math.exp(x)), String(x)).toBeLessThanOrEqual(2 ** -52);
  });

  it('keeps to its ends', () => {
    expect([0, 1, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, -800, 800].map(exp)).toEqual([
      1,
      Math.E,
      0,
      Number.POSITIVE_INFINITY,
      0,
      Number.POSITIVE_INFINITY,
    ]);
    expect(exp(-744)).toBe(Math.exp(-744));
    expect(exp(Number.NaN)).toBeNaN();
  });
});

describe('the logarithm', () => {
  it('is that of the engine to a unit in the last place', () => {
    const points = [...spread(20_000, 1e-6, 40), ...spread(5000, 0.99, 1.01), ...spread(500, 1e-310, 1e-305)];
    for (const x of points) {
      // Beside 1 the last place of the logarithm is that of the number it is the logarithm of.
      expect(Math.abs(log(x) - Math.log(x)), String(x)).toBeLessThanOrEqual(2 ** -52 * Math.abs(Math.log(x)));
    }
  });

  it('is exact at powers of two within their last place, and at its ends', () => {
    for (let k = -1000; k <= 1000; k += 50) {
      expect(Math.abs(log(2 ** k) - k * Math.LN2)).toBeLessThanOrEqual(2 ** -52 * Math.abs(k));
    }
    expect([0, 1, Number.POSITIVE_INFINITY].map(log)).toEqual([
      Number.NEGATIVE_INFINITY,
      0,
      Number.POSITIVE_INFINITY,
    ]);
    expect(log(-1)).toBeNaN();
  });

  it('of 1 + x keeps what the sum loses', () => {
    for (const x of [...spread(2000, -0.9, 5), 1e-20, 1e-12, -1e-9]) {
      expect(relative(log1p(x), Math.log1p(x)), String(x)).toBeLessThanOrEqual(2 ** -51);
    }
  });
});
