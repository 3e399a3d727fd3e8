/** Times over a distance from rest, under both start rules. */

import type { Trace } from '../trace/trace.ts';
import { ROLLOUT_M } from '../units.ts';
import type { DistanceSplit } from './measurement.ts';
import type { FittedStart } from './start.ts';
import type { Tape } from './tape.ts';
import { type BudgetItem, combined, expanded, rectangular } from './uncertainty.ts';

/** Distances timed, m: 60 ft, 100 m, the eighth and the quarter of a mile, 1 km. */
export const SPLIT_DISTANCES_M: readonly number[] = [18.288, 100, 201.168, 402.336, 1000];

/** Both rules of every distance covered before `lastIndex`; `tape` is laid where the car has covered one foot. */
export function measureDistanceSplits(
  trace: Trace,
  lastIndex: number,
  start: FittedStart,
  tape: Tape,
): DistanceSplit[] {
  return SPLIT_DISTANCES_M.flatMap((toM): DistanceSplit[] => {
    const fromMovement = tape.timeOf(toM - ROLLOUT_M, lastIndex);
    const fromRollout = tape.timeOf(toM, lastIndex);
    return [
      ...(fromMovement === undefined
        ? []
        : [split(trace, toM, 'first-movement', fromMovement, start.firstMovementS, start, tape)]),
      ...(fromRollout === undefined
        ? []
        : [split(trace, toM, 'one-foot-rollout', fromRollout, start.rolloutAtS, start, tape)]),
    ];
  });
}

function split(
  trace: Trace,
  toM: number,
  startRule: DistanceSplit['startRule'],
  atS: number,
  fromS: number,
  start: FittedStart,
  tape: Tape,
): DistanceSplit {
  const speedMps = tape.speedAt(atS);
  // A tape laid late by δ reads short by v(1 ft)·δ: what remains of the rollout's uncertainty at the line.
  const laid = start.rolloutMps / speedMps;
  const rollout = combined(start.rolloutBudget);
  const begins: BudgetItem[] =
    startRule === 'first-movement'
      ? [...start.firstMovementBudget, { source: 'rollout', standard: laid * rollout }]
      : [{ source: 'rollout', standard: Math.max(0, 1 - laid) * rollout }];
  const along = tape
    .uncertaintyAt(atS)
    .map(({ source, standard }) => ({ source, standard: standard / speedMps }));
  const held: BudgetItem[] =
    trace.heldS === undefined ? [] : [{ source: 'held-values', standard: rectangular(trace.heldS) }];
  const items = [...begins, ...along, ...held];
  return { toM, startRule, timeS: atS - fromS, uncertaintyS: expanded(items), speedMps, budget: items };
}
