/** Whole days with known truth: every run found, none invented, and the figures as near as is claimed. */
import { describe, expect, it } from 'vitest';
import { type MeasuredLog, measureLog } from '../../pipeline/measurement/measure.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { CARS } from '../simulate/cars.ts';
import { type SimulatedDay, simulateDay } from '../simulate/day.ts';
import type { TrueRun } from '../simulate/truth.ts';

interface Day {
  readonly name: string;
  readonly day: SimulatedDay;
  readonly measured: MeasuredLog;
}

const RATES_HZ = [10, 20, 25, 100];
const NOISES_KMH = [0.03, 0.065, 0.1];
const DAYS: readonly Day[] = CARS.flatMap((car, c) =>
  RATES_HZ.flatMap((rateHz, r) =>
    NOISES_KMH.map((noiseKmh, n) => {
      const seed = 100 * c + 10 * r + n + 1;
      const day = simulateDay({ seed, car, rateHz, noiseMps: kmhToMps(noiseKmh), rolling: 1 });
      return { name: `${car.id} ${rateHz} Hz ${noiseKmh} km/h`, day, measured: measureLog(day.toLog()) };
    }),
  ),
);

/** A measured run belongs to the true one of its kind that begins within a second and a half. */
const runFor = (truth: TrueRun, { measurements }: MeasuredLog): RunMeasurement | undefined =>
  measurements.find(one => one.run.kind === truth.kind && Math.abs(one.beginsS - truth.beginsS) < 1.5);
const pairs = DAYS.flatMap(({ day, measured }) =>
  day.truth.flatMap(truth => {
    const run = runFor(truth, measured);
    return run === undefined ? [] : [{ truth, run }];
  }),
);

interface Error {
  readonly error: number;
  readonly expanded: number;
}
const rms = (errors: readonly Error[]): number =>
  Math.sqrt(errors.reduce((sum, { error }) => sum + error * error, 0) / errors.length);
const bias = (errors: readonly Error[]): number =>
  errors.reduce((sum, { error }) => sum + error, 0) / errors.length;
const coverage = (errors: readonly Error[]): number =>
  errors.filter(({ error, expanded }) => Math.abs(error) <= expanded).length / errors.length;

const toHundred = (rule: 'first-movement' | 'one-foot-rollout'): Error[] =>
  pairs.flatMap(({ truth, run }) => {
    const same = (toMps: number): boolean => Math.abs(toMps - kmhToMps(100)) < 1e-6;
    const known = truth.speedSplits.find(({ toMps }) => same(toMps));
    const found = run.speedSplits.find(({ toMps, startRule }) => startRule === rule && same(toMps));
    if (known === undefined || found === undefined) return [];
    const trueS = rule === 'first-movement' ? known.timeS : known.rolloutTimeS;
    return [{ error: found.timeS - trueS, expanded: found.uncertaintyS }];
  });
const stops = pairs.flatMap(({ truth, run }) =>
  truth.braking.flatMap(known => {
    const found = run.braking.find(({ fromMps }) => Math.abs(fromMps - known.fromMps) < 1e-6);
    return found === undefined ? [] : [{ known, found }];
  }),
);

describe('simulated days', () => {
  it.each(DAYS)('finds every run of $name and invents none', ({ day, measured }) => {
    const found = measured.measurements.map(({ run, beginsS }) => [run.kind, run.status, beginsS] as const);
    expect(found.map(([kind, status]) => [kind, status])).toEqual(
      day.truth.map(({ kind, status }) => [kind, status]),
    );
    for (const [k, truth] of day.truth.entries()) {
      expect(Math.abs(found[k]![2] - truth.beginsS), `${truth.kind} at ${truth.beginsS}`).toBeLessThan(1.5);
    }
    expect(measured.warnings).toEqual([]);
  });

  it('times 0–100 km/h from first movement within 0.005 s on average and 0.02 s rms', () => {
    const errors = toHundred('first-movement');
    expect(errors.length).toBeGreaterThan(250);
    expect(Math.abs(bias(errors))).toBeLessThan(0.005);
    expect(rms(errors)).toBeLessThan(0.02);
    expect(coverage(errors)).toBeGreaterThan(0.92);
  });

  it('times 0–100 km/h after one foot within 0.008 s rms', () => {
    const errors = toHundred('one-foot-rollout');
    expect(Math.abs(bias(errors))).toBeLessThan(0.002);
    expect(rms(errors)).toBeLessThan(0.008);
    expect(coverage(errors)).toBeGreaterThan(0.92);
  });

  it('measures stopping distances within 0.2 m rms and MFDD within 1 %', () => {
    expect(stops.length).toBeGreaterThan(150);
    const errors = stops.map(({ known, found }) => ({
      error: found.distanceM - known.distanceM,
      expanded: found.uncertaintyM,
    }));
    expect(rms(errors)).toBeLessThan(0.2);
    expect(coverage(errors)).toBeGreaterThan(0.92);
    for (const { known, found } of stops) {
      expect(Math.abs(found.mfddMps2! / known.mfddMps2 - 1)).toBeLessThan(0.01);
    }
  });

  it('measures every true split, so that no figure is missing', () => {
    const counted = pairs.map(({ truth, run }) => {
      // Whether a speed was reached that is the highest of the run within the noise is for nobody to say.
      const below = ({ toMps }: { readonly toMps: number }): boolean => Math.abs(toMps - truth.topMps) > 0.2;
      return [
        truth.speedSplits.filter(below).length * 2 +
          (truth.kind === 'rolling' ? truth.rollingSplits.filter(below).length : 0),
        run.speedSplits.filter(below).length,
      ];
    });
    expect(counted.filter(([known, found]) => known !== found)).toEqual([]);
  });
});
