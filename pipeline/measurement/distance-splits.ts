/** Times over a distance from rest, under both start rules. */

import type { Trace } from '../trace/trace.ts';
import { ROLLOUT_M } from '../units.ts';
import { lagBudget } from './lag.ts';
import type { DistanceSplit } from './measurement.ts';
import type { FittedStart } from './start.ts';
import { lastIndexAtOrBefore, type Tape } from './tape.ts';
import { type BudgetItem, COVERAGE_FACTOR, combined, expanded, rectangular } from './uncertainty.ts';

/** Distances timed, m: 60 ft, 100 m, the eighth and the quarter of a mile, 1 km. */
export const SPLIT_DISTANCES_M: readonly number[] = [18.288, 100, 201.168, 402.336, 1000];

/** Second differences of up to this many standard deviations of theirs (6σ²) are taken for noise. */
const CHANCE_SDS = 2;

/** Both rules of every distance covered before `lastIndex`; `tape` is laid where the car has covered one foot. */
export function measureDistanceSplits(
  trace: Trace,
  lastIndex: number,
  start: FittedStart,
  tape: Tape,
  receiverMps = 0,
): DistanceSplit[] {
  return SPLIT_DISTANCES_M.flatMap((toM): DistanceSplit[] => {
    const fromMovement = tape.timeOf(toM - ROLLOUT_M, lastIndex);
    const fromRollout = tape.timeOf(toM, lastIndex);
    return [
      ...(fromMovement === undefined
        ? []
        : [
            split(trace, toM, 'first-movement', fromMovement, start.firstMovementS, start, tape, receiverMps),
          ]),
      ...(fromRollout === undefined
        ? []
        : [split(trace, toM, 'one-foot-rollout', fromRollout, start.rolloutAtS, start, tape, receiverMps)]),
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
  receiverMps: number,
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
  const timed =
    startRule === 'one-foot-rollout' ? along.map(item => withoutFitted(item, trace, start, atS)) : along;
  const held: BudgetItem[] =
    trace.heldS === undefined ? [] : [{ source: 'held-values', standard: rectangular(trace.heldS) }];
  const items = [...begins, ...timed, ...held, ...lagBudget(trace, startRule)];
  const lineS = Math.hypot(combined(along), laid * rollout);
  return {
    toM,
    startRule,
    timeS: atS - fromS,
    uncertaintyS: expanded(items),
    speedMps,
    speedUncertaintyMps: COVERAGE_FACTOR * speedStandardMps(trace, atS, lineS, receiverMps),
    budget: items,
  };
}

/**
 * A reading of the first stretch that is high by a little tells the fit that the foot was covered sooner, and adds to
 * the tape by as much: over the readings the fit was made from, noise of the one takes away that of the other, as
 * between two crossings (`betweenCrossings`).
 */
function withoutFitted(item: BudgetItem, trace: Trace, start: FittedStart, atS: number): BudgetItem {
  if (item.source !== 'noise') return item;
  const fittedS = trace.timeS[start.onset.lastIndex]! - start.rolloutAtS;
  const left = 1 - Math.max(0, fittedS) / (atS - start.rolloutAtS);
  return { source: 'noise', standard: item.standard * Math.sqrt(Math.max(0, left)) };
}

/** Standard uncertainty of the speed read between two readings at an instant known to `lineS`, m/s. */
function speedStandardMps(trace: Trace, atS: number, lineS: number, receiverMps: number): number {
  const { timeS, speedMps, noiseMps } = trace;
  const i = Math.max(0, Math.min(timeS.length - 2, lastIndexAtOrBefore(timeS, atS)));
  const intervalS = timeS[i + 1]! - timeS[i]!;
  const share = (atS - timeS[i]!) / intervalS;
  const slopeMps2 = (speedMps[i + 1]! - speedMps[i]!) / intervalS;
  const slopeAround =
    i > 0 ? (speedMps[i + 1]! - speedMps[i - 1]!) / (timeS[i + 1]! - timeS[i - 1]!) : slopeMps2;
  // A parabola through three readings leaves their chord by an eighth of the second difference.
  const ends = [i, i + 1].filter(k => k > 0 && k + 1 < timeS.length);
  const second = ends.map(k => speedMps[k + 1]! - 2 * speedMps[k]! + speedMps[k - 1]!);
  const bend = Math.max(0, ...second.map(change => change ** 2)) - CHANCE_SDS ** 2 * 6 * noiseMps ** 2;
  return Math.hypot(
    noiseMps * Math.hypot(share, 1 - share),
    Math.sqrt(Math.max(0, bend)) / 8,
    slopeAround * lineS,
    slopeAround * (trace.stampS ?? 0),
    slopeAround * (trace.filterS ?? 0),
    receiverMps,
  );
}
