/** The distance integral against drive cycles published by regulators, read by the program's own reader. */
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readLog } from '../../pipeline/log/readers.ts';
import { findRuns } from '../../pipeline/run/find.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import { mpsToMph } from '../../pipeline/units.ts';
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
  });

  it('never takes a gentle regulator’s cycle for held values, and finds no run in the city cycle', () => {
    expect(traceOf('udds.csv').heldS).toBeUndefined();
    expect(traceOf('wltc_3b.csv').heldS).toBeUndefined();
    expect(findRuns(traceOf('udds.csv')).filter(run => run.kind === 'standing-start')).toEqual([]);
    expect(checkValue('cycle.udds').expected.duration_s).toBe(1369);
  });
});
