import { describe, expect, it } from 'vitest';
import { readLog } from '../../pipeline/log/readers.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { AUTOMATIC_ESTATE, DIESEL_VAN, ELECTRIC_HATCH, MANUAL_TURBO } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';
import { writeGpx } from '../simulate/write-log.ts';

const CARS = [ELECTRIC_HATCH, AUTOMATIC_ESTATE, MANUAL_TURBO, DIESEL_VAN];
const SEEDS = Array.from({ length: 8 }, (_, i) => 901 + i);

/** One drive as GPX, with its speeds recorded and with positions alone. */
function bothWays(
  seed: number,
  rateHz: number,
): readonly [readonly RunMeasurement[], readonly RunMeasurement[]] {
  const day = simulateDay({
    seed,
    car: CARS[seed % CARS.length]!,
    rateHz,
    noiseMps: 0.03,
    runs: 4,
    aborted: 0,
  });
  const measured = (speed: boolean) => {
    const bytes = writeGpx(day.samples, { startMs: Date.parse('2026-09-15T09:00:00Z'), speed });
    return measureLog(readLog('drive.gpx', bytes)).measurements;
  };
  return [measured(true), measured(false)];
}

interface Apart {
  readonly difference: number;
  readonly uncertainty: number;
}

/** How far the figures from positions are from those of the recorded speed, with both uncertainties together. */
function differences(rateHz: number): { times: Apart[]; stops: Apart[]; mfdd: Apart[] } {
  const found = { times: [] as Apart[], stops: [] as Apart[], mfdd: [] as Apart[] };
  for (const seed of SEEDS) {
    const [recorded, derived] = bothWays(seed, rateHz);
    for (const run of recorded) {
      const twin = derived.find(({ beginsS }) => Math.abs(beginsS - run.beginsS) < 3);
      if (!twin) continue;
      for (const split of run.speedSplits) {
        const other = twin.speedSplits.find(
          ({ startRule, fromMps, toMps }) =>
            startRule === split.startRule && fromMps === split.fromMps && toMps === split.toMps,
        );
        if (other)
          found.times.push({
            difference: Math.abs(other.timeS - split.timeS),
            uncertainty: Math.hypot(other.uncertaintyS, split.uncertaintyS),
          });
      }
      for (const stop of run.braking) {
        const other = twin.braking.find(({ fromMps }) => fromMps === stop.fromMps);
        if (!other) continue;
        found.stops.push({
          difference: Math.abs(other.distanceM - stop.distanceM),
          uncertainty: Math.hypot(other.uncertaintyM, stop.uncertaintyM),
        });
        if (other.mfddMps2 === undefined || stop.mfddMps2 === undefined) continue;
        found.mfdd.push({
          difference: Math.abs(other.mfddMps2 - stop.mfddMps2),
          uncertainty: Math.hypot(other.mfddUncertaintyMps2 ?? 0, stop.mfddUncertaintyMps2 ?? 0),
        });
      }
    }
  }
  return found;
}

const within = (all: readonly Apart[]): number =>
  all.filter(({ difference, uncertainty }) => difference <= uncertainty).length / all.length;

describe.each([1, 5, 10])('speed worked out from positions, %i Hz', rateHz => {
  const { times, stops, mfdd } = differences(rateHz);

  it('has uncertainties that hold what the recorded speed of the same drive says', () => {
    expect(times.length).toBeGreaterThan(100);
    expect(within(times)).toBeGreaterThan(0.9);
    expect(stops.length).toBeGreaterThan(10);
    expect(within(stops)).toBeGreaterThan(0.9);
    expect(within(mfdd)).toBeGreaterThan(0.85);
  });

  it('is flagged in every run', () => {
    const [recorded, derived] = bothWays(SEEDS[0]!, rateHz);
    const flagged = (run: RunMeasurement): boolean => run.flags.some(({ code }) => code === 'derived-speed');
    expect(derived.length).toBeGreaterThan(0);
    expect(derived.every(flagged)).toBe(true);
    expect(recorded.some(flagged)).toBe(false);
  });
});
