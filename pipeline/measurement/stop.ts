/** The instant a braking car comes to rest: the onset of motion, seen backwards in time. */
import type { Trace } from '../trace/trace.ts';
import { fitOnset, STOP_RAMPS } from './onset.ts';
import type { OnsetFit } from './onset-average.ts';
import { rectangular } from './uncertainty.ts';

/** Readings on either side that are looked at, s. */
const AROUND_S = 2.5;
/**
 * What the fit leaves out of the end of a stop, s, one standard deviation: springs come back, brakes are eased in
 * manners of their own. An allowance, set on simulated stops.
 */
export const STOP_MODEL_S = 0.003;

/** Between readings further apart than this (s) nothing tells how a stop ends: rest comes anywhere between two. */
const COARSE_S = 0.6;

export interface Stop {
  readonly atS: number;
  readonly sdS: number;
  readonly lastMovingIndex: number;
  /** Distance from the last moving reading to rest, m, and its standard uncertainty. */
  readonly lastM: number;
  readonly distanceSdM: number;
  readonly onset: OnsetFit;
}

/** `restIndex`: the first reading at rest. Undefined where fewer than two readings lead to it. */
export function fitStop(trace: Trace, restIndex: number): Stop | undefined {
  const { timeS, speedMps } = trace;
  let first = restIndex;
  while (first > 0 && timeS[restIndex]! - timeS[first - 1]! <= AROUND_S) first--;
  let last = restIndex;
  while (last + 1 < timeS.length && timeS[last + 1]! - timeS[restIndex]! <= AROUND_S) last++;
  const backwardsS = timeS
    .slice(first, last + 1)
    .reverse()
    .map(value => -value);
  const backwardsMps = speedMps.slice(first, last + 1).reverse();
  const rest = last - restIndex;
  const backwards = { ...trace, timeS: backwardsS, speedMps: backwardsMps };
  const onset = fitOnset(backwards, rest, 0, backwardsS.length - 1, STOP_RAMPS);
  const lastMovingIndex = restIndex - 1;
  if (onset === undefined || lastMovingIndex < 0) return undefined;
  // Rest comes after the last moving reading; noise may put the fitted instant a little before it.
  const atS = Math.max(-onset.atS, timeS[lastMovingIndex]!);
  const lastMps = speedMps[lastMovingIndex]!;
  const intervalS = timeS[restIndex]! - timeS[lastMovingIndex]!;
  return {
    atS,
    sdS: Math.hypot(
      STOP_MODEL_S,
      onset.sdS,
      rectangular(trace.heldS ?? 0),
      rectangular(intervalS > COARSE_S ? intervalS : 0),
    ),
    lastMovingIndex,
    lastM: (lastMps * (atS - timeS[lastMovingIndex]!)) / 2,
    distanceSdM: (lastMps / 2) * rectangular(intervalS),
    onset: forwards(onset.fit, last),
  };
}

/** The fit of reversed readings, on the trace's own clock and indices; `last` is the trace's index of the first. */
function forwards(fit: OnsetFit, last: number): OnsetFit {
  return {
    ...fit,
    originS: -fit.originS,
    direction: -1,
    firstIndex: last - fit.lastIndex,
    lastIndex: last - fit.firstIndex,
  };
}
