/**
 * The instant speed passes a value just as the brakes come on, where neither a parabola nor a straight line between
 * two readings describes it: the car rolls on evenly, then deceleration rises evenly to its full value.
 *
 * When it begins and how long it takes to rise is not known. Readings at a high rate tell both to a millisecond or
 * two, at a low rate hardly at all, so steps follow them: rises are laid closer until neighbours are about as likely,
 * the onset of each is found by Gauss and Newton's method and stepped by its own standard deviation, the rest solved
 * by least squares, and the instants of passing averaged with the weight the readings give them.
 */
import { exp, log } from '../elementary.ts';
import { solveSymmetric } from '../trace/least-squares.ts';
import type { Trace } from '../trace/trace.ts';
import type { Crossing } from './crossing.ts';
import { lastIndexAtOrBefore } from './tape.ts';

/** Readings from this long before the crossing, though not from before the highest, and to this long after, s. */
const BEFORE_S = 0.8;
const AFTER_S = 0.5;
/** A car off the pedal before it brakes loses about this much, give or take, m/s². */
const ROLLING_MPS2 = -0.4;
const ROLLING_SPREAD_MPS2 = 0.6;
/** Below this rate the readings do not tell when the brakes came on, 1/s. */
export const SLOWEST_HZ = 1.5;
/** Where the brakes may come on, before and after the crossing by straight line, s. */
export const EARLIEST_S = 0.6;
const LATEST_S = 0.12;
/** The first look for it, in steps of this, s, with this rise. */
const STEP_S = 0.03;
const USUAL_RISE_S = 0.2;
/** Times in which deceleration rises, s, before any are laid between them; equally likely in between (no source). */
const RISES_S = [0.02, 0.05, 0.1, 0.15, USUAL_RISE_S, 0.26, 0.34, 0.45];
/** Rises this near the most likely one's logarithm of weight lie closer until neighbours differ by no more than this. */
const LIKELY_LOG = 5;
const STEP_LOG = 1.5;
const FINEST_RISE_S = 0.001;
/** Onsets of one rise, in its own standard deviations from the best. */
const ONSETS_SDS = [-3, -2, -1, 0, 1, 2, 3];
const ROUNDS = 8;
/** Near enough to the best onset, in standard deviations. */
const NEAR_SDS = 0.2;
/** Readings that scatter less are a closed form, not a recorder's, and leave no weight to average by, m/s. */
export const SCATTERING_MPS = 0.002;
/**
 * Deceleration is trusted to stay even to this share of what speed has been lost, at a full one of about so much,
 * m/s²: an allowance, set on simulated stops.
 */
const EVEN_SHARE = 0.002;
const FULL_MPS2 = 8;
const NEGLIGIBLE_LOG = 12;
/** The best rise does not explain the readings where these scatter by so many standard deviations more than noise. */
const SCATTERED_SDS = 1;

/** The readings looked at, and between which instants the brakes may come on. */
interface Look {
  readonly trace: Trace;
  readonly first: number;
  readonly last: number;
  readonly targetMps: number;
  readonly earliestS: number;
  readonly latestS: number;
}

interface Passing {
  readonly onsetS: number;
  readonly riseS: number;
  /** Above the target at the onset, m/s; slope before it; what the brakes come to, m/s². */
  readonly level: number;
  readonly slope: number;
  readonly full: number;
  readonly atS: number;
  readonly sdS: number;
  readonly slopeMps2: number;
  /** Sum of squares in units of the log's noise, and what the spread of the answers adds to the weight. */
  readonly squares: number;
  readonly logSpread: number;
}

/** The best onset of one rise. */
interface Rise {
  readonly riseS: number;
  readonly onsetS: number;
  readonly sdS: number;
  readonly squares: number;
  /** Logarithm of its weight, as if the weight of its onsets followed a normal distribution. */
  readonly logWeight: number;
}

/** The passing near `near`, as another crossing; `near` itself where too few readings lie around it. */
export function passingAtBrakes(
  trace: Trace,
  near: Crossing,
  begin: number,
  end: number,
  targetMps: number,
): Crossing {
  const { timeS } = trace;
  const last = Math.min(end, Math.max(near.index + 4, lastIndexAtOrBefore(timeS, near.timeS + AFTER_S)));
  let first = Math.max(begin, lastIndexAtOrBefore(timeS, near.timeS - BEFORE_S) + 1);
  for (let i = first; i <= near.index; i++) if (trace.speedMps[i]! > trace.speedMps[first]!) first = i;
  if (last - first < 4 || trace.gaps.some(gap => gap.index >= first && gap.index < last)) return near;
  const earliestS = Math.max(near.timeS - EARLIEST_S, timeS[first]! - 1 / trace.rateHz);
  const look: Look = { trace, first, last, targetMps, earliestS, latestS: near.timeS + LATEST_S };
  const rises = likelyRises(look);
  // Where no rise explains the readings, their scatter about the best one counts as noise.
  const least = Math.min(...rises.map(({ squares: misfit }) => misfit));
  const freedom = Math.max(1, last - first + 1 - 5);
  const scattered = least > freedom + SCATTERED_SDS * Math.sqrt(2 * freedom);
  const scale = scattered ? least / freedom : 1;
  const likeliest = Math.max(...rises.map(({ logWeight }) => logWeight));
  const found: { readonly passing: Passing; readonly logWeight: number }[] = [];
  for (const [i, { riseS, onsetS, sdS, logWeight }] of rises.entries()) {
    if (logWeight < likeliest - NEGLIGIBLE_LOG * scale) continue;
    const widthS = (rises[i + 1]?.riseS ?? riseS) - (rises[i - 1]?.riseS ?? riseS);
    const stepS = sdS * Math.sqrt(scale);
    for (const k of ONSETS_SDS) {
      const atS = onsetS + k * stepS;
      if (atS < look.earliestS || atS > look.latestS) continue;
      const passing = pass(look, atS, riseS);
      if (passing === undefined) continue;
      const { squares: misfit, logSpread } = passing;
      found.push({ passing, logWeight: log(widthS * stepS) - misfit / (2 * scale) + logSpread });
    }
  }
  const highest = Math.max(...found.map(({ logWeight }) => logWeight));
  let total = 0;
  let sum = 0;
  let squares = 0;
  let slope = 0;
  for (const { passing, logWeight } of found) {
    const { atS, sdS, slopeMps2 } = passing;
    const weight = exp(logWeight - highest);
    const offset = atS - near.timeS;
    total += weight;
    sum += weight * offset;
    squares += weight * (offset * offset + Math.min(EARLIEST_S ** 2, scale * sdS * sdS));
    slope += weight * slopeMps2;
  }
  if (total === 0) return near;
  const mean = sum / total;
  const { passing: best } = found.find(({ logWeight }) => logWeight === highest)!;
  return {
    timeS: near.timeS + mean,
    index: Math.min(end - 1, Math.max(begin, lastIndexAtOrBefore(timeS, near.timeS + mean))),
    slopeMps2: slope / total,
    ...(near.stampShare === undefined ? {} : { stampShare: near.stampShare }),
    noiseS: Math.sqrt(Math.max(0, squares / total - mean * mean)),
    interpolationS: 0,
    gapS: 0,
    brakes: {
      answers: found.length,
      onsetS: best.onsetS,
      riseS: best.riseS,
      levelMps: targetMps + best.level,
      slopeMps2: best.slope,
      fullMps2: best.full,
      passedS: best.atS,
      firstIndex: first,
      lastIndex: last,
    },
  };
}

/** Rises in order, each with its best onset, as close to one another as the readings tell them apart. */
function likelyRises(look: Look): Rise[] {
  let onsetS = look.earliestS;
  let least = Number.POSITIVE_INFINITY;
  for (let atS = look.earliestS; atS <= look.latestS; atS += STEP_S) {
    const passing = pass(look, atS, USUAL_RISE_S);
    if (passing === undefined || passing.squares >= least) continue;
    onsetS = atS;
    least = passing.squares;
  }
  // The middle of the rise hardly depends on how long it takes.
  const middleS = onsetS + USUAL_RISE_S / 2;
  let rises = RISES_S.flatMap(riseS => bestOnset(look, riseS, middleS) ?? []);
  for (;;) {
    const likeliest = Math.max(...rises.map(({ logWeight }) => logWeight));
    const closer = rises.flatMap((rise, i) => {
      const next = rises[i + 1];
      if (next === undefined) return [rise];
      const likely = Math.max(rise.logWeight, next.logWeight) > likeliest - LIKELY_LOG;
      const far = Math.abs(rise.logWeight - next.logWeight) > STEP_LOG;
      if (!likely || !far || next.riseS - rise.riseS < 2 * FINEST_RISE_S) return [rise];
      const middle = (rise.onsetS + rise.riseS / 2 + next.onsetS + next.riseS / 2) / 2;
      return [rise, ...(bestOnset(look, (rise.riseS + next.riseS) / 2, middle) ?? [])];
    });
    if (closer.length === rises.length) return rises;
    rises = closer;
  }
}

/** The onset of a rise by Gauss and Newton's method, its middle looked for from `middleS` on. */
function bestOnset(look: Look, riseS: number, middleS: number): [Rise] | undefined {
  const { earliestS, latestS } = look;
  const widestS = (latestS - earliestS) / 6;
  const within = (atS: number): number => Math.min(latestS, Math.max(earliestS, atS));
  let onsetS = within(middleS - riseS / 2);
  for (let round = 1; ; round++) {
    const { matrix, right, squares } = normalEquations(look, onsetS, riseS, 4);
    const solved = solveSymmetric(matrix, right);
    if (solved === undefined) return undefined;
    const [, , full = 0, moved = 0] = solved.solution;
    if (full <= 0) return undefined;
    const sdS = Math.min(widestS, Math.sqrt(solved.inverse[3]![3]!) / full);
    const nextS = within(onsetS + Math.max(-STEP_S, Math.min(STEP_S, moved / full)));
    if (Math.abs(nextS - onsetS) < NEAR_SDS * sdS || round === ROUNDS) {
      const explained = solved.solution.reduce((sum, value, k) => sum + value * right[k]!, 0);
      const misfit = Math.max(0, squares - explained);
      const logWeight = -misfit / 2 - solved.logDeterminant / 2 - log(full);
      return [{ riseS, onsetS: nextS, sdS, squares: misfit, logWeight }];
    }
    onsetS = nextS;
  }
}

/** Speed lost `x` seconds after the brakes came on, for a full deceleration of 1 m/s². */
const lost = (x: number, riseS: number): number =>
  x <= 0 ? 0 : x < riseS ? (x * x) / (2 * riseS) : x - riseS / 2;

/** The slope of that: the share of the full deceleration that is there. */
const risen = (x: number, riseS: number): number => (x <= 0 ? 0 : x < riseS ? x / riseS : 1);

/**
 * Normal equations for the speed above the target at the onset, the slope before it and the full deceleration, and
 * with four unknowns for how far the onset lies later, times the full deceleration.
 */
function normalEquations(
  { trace, first, last, targetMps }: Look,
  onsetS: number,
  riseS: number,
  unknowns: 3 | 4,
): { readonly matrix: number[][]; readonly right: number[]; readonly squares: number } {
  const { timeS, speedMps, noiseMps, stampS = 0 } = trace;
  const noise = Math.max(noiseMps, 1e-4);
  const isMoved = unknowns > 3;
  // The lower half of the matrix and the right side, by name: a list for each reading takes three times as long.
  let [n00, n10, n11, n20, n21, n22, n30, n31, n32, n33] = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
  let [r0, r1, r2, r3] = [0, 0, 0, 0];
  let squares = 0;
  for (let i = first; i <= last; i++) {
    const x = timeS[i]! - onsetS;
    const gained = -lost(x, riseS);
    const share = risen(x, riseS);
    // A stamp that is late by a little reads a speed that is off by that times the deceleration.
    const stampMps = stampS * FULL_MPS2 * share;
    const uneven = EVEN_SHARE * FULL_MPS2 * gained;
    const weight = 1 / (noise * noise + stampMps * stampMps + uneven * uneven);
    const y = speedMps[i]! - targetMps;
    squares += weight * y * y;
    r0 += weight * y;
    r1 += weight * x * y;
    r2 += weight * gained * y;
    n00 += weight;
    n10 += weight * x;
    n11 += weight * x * x;
    n20 += weight * gained;
    n21 += weight * gained * x;
    n22 += weight * gained * gained;
    if (!isMoved) continue;
    r3 += weight * share * y;
    n30 += weight * share;
    n31 += weight * share * x;
    n32 += weight * share * gained;
    n33 += weight * share * share;
  }
  // The slope before the brakes, where few readings tell it.
  const held = ROLLING_SPREAD_MPS2 ** -2;
  n11 += held;
  r1 += held * ROLLING_MPS2;
  squares += held * ROLLING_MPS2 ** 2;
  return isMoved
    ? {
        matrix: [
          [n00, n10, n20, n30],
          [n10, n11, n21, n31],
          [n20, n21, n22, n32],
          [n30, n31, n32, n33],
        ],
        right: [r0, r1, r2, r3],
        squares,
      }
    : {
        matrix: [
          [n00, n10, n20],
          [n10, n11, n21],
          [n20, n21, n22],
        ],
        right: [r0, r1, r2],
        squares,
      };
}

function pass(look: Look, onsetS: number, riseS: number): Passing | undefined {
  const { matrix, right, squares } = normalEquations(look, onsetS, riseS, 3);
  const solved = solveSymmetric(matrix, right);
  if (solved === undefined) return undefined;
  const [level = 0, slope = 0, full = 0] = solved.solution;
  if (full <= 0) return undefined;
  const explained = solved.solution.reduce((sum, value, k) => sum + value * right[k]!, 0);
  // Passed under braking: not before the brakes come on, even where the car was already a little slower.
  let low = 0;
  let high = AFTER_S;
  const speedAt = (x: number): number => level + slope * x - full * lost(x, riseS);
  if (speedAt(high) > 0) return undefined;
  if (level <= 0) high = 0;
  for (let k = 0; k < 30 && high > 0; k++) {
    const middle = (low + high) / 2;
    if (speedAt(middle) > 0) low = middle;
    else high = middle;
  }
  const rate = slope - (full * Math.min(riseS, high)) / riseS;
  const g = [1, high, -lost(high, riseS)];
  let variance = 0;
  for (const [r, row] of solved.inverse.entries()) {
    for (const [q, value] of row.entries()) variance += g[r]! * value * g[q]!;
  }
  return {
    onsetS,
    riseS,
    level,
    slope,
    full,
    atS: onsetS + high,
    sdS: Math.min(EARLIEST_S, Math.sqrt(Math.max(0, variance)) / Math.max(0.3, Math.abs(rate))),
    slopeMps2: Math.min(rate, -0.3),
    squares: Math.max(0, squares - explained),
    logSpread: -solved.logDeterminant / 2,
  };
}
