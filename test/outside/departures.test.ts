/**
 * Every departure from rest of the recorded drives: when, how fast it got before the next rest, and whether it is a
 * standing start or why not. Times and speeds are read from the rows as recorded, by hand and then by the arithmetic
 * below, which knows nothing of the run finder. Sources of the drives stand beside them in ../shared/data/README.md.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { Log } from '../../pipeline/log/log.ts';
import { readLog } from '../../pipeline/log/readers.ts';
import { findRuns } from '../../pipeline/run/find.ts';
import * as rules from '../../pipeline/run/rules.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import { STANDING_SHORTEST_S } from '../../pipeline/trace/standing.ts';
import { kmhToMps, mpsToKmh } from '../../pipeline/units.ts';
import { describeWithSharedData } from './shared-data.ts';

/**
 * `below 50`: never reaches 50 km/h before it rests again, whether creeping, queueing or parking. `slow`: gains too
 * little from 10 to 50 km/h, because it lifts or dawdles on the way. `rolls first`: from 10 to 30 km/h already.
 * `creeps first`: takes too long to 10 km/h. `no rest`: the wheels stood for less than a second. `softer`: much gentler
 * than the hardest start of the same drive.
 */
type Verdict = 'run' | 'below 50' | 'slow' | 'rolls first' | 'creeps first' | 'no rest' | 'softer';
/** First row that moves (s), greatest speed before the next rest (km/h), verdict. */
type Departure = readonly [atS: string, topKmh: number, verdict: Verdict];

const DRIVES: Readonly<Record<string, readonly Departure[]>> = {
  'obd/hard-acceleration.csv': [
    ['12.6', 3, 'below 50'],
    ['23.4', 118, 'slow'],
    ['753.7', 37, 'below 50'],
  ],
  'obd/town-and-country.csv': [
    ['9.7', 23, 'below 50'],
    ['53.0', 31, 'below 50'],
    ['167.6', 49, 'below 50'],
    ['232.2', 69, 'slow'],
    ['434.7', 59, 'rolls first'],
    ['501.3', 91, 'run'],
    ['762.3', 57, 'slow'],
    ['983.2', 9, 'below 50'],
    ['1036.6', 5, 'below 50'],
    ['1046.7', 4, 'below 50'],
    ['1067.0', 22, 'below 50'],
    ['1106.8', 12, 'below 50'],
    ['1118.1', 3, 'below 50'],
    ['1132.2', 16, 'below 50'],
    ['1179.3', 2, 'below 50'],
  ],
  'drives/country-road.csv': [
    ['8.5', 12, 'below 50'],
    ['50.3', 29, 'below 50'],
    ['132.5', 54, 'softer'],
    ['181.4', 61, 'slow'],
    ['300.1', 55, 'slow'],
    ['429.6', 89, 'slow'],
    ['679.0', 131, 'run'],
    ['2410.7', 75, 'slow'],
    ['2496.8', 54, 'slow'],
    ['2619.5', 37, 'below 50'],
    ['2638.6', 23, 'below 50'],
    ['2686.1', 2, 'below 50'],
  ],
  'drives/full-braking.csv': [
    ['3.7', 20, 'below 50'],
    ['34.5', 31, 'below 50'],
    ['121.0', 37, 'below 50'],
    ['167.1', 48, 'below 50'],
    ['213.4', 60, 'run'],
    ['344.2', 65, 'slow'],
    ['469.7', 45, 'below 50'],
    ['504.7', 96, 'slow'],
    ['699.2', 208, 'run'],
    ['3949.4', 50, 'slow'],
    ['4029.6', 48, 'below 50'],
    ['4084.6', 43, 'below 50'],
    ['4237.2', 45, 'below 50'],
    ['4286.4', 41, 'below 50'],
    ['4344.7', 46, 'below 50'],
    ['4415.6', 24, 'below 50'],
    ['4450.2', 9, 'below 50'],
    ['4483.0', 1, 'below 50'],
    ['4492.4', 11, 'below 50'],
    ['4569.6', 2, 'below 50'],
    ['4580.1', 2, 'below 50'],
    ['4599.2', 1, 'below 50'],
    ['4613.0', 1, 'below 50'],
    ['4681.3', 1, 'below 50'],
    ['4683.9', 1, 'below 50'],
  ],
  'drives/road-50hz.csv': [['50.1', 87, 'run']],
  'drives/town-10hz-inertial.csv': [
    ['10.3', 38, 'below 50'],
    ['119.6', 9, 'below 50'],
    ['131.2', 51, 'creeps first'],
    ['257.5', 56, 'run'],
    ['311.6', 72, 'run'],
    ['352.8', 55, 'slow'],
    ['426.3', 47, 'below 50'],
    ['456.1', 45, 'below 50'],
    ['486.8', 50, 'below 50'],
    ['533.3', 58, 'no rest'],
  ],
  'nmea/road-mountain-view.nmea': [
    ['122.0', 28, 'below 50'],
    ['324.0', 45, 'below 50'],
    ['506.0', 62, 'run'],
    ['573.0', 1, 'below 50'],
    ['587.0', 56, 'slow'],
    ['641.0', 55, 'slow'],
    ['704.0', 57, 'slow'],
    ['752.0', 47, 'below 50'],
  ],
  'nmea/road-regensburg.nmea': [
    ['10.0', 37, 'below 50'],
    ['72.0', 51, 'slow'],
    ['128.0', 85, 'slow'],
    ['468.0', 52, 'no rest'],
    ['512.0', 72, 'run'],
    ['594.0', 104, 'run'],
    ['920.0', 74, 'slow'],
    ['1408.0', 83, 'slow'],
    ['1564.0', 6, 'below 50'],
  ],
};

/** A row under this is at rest: whole km/h show 0 there, the others scatter by less. */
const REST_MPS = kmhToMps(1);
/** Steps of whole km/h and a second between rows move a mean by this much, m/s². */
const ROUGHLY_MPS2 = 0.02;

interface Facts {
  readonly atS: number;
  readonly topMps: number;
  readonly restS: number;
  readonly toTenS: number;
  /** Mean acceleration from the first row at 10 km/h to that at 30 and at 50, m/s²; NaN where not reached. */
  readonly toThirtyMps2: number;
  readonly toFiftyMps2: number;
}

/** Departures as the rows show them. */
function departures({ timeS, speedMps }: Log): Facts[] {
  const found: Facts[] = [];
  for (let i = 1; i < timeS.length; i++) {
    if (speedMps[i - 1]! >= REST_MPS || speedMps[i]! < REST_MPS) continue;
    let rest = i - 1;
    while (rest > 0 && speedMps[rest - 1]! < REST_MPS) rest--;
    let end = i;
    while (end < timeS.length && speedMps[end]! >= REST_MPS) end++;
    const first = (kmh: number): number => {
      const index = speedMps.subarray(i, end).findIndex(mps => mps >= kmhToMps(kmh));
      return index < 0 ? Number.NaN : i + index;
    };
    const mean = (from: number, to: number): number =>
      (speedMps[to]! - speedMps[from]!) / (timeS[to]! - timeS[from]!);
    found.push({
      atS: timeS[i]!,
      topMps: Math.max(...speedMps.subarray(i, end)),
      restS: timeS[i - 1]! - timeS[rest]!,
      toTenS: timeS[first(10)]! - timeS[i - 1]!,
      toThirtyMps2: mean(first(10), first(30)),
      toFiftyMps2: mean(first(10), first(50)),
    });
  }
  return found;
}

describeWithSharedData('departures from rest of the recorded drives', folder => {
  describe.each(Object.entries(DRIVES))('%s', (name, expected) => {
    const log = readLog(name, readFileSync(`${folder}/${name}`));
    const facts = departures(log);
    const { trace } = logToTrace(log);
    const starts = findRuns(trace).filter(({ kind }) => kind === 'standing-start');
    const hardest = Math.max(0, ...facts.filter((_, k) => expected[k]![2] === 'run').map(f => f.toFiftyMps2));

    it('leaves rest as often, and gets as fast, as the table says', () => {
      expect(facts.map(({ atS, topMps }) => [atS.toFixed(1), Math.round(mpsToKmh(topMps))])).toEqual(
        expected.map(([atS, topKmh]) => [atS, topKmh]),
      );
    });

    it('starts a run where the table says run, and nowhere else', () => {
      const runs = expected.filter(([, , verdict]) => verdict === 'run').map(([atS]) => Number(atS));
      expect(starts).toHaveLength(runs.length);
      for (const [k, atS] of runs.entries()) {
        // At most a second or two readings before the first row that moves.
        expect(atS - trace.timeS[starts[k]!.beginIndex]!).toBeLessThan(1.1 + 2 / trace.rateHz);
        expect(atS).toBeGreaterThan(trace.timeS[starts[k]!.beginIndex]!);
      }
    });

    it('gives a reason that the rows themselves bear out', () => {
      for (const [k, [atS, , verdict]] of expected.entries()) {
        const { topMps, restS, toTenS, toThirtyMps2, toFiftyMps2 } = facts[k]!;
        const floor = rules.SUSTAINED_MPS2;
        const holds: Readonly<Record<Verdict, boolean>> = {
          run:
            toFiftyMps2 > floor &&
            toThirtyMps2 > floor &&
            toFiftyMps2 > rules.SUSTAINED_SHARE * hardest - ROUGHLY_MPS2,
          'below 50': topMps < kmhToMps(50),
          slow: toFiftyMps2 < floor,
          'rolls first': toThirtyMps2 < floor,
          'creeps first': toTenS > rules.LAUNCH_LATEST_S,
          'no rest': restS < STANDING_SHORTEST_S,
          softer: toFiftyMps2 < rules.SUSTAINED_SHARE * hardest,
        };
        expect(holds[verdict], `${name} at ${atS} s: ${verdict}`).toBe(true);
      }
    });
  });
});
