/** Which departures from rest are standing starts: some by their own pull, some beside the hardest of the same log. */
import type { Span } from '../trace/standing.ts';
import type { Trace } from '../trace/trace.ts';
import { firstAtLeast, highestIn } from './readings.ts';
import * as rules from './rules.ts';
import type { Run } from './run.ts';

/** A run that has no number yet. */
export type Found = Omit<Run, 'number'>;

/** A departure that is fast enough off the line to be looked at. */
interface Departure {
  readonly run: Found;
  /** Mean acceleration from `LAUNCH_FROM_MPS` as far as it was judged, m/s². */
  readonly pullMps2: number;
  /** Hard enough whatever else the log holds. */
  readonly hard: boolean;
  /** Carried to `LAUNCH_TO_MPS` at `SUSTAINED_MPS2` or more. */
  readonly sustained: boolean;
}

/**
 * Standing starts in order of time. `gains` are the trace's accelerations; `limitMps` is the speed under which the
 * car stands.
 *
 * A drive-off of 1.3 m/s² is a slow car's best and a fast car's way back to the line. Only the rest of the log tells
 * which: between the two, a start counts if it pulls nearly as hard as the hardest start beside it.
 */
export function findLaunches(
  trace: Trace,
  stands: readonly Span[],
  gains: readonly Span[],
  limitMps: number,
): Found[] {
  const departures = stands.flatMap((stand, k) =>
    departureFrom(trace, stand, stands[k + 1], gains, limitMps),
  );
  const counted = departures.filter(({ hard, sustained }) => hard || sustained);
  const hardest = Math.max(0, ...counted.map(({ pullMps2 }) => pullMps2).filter(Number.isFinite));
  return counted
    .filter(({ hard, pullMps2 }) => hard || pullMps2 >= rules.SUSTAINED_SHARE * hardest)
    .map(({ run }) => run);
}

/** The departure that ends this stand, unless it creeps or never gets to `LAUNCH_FROM_MPS`. */
function departureFrom(
  trace: Trace,
  stand: Span,
  next: Span | undefined,
  gains: readonly Span[],
  limitMps: number,
): Departure[] {
  const { timeS, speedMps } = trace;
  const last = next === undefined ? timeS.length - 1 : next.beginIndex;
  const launched = firstAtLeast(speedMps, stand.endIndex, last, rules.LAUNCH_FROM_MPS);
  if (launched === undefined) return [];
  // A car that rolls back a little, or twitches, comes to rest once more before it goes.
  let from = launched;
  while (from > stand.endIndex && speedMps[from]! >= limitMps) from--;
  // One interval of grace: at low rates the car may have left just after the last reading at rest.
  if (timeS[launched]! - timeS[from]! > rules.LAUNCH_LATEST_S + 1 / trace.rateHz) return [];

  const within = (index: number): Span | undefined =>
    gains.find(span => span.endIndex >= index && span.beginIndex <= index);
  const pulledTo = Math.min(within(launched)?.endIndex ?? launched, last);
  const meanTo = (toMps: number, end: number): number => {
    const reached = firstAtLeast(speedMps, launched, end, toMps);
    if (reached === undefined || reached === launched)
      return reached === undefined ? 0 : Number.POSITIVE_INFINITY;
    return (speedMps[reached]! - speedMps[launched]!) / (timeS[reached]! - timeS[launched]!);
  };
  const full = meanTo(rules.LAUNCH_TO_MPS, pulledTo);
  const short = meanTo(rules.LAUNCH_SHORT_TO_MPS, pulledTo);
  const held = speedMps[highestIn(speedMps, launched, pulledTo)]! >= rules.COMPLETE_MPS;
  const hard =
    (full > 0 ? full >= rules.LAUNCH_MPS2 : short >= rules.LAUNCH_SHORT_MPS2) ||
    (held && full >= rules.LAUNCH_SLOW_MPS2);

  const carriedTo = carried(speedMps, launched, last);
  const sustainedMps2 = meanTo(rules.LAUNCH_TO_MPS, carriedTo);
  const sustained =
    sustainedMps2 >= rules.SUSTAINED_MPS2 &&
    meanTo(rules.SUSTAINED_EARLY_TO_MPS, carriedTo) >= rules.SUSTAINED_MPS2;
  // A sustained start goes on for as long as the acceleration in which it passes the speed it is judged to.
  const passed = firstAtLeast(speedMps, launched, carriedTo, rules.LAUNCH_TO_MPS);
  const goesOnTo =
    hard || passed === undefined ? pulledTo : Math.max(passed, within(passed)?.endIndex ?? passed);
  const endIndex = highestIn(speedMps, launched, Math.min(goesOnTo, last));
  const status = speedMps[endIndex]! >= rules.COMPLETE_MPS ? 'complete' : 'aborted';
  return [
    {
      run: { kind: 'standing-start', status, beginIndex: atRest(trace, stand, from), endIndex },
      pullMps2: full || sustainedMps2 || short,
      hard,
      sustained,
    },
  ];
}

/**
 * Last reading that noise alone explains, before the reading `from` that is still under the standing limit: a car that
 * moves off gently rises under that limit for tenths of a second, and a quiet log shows it.
 */
function atRest(trace: Trace, stand: Span, from: number): number {
  const { timeS, speedMps } = trace;
  const restMps = Math.max(rules.REST_NOISE_SDS * trace.noiseMps, 0.6 * (trace.speedStepMps ?? 0));
  let last = from;
  while (speedMps[last]! >= restMps) {
    // A receiver that wanders at rest shows no start: there the limit for standing holds.
    if (last === stand.beginIndex || timeS[from]! - timeS[last]! > rules.GENTLE_RISE_S) return from;
    last--;
  }
  return last;
}

/** Last reading before speed falls further below its highest so far than a gear change lets it. */
function carried(speedMps: Float64Array, begin: number, last: number): number {
  let highest = speedMps[begin]!;
  for (let i = begin + 1; i <= last; i++) {
    if (speedMps[i]! < highest - rules.SHIFT_DEEPEST_MPS) return i - 1;
    highest = Math.max(highest, speedMps[i]!);
  }
  return last;
}
