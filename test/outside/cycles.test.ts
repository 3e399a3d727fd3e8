/** The distance integral against drive cycles published by regulators, read by the program's own reader. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readLog } from '../../pipeline/log/readers.ts';
import { findRuns } from '../../pipeline/run/find.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import { localSlopes, slopeOver } from '../../pipeline/trace/slope.ts';
import { mpsToKmh, mpsToMph } from '../../pipeline/units.ts';
import { type CheckValue, checkValue, describeCheckValues, expectWithin } from './check-values.ts';
import { describeWithSharedData } from './shared-data.ts';

describeWithSharedData('drive cycles', folder => {
  const traceOf = (name: string) =>
    logToTrace(
      readLog(name, readFileSync(`${folder}/cycles/${name}`), {
        columns: { time: { name: 'cycSecs', unit: 's' }, speed: { name: 'cycMps', unit: 'm/s' } },
      }),
    ).trace;
  const distanceOf = (name: string): number => traceOf(name).distanceM.at(-1)!;
  const distanceAt = (name: string, atS: number): number => {
    const { timeS, distanceM } = traceOf(name);
    return distanceM[timeS.findIndex(t => t >= atS)]!;
  };
  const withinThousandth = (entry: CheckValue, distanceM: number): void =>
    expectWithin({ distance_m: distanceM }, entry, { rel: 0.001 });

  describeCheckValues('distances of drive cycles', {
    'cycle.udds': entry => {
      withinThousandth(entry, distanceOf('udds.csv'));
      expectWithin({ vmax_mph: mpsToMph(Math.max(...traceOf('udds.csv').speedMps)) }, entry, { abs: 0.01 });
    },
    'cycle.ftp75': entry => withinThousandth(entry, distanceOf('udds.csv') + distanceAt('udds.csv', 505)),
    'cycle.hwfet': entry => withinThousandth(entry, distanceOf('hwfet.csv')),
    'cycle.us06': entry => withinThousandth(entry, distanceOf('us06.csv')),
    'cycle.wltc.total3b': entry => withinThousandth(entry, distanceOf('wltc_3b.csv')),
    // The four phases end at 589, 1022, 1477 and 1800 s (UN GTR 15, Annex 1).
    'cycle.wltc.low': entry => withinThousandth(entry, distanceAt('wltc_3b.csv', 589)),
    'cycle.wltc.medium3b': entry =>
      withinThousandth(entry, distanceAt('wltc_3b.csv', 1022) - distanceAt('wltc_3b.csv', 589)),
    'cycle.wltc.high3b': entry =>
      withinThousandth(entry, distanceAt('wltc_3b.csv', 1477) - distanceAt('wltc_3b.csv', 1022)),
    'cycle.wltc.extrahigh': entry =>
      withinThousandth(entry, distanceOf('wltc_3b.csv') - distanceAt('wltc_3b.csv', 1477)),
    'cycle.wltc.vmax': entry => {
      const { timeS, speedMps } = traceOf('wltc_3b.csv');
      const forward = Array.from({ length: timeS.length - 1 }, (_, i) =>
        slopeOver(timeS, speedMps, i, i + 1),
      );
      const found = {
        vmax_kmh: mpsToKmh(Math.max(...speedMps)),
        amax: Math.max(...forward),
        amin: Math.min(...forward),
      };
      // The table has six decimals of m/s.
      expectWithin(found, entry, { abs: 5e-6 });
      // By central difference, which is the line through three readings that runs are looked for with.
      const central = localSlopes(timeS, speedMps, 1);
      expect(Math.max(...central)).toBeCloseTo(1.5833, 4);
      expect(Math.min(...central)).toBeCloseTo(-1.4861, 4);
    },
  });

  it('never takes a gentle regulator’s cycle for held values, and in the city cycle one start carried past 50 km/h', () => {
    expect(traceOf('udds.csv').heldS).toBeUndefined();
    expect(traceOf('wltc_3b.csv').heldS).toBeUndefined();
    // Of 17 departures; at 447 s, 1.2 m/s² from 10 to 50 km/h and never more than 1.5.
    const city = traceOf('udds.csv');
    expect(findRuns(city).map(({ kind, beginIndex }) => [kind, city.timeS[beginIndex]])).toEqual([
      ['standing-start', 447],
    ]);
    expect(findRuns(traceOf('wltc_3b.csv'))).toEqual([]);
    expect(checkValue('cycle.udds').expected.duration_s).toBe(1369);
  });
});
