import { describe, expect, it } from 'vitest';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { thresholdStartS, thresholdTimeS } from '../../pipeline/measurement/threshold-clock.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { FIXTURE_PLAN, launchAt, testFixture } from '../result/fixture.ts';
import { CARS } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';

const HUNDRED = kmhToMps(100);

describe('a clock that starts at 1 km/h', () => {
  it('starts at the first reading at or over it', () => {
    const { attempts } = testFixture();
    for (const [index, { trace, measurement }] of attempts.entries()) {
      const startS = thresholdStartS(trace, measurement)!;
      const { launch } = FIXTURE_PLAN.attempts[index]!;
      const reading = trace.timeS.indexOf(startS);
      expect(trace.speedMps[reading]).toBeGreaterThanOrEqual(kmhToMps(1));
      expect(trace.speedMps[reading - 1]).toBeLessThan(kmhToMps(1));
      expect(trace.speedMps[reading]).toBeLessThan(launchAt(launch, 1).speedMps);
    }
  });

  it('ends where the published time ends: the two differ by their start alone', () => {
    const trace = { timeS: Float64Array.of(0, 1, 2, 3), speedMps: Float64Array.of(0, 0.1, 0.5, 4) };
    const whole = { ...testFixture().attempts[0]!.trace, ...trace };
    const measurement = {
      run: { number: 1, kind: 'standing-start', status: 'complete', beginIndex: 0, endIndex: 3 },
      start: { firstMovementS: 0.75, rolloutS: 1, uncertaintyS: 0 },
    } as const;
    const split = { startRule: 'first-movement', timeS: 9 } as const;
    expect(thresholdTimeS(whole, measurement, split)).toBe(0.75 + 9 - 2);
    expect(thresholdTimeS(whole, measurement, { ...split, startRule: 'one-foot-rollout' })).toBeUndefined();
  });

  it('misses what constant jerk does before it: √(2 v/j), closed form', () => {
    // 16 m/s³: 4 m/s² reached in a quarter of a second.
    const jerk = 16;
    const { trace, measurement } = testFixture().attempts[0]!;
    const timeS = Float64Array.from({ length: 1001 }, (_, i) => i / 1000 - 0.5);
    const speedMps = timeS.map(t => (t < 0 ? 0 : (jerk * t * t) / 2));
    const run = { ...measurement.run, beginIndex: 0, endIndex: 1000 };
    const startS = thresholdStartS({ ...trace, timeS, speedMps }, { run })!;
    expect(startS).toBeGreaterThanOrEqual(Math.sqrt((2 * kmhToMps(1)) / jerk));
    expect(startS).toBeLessThan(Math.sqrt((2 * kmhToMps(1)) / jerk) + 0.001);
  });

  it('prints a shorter time than the car took by a tenth or two, on simulated days with known truth', () => {
    const flattery = CARS.flatMap((car, c) =>
      [10, 25].flatMap((rateHz, r) => {
        const day = simulateDay({ seed: 900 + 10 * c + r, car, rateHz, noiseMps: kmhToMps(0.06), runs: 10 });
        const { trace, measurements } = measureLog(day.toLog());
        return day.truth.flatMap(truth => {
          const run = measurements.find(
            one => one.run.kind === 'standing-start' && Math.abs(one.beginsS - truth.beginsS) < 1.5,
          );
          const known = truth.speedSplits.find(({ toMps }) => Math.abs(toMps - HUNDRED) < 1e-6);
          const split = run?.speedSplits.find(
            ({ toMps, startRule }) => startRule === 'first-movement' && Math.abs(toMps - HUNDRED) < 1e-6,
          );
          if (run === undefined || known === undefined || split === undefined) return [];
          return [{ error: thresholdTimeS(trace, run, split)! - known.timeS, car: car.id, rateHz }];
        });
      }),
    );
    expect(flattery.length).toBeGreaterThan(60);
    const meanOf = (errors: readonly number[]): number =>
      errors.reduce((sum, error) => sum + error, 0) / errors.length;
    for (const car of CARS) {
      const own = meanOf(flattery.filter(one => one.car === car.id).map(({ error }) => error));
      expect(own, car.id).toBeLessThan(-0.1);
      expect(own, car.id).toBeGreaterThan(-0.3);
    }
    // The first reading beyond the threshold comes half an interval after it on average; the rest is the threshold's.
    const threshold = meanOf(flattery.map(({ error, rateHz }) => error + 0.5 / rateHz));
    expect(threshold).toBeLessThan(-0.1);
    expect(threshold).toBeGreaterThan(-0.2);
  });
});
