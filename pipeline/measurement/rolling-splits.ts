/** Times from one speed to another within a rolling run. */

import { ROLLING_SPLITS_MPS } from '../run/find.ts';
import type { Trace } from '../trace/trace.ts';
import { mphToMps } from '../units.ts';
import { type Crossing, risingThrough } from './crossing.ts';
import { crossingBudget } from './crossing-budget.ts';
import { lagBudget } from './lag.ts';
import type { SpeedSplit } from './measurement.ts';
import { layTape } from './tape.ts';
import { expanded } from './uncertainty.ts';

/** Those a rolling run is found by, and 30–70 mph, which covers one of them. */
const MEASURED_MPS: readonly (readonly [number, number])[] = [
  ...ROLLING_SPLITS_MPS,
  [mphToMps(30), mphToMps(70)],
];

/** Every rolling split fully covered between two readings. */
export function measureRollingSplits(
  trace: Trace,
  firstIndex: number,
  lastIndex: number,
  receiverMps: number,
): SpeedSplit[] {
  return MEASURED_MPS.flatMap(([fromMps, toMps]): SpeedSplit[] => {
    const from = risingThrough(trace, firstIndex, lastIndex, fromMps);
    const to = from && risingThrough(trace, from.index, lastIndex, toMps);
    if (from === undefined || to === undefined) return [];
    const items = [
      ...[from, to].flatMap(crossing => crossingBudget(trace, crossing)),
      ...statedAccuracy(from, to, receiverMps),
      ...lagBudget(trace, 'rolling'),
    ];
    return [
      {
        fromMps,
        toMps,
        startRule: 'rolling',
        timeS: to.timeS - from.timeS,
        uncertaintyS: expanded(items),
        distanceM: layTape(trace, from.timeS, fromMps).at(to.timeS),
        budget: items,
      },
    ];
  });
}

/** A receiver that reads high all along shifts both crossings the same way; what differs is left. */
function statedAccuracy(from: Crossing, to: Crossing, receiverMps: number) {
  const standard = receiverMps * Math.abs(1 / to.slopeMps2 - 1 / from.slopeMps2);
  return standard > 0 ? [{ source: 'receiver' as const, standard }] : [];
}
