/**
 * Stops whose speed is passed while deceleration still rises, or just has risen: readings at a high rate tell the
 * instant better than any fixed steps of onset and rise, and the stated interval must follow the error that is left.
 * The distance has a closed form; where the car comes to rest is taken as known, so that the passing alone is tried.
 */
import { describe, expect, it } from 'vitest';
import { measureBraking } from '../../pipeline/measurement/braking.ts';
import type { Stop } from '../../pipeline/measurement/stop.ts';
import type { Run } from '../../pipeline/run/run.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { type Point, traceOf } from '../trace/points.ts';

const FROM_MPS = 100 / 3.6;
const ROLLING_MPS2 = 0.25;
const BEFORE_S = 1;
const RUNS = 120;

/** Errors and expanded uncertainties of stops that pass 100 km/h after these shares of the rise. */
function stops(rateHz: number, leastShare: number, mostShare: number) {
  const random = randomFromSeed(rateHz + 1000 * leastShare);
  return Array.from({ length: RUNS }, (_, k) => {
    const scatterMps = [0.008, 0.018, 0.028][k % 3]!;
    const riseS = random.between(0.04, 0.35);
    const full = random.between(8, 9.5);
    const passedS = random.between(leastShare, mostShare) * riseS;
    const lostAt = (x: number): number =>
      x <= 0 ? 0 : x < riseS ? (full * x * x) / (2 * riseS) : full * (x - riseS / 2);
    const speedAt = (x: number): number =>
      FROM_MPS + lostAt(passedS) - lostAt(x) - ROLLING_MPS2 * (x - passedS);
    // Rest, seconds after the onset: from there back deceleration is even until the rise.
    const restS = riseS + speedAt(riseS) / (full + ROLLING_MPS2);
    const leftM = (x: number): number => ((full + ROLLING_MPS2) * (restS - x) ** 2) / 2;
    // Speed is a parabola until deceleration is full: Simpson's rule is exact.
    const risingS = Math.max(0, riseS - passedS);
    const middleMps = speedAt(passedS + risingS / 2);
    const trueM =
      leftM(Math.max(riseS, passedS)) + ((FROM_MPS + 4 * middleMps + speedAt(riseS)) * risingS) / 6;
    const onsetS = BEFORE_S + random.between(0, 1 / rateHz);
    const count = Math.floor((onsetS + restS) * rateHz);
    const points = Array.from({ length: count }, (_point, i): Point => {
      return [i / rateHz, speedAt(i / rateHz - onsetS) + scatterMps * random.normal()];
    });
    const trace = traceOf(points, { rateHz, noiseMps: scatterMps });
    const last = count - 1;
    const braking = { beginIndex: 0, endIndex: last };
    const stop = {
      atS: onsetS + restS,
      sdS: 0,
      lastMovingIndex: last,
      lastM: leftM(trace.timeS[last]! - onsetS),
      distanceSdM: 0,
    };
    const figures = measureBraking(
      trace,
      { beginIndex: 0, braking } as unknown as Run,
      stop as unknown as Stop,
      0,
    );
    const { distanceM, uncertaintyM } = figures.find(({ fromMps }) => Math.abs(fromMps - FROM_MPS) < 1e-9)!;
    return { error: distanceM - trueM, expanded: uncertaintyM };
  });
}

describe('stops passed as deceleration rises', () => {
  const cells = [10, 25, 100].flatMap(rateHz =>
    [
      [0.3, 0.6],
      [0.6, 1],
      [1, 1.5],
    ].map(([least, most]) => [rateHz, least!, most!] as const),
  );
  it.each(cells)('keep their interval at %d Hz, passed after %d to %d of the rise', (rateHz, least, most) => {
    const list = stops(rateHz, least, most);
    const held = list.filter(({ error, expanded }) => Math.abs(error) <= expanded).length;
    const bias = list.reduce((sum, { error }) => sum + error, 0) / RUNS;
    expect(Math.abs(bias)).toBeLessThan(0.02);
    expect(held / RUNS).toBeGreaterThanOrEqual(0.9);
  });
});
