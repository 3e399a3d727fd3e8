/** Times from rest to a speed, under both start rules. */

import type { Trace } from '../trace/trace.ts';
import { kmhToMps, mphToMps, ROLLOUT_M } from '../units.ts';
import { risingThrough } from './crossing.ts';
import { crossingBudget } from './crossing-budget.ts';
import { lagBudget } from './lag.ts';
import type { SpeedSplit } from './measurement.ts';
import type { FittedStart } from './start.ts';
import type { Tape } from './tape.ts';
import { expanded } from './uncertainty.ts';

/** Speeds to which times from rest are given, by the unit they are named in. */
export const SPLIT_SPEEDS_KMH: readonly number[] = [30, 50, 60, 80, 100, 120, 130, 160, 200];
export const SPLIT_SPEEDS_MPH: readonly number[] = [30, 50, 60, 80, 100, 120];
/** All of them, m/s, rising. */
export const SPLIT_SPEEDS_MPS: readonly number[] = [
  ...SPLIT_SPEEDS_KMH.map(kmhToMps),
  ...SPLIT_SPEEDS_MPH.map(mphToMps),
].sort((a, b) => a - b);

/** Both rules of every speed reached before `lastIndex`; `tape` is laid where the car has covered one foot. */
export function measureSpeedSplits(
  trace: Trace,
  firstIndex: number,
  lastIndex: number,
  start: FittedStart,
  tape: Tape,
  receiverMps: number,
): SpeedSplit[] {
  return SPLIT_SPEEDS_MPS.flatMap((toMps): SpeedSplit[] => {
    const crossing = risingThrough(trace, firstIndex, lastIndex, toMps);
    if (crossing === undefined || crossing.timeS <= start.rolloutAtS) return [];
    const items = crossingBudget(trace, crossing, receiverMps);
    const fromMovement = [...start.firstMovementBudget, ...items, ...lagBudget(trace, 'first-movement')];
    const fromRollout = [...start.rolloutBudget, ...items, ...lagBudget(trace, 'one-foot-rollout')];
    const taped = tape.at(crossing.timeS);
    return [
      {
        fromMps: 0,
        toMps,
        startRule: 'first-movement',
        timeS: crossing.timeS - start.firstMovementS,
        uncertaintyS: expanded(fromMovement),
        distanceM: taped + ROLLOUT_M,
        budget: fromMovement,
      },
      {
        fromMps: 0,
        toMps,
        startRule: 'one-foot-rollout',
        timeS: crossing.timeS - start.rolloutAtS,
        uncertaintyS: expanded(fromRollout),
        distanceM: taped,
        budget: fromRollout,
      },
    ];
  });
}
