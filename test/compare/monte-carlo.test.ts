import { describe, expect, it } from 'vitest';
import { propagate, seededDraws } from '../../pipeline/compare/monte-carlo.ts';

describe('seeded draws', () => {
  it('are the same for the same seed and others for another', () => {
    const list = (seed: number): number[] => {
      const draws = seededDraws(seed);
      return Array.from({ length: 20 }, () => draws.even());
    };
    expect(list(5)).toEqual(list(5));
    expect(list(5)).not.toEqual(list(6));
    expect(new Set(list(0)).size).toBe(20);
  });

  it('fill a hundred equal boxes evenly', () => {
    const draws = seededDraws(1);
    const boxes = new Array<number>(100).fill(0);
    for (let i = 0; i < 100_000; i++) boxes[Math.floor(draws.even() * 100)]! += 1;
    const chiSquare = boxes.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    // 99 degrees of freedom: 0.001 of all generators are above 148.2, 0.001 below 60.4 (table of chi square).
    expect(chiSquare).toBeGreaterThan(60.4);
    expect(chiSquare).toBeLessThan(148.2);
  });

  it('of the normal distribution have its moments', () => {
    const draws = seededDraws(2);
    const n = 200_000;
    let first = 0;
    let second = 0;
    let fourth = 0;
    for (let i = 0; i < n; i++) {
      const z = draws.normal(0, 1);
      first += z / n;
      second += z ** 2 / n;
      fourth += z ** 4 / n;
    }
    expect(Math.abs(first)).toBeLessThan(0.01);
    expect(Math.abs(second - 1)).toBeLessThan(0.015);
    expect(Math.abs(fourth - 3)).toBeLessThan(0.1);
  });
});

describe('propagate', () => {
  it('gives the known mean, uncertainty and interval of one rectangular input', () => {
    const result = propagate(draws => draws.rectangular(2, 4), { seed: 3 });
    expect(result.mean).toBeCloseTo(3, 2);
    expect(result.standardUncertainty).toBeCloseTo(1 / Math.sqrt(3), 2);
    expect(result.low).toBeCloseTo(2.05, 2);
    expect(result.high).toBeCloseTo(3.95, 2);
    expect(result.shortestHigh - result.shortestLow).toBeLessThanOrEqual(result.high - result.low);
  });

  it('puts the shortest interval of a lopsided result at its steep end', () => {
    // Exponential: the shortest 95 % interval is from 0 to ln 20, the even one from −ln 0.975 to ln 40.
    const result = propagate(draws => -Math.log(1 - draws.even()), { seed: 4 });
    expect(result.shortestLow).toBeLessThan(0.01);
    expect(result.shortestHigh).toBeCloseTo(Math.log(20), 1);
    expect(result.low).toBeCloseTo(-Math.log(0.975), 2);
    expect(result.high).toBeCloseTo(Math.log(40), 1);
  });

  it('refuses too few draws, and a model that fails', () => {
    expect(() => propagate(() => 1, { seed: 1, draws: 10 })).toThrow(RangeError);
    expect(() => propagate(() => Number.NaN, { seed: 1 })).toThrow(RangeError);
  });
});
