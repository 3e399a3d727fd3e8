import { describe, expect, it } from 'vitest';
import { c4, expectedGainOfBest, expectedSmallest } from '../../pipeline/compare/best-of-n.ts';
import { seededDraws } from '../../pipeline/compare/monte-carlo.ts';

describe('the best of many', () => {
  it('of one is the mean', () => {
    expect(Math.abs(expectedSmallest(1))).toBeLessThan(1e-14);
  });

  // Closed form for four: 6/(π√π) · atan(√2) (Bose and Gupta, Biometrika 46 (1959) 433).
  it('of four meets its closed form', () => {
    expect(expectedSmallest(4)).toBeCloseTo(
      (-6 / (Math.PI * Math.sqrt(Math.PI))) * Math.atan(Math.SQRT2),
      12,
    );
  });

  // Harter 1961, table of expected normal order statistics: n = 50 2.24907, n = 100 2.50759.
  it('of fifty and a hundred agrees with Harter’s table', () => {
    expect(expectedSmallest(50)).toBeCloseTo(-2.24907, 5);
    expect(expectedSmallest(100)).toBeCloseTo(-2.50759, 5);
  });

  it('gets better with every attempt, by less each time', () => {
    let before = expectedSmallest(1);
    let gain = Number.POSITIVE_INFINITY;
    for (let n = 2; n <= 40; n++) {
      const now = expectedSmallest(n);
      expect(now).toBeLessThan(before);
      expect(before - now).toBeLessThan(gain);
      gain = before - now;
      before = now;
    }
  });

  it('is what simulated days give', () => {
    const draws = seededDraws(7);
    const days = 40_000;
    let sum = 0;
    for (let day = 0; day < days; day++) {
      sum += Math.min(...Array.from({ length: 6 }, () => draws.normal(0, 1)));
    }
    expect(Math.abs(sum / days - expectedSmallest(6))).toBeLessThan(0.015);
  });

  it('is told in seconds from the spread of the attempts there were', () => {
    expect(expectedGainOfBest(6, 0.1 * c4(8), 8)).toBeCloseTo(0.126721, 5);
  });

  it('needs attempts', () => {
    for (const n of [0, -1, 1.5, Number.NaN]) expect(() => expectedSmallest(n)).toThrow(RangeError);
    expect(() => c4(1)).toThrow(RangeError);
  });
});
