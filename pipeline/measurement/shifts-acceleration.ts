/** Shifts seen in the acceleration alone: candidates from a short slope, then a fit of each. */
import { medianOf } from '../trace/least-squares.ts';
import { slopeOver } from '../trace/slope.ts';
import type { Trace } from '../trace/trace.ts';
import { kmhToMps } from '../units.ts';
import type { RunMeasurement } from './measurement.ts';
import type { NoShiftsReason, Shift, Shifts } from './shifts.ts';
import { type FittedDip, fitDip, SHIFT_DIP_S, SHIFT_PULL_LEAST_S, SHIFT_PULL_S } from './shifts-fit.ts';
import { COVERAGE_FACTOR } from './uncertainty.ts';

/** Fewest readings a second in which a shift can be looked for, 1/s (our own limit). */
export const SHIFT_RATE_HZ = 10;
/**
 * Below this speed a dip is the launch: clutch, tyres and driveline (our own limit; first gears of road cars at full
 * throttle last to 30 km/h and more: common practice, no source).
 */
export const SHIFT_FROM_MPS = kmhToMps(20);
/** In a shift the acceleration falls to this share, or less, of the lesser pull beside it (our own limit). */
export const SHIFT_DEPTH_SHARE = 0.6;
/** The pull on either side, m/s²: less is no pull that a shift could interrupt. */
export const SHIFT_PULL_MPS2 = 0.5;
/** The new pull is at least this share of the old one, and at most its inverse: otherwise the driver changed it. */
export const SHIFT_PULLS_ALIKE = 0.4;
/** The speed missing after the dip exceeds this many of its standard deviations. */
export const SHIFT_SDS = 5;
/** Where even a shift that loses this much would drown in the scatter, none is looked for, s. */
export const SHIFT_MUST_SHOW_S = 0.4;
/** Time a short slope spans, s; at low rates three readings. */
const SLOPE_S = 0.2;
/** A dip of the short slope below this share of the pull around it is looked at more closely. */
const CANDIDATE_SHARE = 0.75;
/** … if so much speed is missing in it, in standard deviations of that of a dip whose place is known. */
const CANDIDATE_SDS = 2.5;
/** A dip whose place and length must be found too is this many times less sure (simulated, our own). */
const UNKNOWN_PLACE = 2;

const refused = (notFound: NoShiftsReason): Shifts => ({ shifts: [], from: 'acceleration', notFound });

/** Shifts of one run from its speeds. */
export function shiftsFromAcceleration(trace: Trace, { run }: RunMeasurement): Shifts {
  if (trace.heldS !== undefined) return refused('held-values');
  if (trace.speedSource === 'derived-from-position') return refused('speed-from-position');
  if (trace.rateHz < 0.95 * SHIFT_RATE_HZ) return refused('rate-too-low');
  const { timeS, speedMps } = trace;
  const pullEnd = highest(speedMps, run.beginIndex, run.braking?.beginIndex ?? run.endIndex);
  let first = run.beginIndex;
  while (first < pullEnd && speedMps[first]! < SHIFT_FROM_MPS) first++;
  // The pull before a first shift may reach back under that speed.
  let begin = first;
  while (begin > run.beginIndex && timeS[first]! - timeS[begin - 1]! <= SHIFT_PULL_S) begin--;
  if (timeS[pullEnd]! - timeS[begin]! < 2 * SHIFT_PULL_LEAST_S + SHIFT_DIP_S.shortest) {
    return refused('too-short');
  }
  const slopes = shortSlopes(timeS, speedMps, begin, pullEnd);
  const pulls = slopes.filter(slope => slope > SHIFT_PULL_MPS2).sort((a, b) => a - b);
  // The weakest pull hides most; a tenth of the slopes may be dips or scatter.
  const weakestMps2 = pulls[Math.floor(pulls.length / 10)] ?? 0;
  const seenMps = SHIFT_SDS * UNKNOWN_PLACE * missingSd(trace);
  const smallestLostS = seenMps / weakestMps2;
  if (!(seenMps / medianOf(pulls) < SHIFT_MUST_SHOW_S))
    return { ...refused('noise-hides-them'), smallestLostS };

  const dips: FittedDip[] = [];
  for (const aroundS of candidates(timeS, slopes, begin, CANDIDATE_SDS * missingSd(trace))) {
    if (overGap(trace, aroundS)) continue;
    const dip = fitDip(timeS, speedMps, begin, pullEnd, aroundS, trace.noiseMps);
    if (dip === undefined || !isShift(dip)) continue;
    const same = dips.findIndex(other => Math.abs(other.beginS - dip.beginS) < SHIFT_PULL_LEAST_S);
    if (same < 0) dips.push(dip);
    else if (dip.misfit < dips[same]!.misfit) dips[same] = dip;
  }
  const gap = trace.gaps.some(
    ({ index, fromS, toS }) =>
      index >= begin && index < pullEnd && toS - fromS > SHIFT_DIP_S.shortest + 1.5 / trace.rateHz,
  );
  return {
    shifts: dips.sort((a, b) => a.beginS - b.beginS).map(toShift),
    from: 'acceleration',
    smallestLostS,
    ...(gap ? { notFound: 'gap' as const } : {}),
  };
}

function isShift(dip: FittedDip): boolean {
  const { beforeMps2, inMps2, afterMps2 } = dip;
  const lesser = Math.min(beforeMps2, afterMps2);
  return (
    dip.speedMps >= SHIFT_FROM_MPS &&
    lesser >= SHIFT_PULL_MPS2 &&
    lesser >= SHIFT_PULLS_ALIKE * Math.max(beforeMps2, afterMps2) &&
    inMps2 <= SHIFT_DEPTH_SHARE * lesser &&
    dip.missingMps >= SHIFT_SDS * dip.missingSdMps &&
    dip.lostS > COVERAGE_FACTOR * dip.lostSdS
  );
}

function toShift(dip: FittedDip): Shift {
  return {
    atS: dip.beginS,
    atUncertaintyS: COVERAGE_FACTOR * dip.beginSdS,
    speedMps: dip.speedMps,
    durationS: dip.durationS,
    durationUncertaintyS: COVERAGE_FACTOR * dip.durationSdS,
    lostS: dip.lostS,
    lostUncertaintyS: COVERAGE_FACTOR * dip.lostSdS,
  };
}

/**
 * Standard deviation of the speed missing after a dip whose place is known, m/s: two lines over `SHIFT_PULL_S` of
 * readings each, drawn to their near ends, where the variance of one is 4σ²/n.
 */
const missingSd = ({ noiseMps, rateHz }: Trace): number =>
  noiseMps * Math.sqrt(8 / Math.max(2, rateHz * SHIFT_PULL_S));

function shortSlopes(timeS: Float64Array, speedMps: Float64Array, begin: number, end: number): number[] {
  const slopes: number[] = [];
  let from = begin;
  let to = begin;
  for (let k = begin; k <= end; k++) {
    while (timeS[k]! - timeS[from]! > SLOPE_S / 2 + 1e-9) from++;
    while (to < end && timeS[to + 1]! - timeS[k]! <= SLOPE_S / 2 + 1e-9) to++;
    slopes.push(
      slopeOver(timeS, speedMps, Math.max(begin, Math.min(from, k - 1)), Math.min(end, Math.max(to, k + 1))),
    );
  }
  return slopes;
}

/** Middles of the stretches in which the short slope lies well under the pull around it. */
function candidates(
  timeS: Float64Array,
  slopes: readonly number[],
  begin: number,
  leastMps: number,
): number[] {
  const found: number[] = [];
  const reach = SHIFT_PULL_S + SHIFT_DIP_S.longest / 2;
  let low: { from: number; to: number; deepest: number } | undefined;
  let tail = 0;
  let head = 0;
  for (let k = 0; k < slopes.length; k++) {
    const atS = timeS[begin + k]!;
    while (atS - timeS[begin + tail]! > reach) tail++;
    while (head < slopes.length - 1 && timeS[begin + head + 1]! - atS <= reach) head++;
    const around = medianOf(slopes.slice(tail, head + 1));
    const dips = slopes[k]! < CANDIDATE_SHARE * around;
    if (dips) {
      low = { from: low?.from ?? atS, to: atS, deepest: Math.max(low?.deepest ?? 0, around - slopes[k]!) };
    }
    if ((!dips || k === slopes.length - 1) && low !== undefined) {
      const missingMps = low.deepest * Math.max(low.to - low.from, SLOPE_S);
      if (missingMps > leastMps) found.push((low.from + low.to) / 2);
      low = undefined;
    }
  }
  return found;
}

/** Whether a gap reaches into the dip or the pulls beside it. */
const overGap = (trace: Trace, aroundS: number): boolean =>
  trace.gaps.some(
    ({ fromS, toS }) => toS > aroundS - SHIFT_DIP_S.longest && fromS < aroundS + SHIFT_DIP_S.longest,
  );

function highest(values: Float64Array, begin: number, end: number): number {
  let best = begin;
  for (let k = begin + 1; k <= end; k++) if (values[k]! > values[best]!) best = k;
  return best;
}
