/** Passing a speed just as the brakes come on: the closed form of a deceleration that rises evenly. */
import { describe, expect, it } from 'vitest';
import { passingAtBrakes } from '../../pipeline/measurement/brake-onset.ts';
import type { Crossing } from '../../pipeline/measurement/crossing.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { type Point, traceOf } from '../trace/points.ts';

const ONSET_S = 2.013;
const FULL_MPS2 = 9;
const FROM_MPS = 27.9;

/** Rolls at −0.4 m/s², then brakes with a deceleration that takes `riseS` to its full value. */
const speedAt = (t: number, riseS: number): number => {
  const x = t - ONSET_S;
  const lost = x <= 0 ? 0 : x < riseS ? (x * x) / (2 * riseS) : x - riseS / 2;
  return FROM_MPS - 0.4 * t - FULL_MPS2 * lost;
};
function passed(riseS: number, { rateHz = 25, scatterMps = 0.01, gap = -1 } = {}) {
  const random = randomFromSeed(11);
  const points = Array.from({ length: 3 * rateHz }, (_, k): Point => {
    const t = k / rateHz;
    return [t, speedAt(t, riseS) + scatterMps * random.normal()];
  });
  const gaps = gap < 0 ? [] : [{ index: gap, fromS: gap / rateHz, toS: (gap + 1) / rateHz }];
  const trace = traceOf(points, { rateHz, noiseMps: 0.01, gaps });
  // Half a metre a second below the speed at the onset.
  const targetMps = FROM_MPS - 0.4 * ONSET_S - 0.5;
  let [low, high] = [ONSET_S, ONSET_S + 1];
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (speedAt(middle, riseS) > targetMps) low = middle;
    else high = middle;
  }
  const index = trace.speedMps.findIndex((speed, k) => trace.timeS[k]! > 1.9 && speed < targetMps) - 1;
  const near: Crossing = {
    timeS: (trace.timeS[index]! + trace.timeS[index + 1]!) / 2,
    index,
    slopeMps2: -FULL_MPS2,
    noiseS: 0.01,
    interpolationS: 0.01,
    gapS: 0,
  };
  return {
    near,
    trueS: low,
    found: passingAtBrakes(trace, near, 0, points.length - 1, targetMps),
    trace,
    index,
  };
}

describe('the instant a speed is passed as the brakes come on', () => {
  it.each([0.08, 0.12, 0.2, 0.25, 0.32])('is found within 5 ms where brakes rise in %d s', riseS => {
    for (const rateHz of [10, 25, 100]) {
      const { found, trueS, trace } = passed(riseS, { rateHz });
      expect(Math.abs(found.timeS - trueS), `${rateHz} Hz`).toBeLessThan(0.005);
      expect(found.noiseS).toBeLessThan(0.012);
      expect(found.slopeMps2).toBeLessThan(-1);
      expect(found.slopeMps2).toBeGreaterThan(-FULL_MPS2 - 1);
      expect(trace.timeS[found.index]!).toBeLessThanOrEqual(found.timeS);
      expect(trace.timeS[found.index + 1]!).toBeGreaterThan(found.timeS);
      expect([found.interpolationS, found.gapS]).toEqual([0, 0]);
    }
  });

  it('is left where it was at a gap among its readings, and where there are too few', () => {
    const clear = passed(0.2);
    expect(clear.found).not.toBe(clear.near);
    for (const gap of [clear.index - 5, clear.index, clear.index + 5]) {
      const { found, near } = passed(0.2, { gap });
      expect(found).toBe(near);
    }
    expect(passed(0.2, { gap: clear.index + 20 }).found).not.toBe(clear.near);
    const few = passed(0.2, { rateHz: 2 });
    expect(few.found).toBe(few.near);
  });

  it('is left where it was where no braking explains the readings', () => {
    const { near } = passed(0.2);
    const rising = traceOf(Array.from({ length: 75 }, (_, k): Point => [k / 25, 20 + k / 25]));
    expect(passingAtBrakes(rising, near, 0, 74, 22)).toBe(near);
  });

  it('is known less where the readings scatter more than the log does at rest', () => {
    const calm = passed(0.2, { rateHz: 50 });
    const scattered = passed(0.2, { rateHz: 50, scatterMps: 0.05 });
    expect(scattered.found.noiseS / calm.found.noiseS).toBeGreaterThan(2.5);
    expect(Math.abs(scattered.found.timeS - scattered.trueS)).toBeLessThan(2 * scattered.found.noiseS);
  });
});
