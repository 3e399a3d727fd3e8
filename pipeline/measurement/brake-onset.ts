/**
 * The instant speed passes a value just as the brakes come on, where neither a parabola nor a straight line between
 * two readings describes it: the car rolls on evenly, then deceleration rises evenly to its full value.
 *
 * When it begins and how long it takes to rise is not known: every pair of a grid is tried, the rest solved by least
 * squares, and the instants of passing averaged with the weight the readings give them.
 */
import { exp } from '../elementary.ts';
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
const STEP_S = 0.015;
/** The passing moves by this share of a step, for level and slope are solved anew at every step (simulated runs). */
const STEP_MOVES = 0.2;
/** Times in which deceleration rises, s (common practice, no source). */
const RISES_S = [0.08, 0.12, 0.16, 0.2, 0.25, 0.32];
/** Readings that scatter less are a closed form, not a recorder's, and a grid cannot follow them, m/s. */
export const SCATTERING_MPS = 0.002;
/** Deceleration is trusted to stay even to this share of what speed has been lost. */
const EVEN_SHARE = 0.01;
const NEGLIGIBLE_LOG = 12;
/** The best pair does not explain the readings where these scatter by so many standard deviations more than noise. */
const SCATTERED_SDS = 1;

interface Passing {
  readonly atS: number;
  readonly sdS: number;
  readonly slopeMps2: number;
  /** Sum of squares in units of the log's noise, and what the spread of the answers adds to the weight. */
  readonly squares: number;
  readonly logSpread: number;
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
  const found: Passing[] = [];
  const earliestS = Math.max(near.timeS - EARLIEST_S, timeS[first]! - 1 / trace.rateHz);
  for (let onsetS = earliestS; onsetS <= near.timeS + LATEST_S; onsetS += STEP_S) {
    for (const riseS of RISES_S) {
      const passing = pass(trace, first, last, onsetS, riseS, targetMps);
      if (passing !== undefined) found.push(passing);
    }
  }
  // Where no pair of the grid explains the readings, their scatter about the best one counts as noise.
  const least = Math.min(...found.map(({ squares: misfit }) => misfit));
  const freedom = Math.max(1, last - first + 1 - 5);
  const scattered = least > freedom + SCATTERED_SDS * Math.sqrt(2 * freedom);
  const scale = scattered ? least / freedom : 1;
  const logWeightOf = ({ squares: misfit, logSpread }: Passing): number => -misfit / (2 * scale) + logSpread;
  const highest = Math.max(...found.map(logWeightOf));
  let total = 0;
  let sum = 0;
  let squares = 0;
  let slope = 0;
  for (const passing of found) {
    const { atS, sdS, slopeMps2 } = passing;
    const logWeight = logWeightOf(passing);
    if (logWeight < highest - NEGLIGIBLE_LOG) continue;
    const weight = exp(logWeight - highest);
    const offset = atS - near.timeS;
    total += weight;
    sum += weight * offset;
    squares +=
      weight *
      (offset * offset + Math.min(EARLIEST_S ** 2, scale * sdS * sdS) + (STEP_MOVES * STEP_S) ** 2 / 12);
    slope += weight * slopeMps2;
  }
  if (total === 0) return near;
  const mean = sum / total;
  return {
    timeS: near.timeS + mean,
    index: Math.min(end - 1, Math.max(begin, lastIndexAtOrBefore(timeS, near.timeS + mean))),
    slopeMps2: slope / total,
    noiseS: Math.sqrt(Math.max(0, squares / total - mean * mean)),
    interpolationS: 0,
    gapS: 0,
  };
}

/** Speed lost `x` seconds after the brakes came on, for a full deceleration of 1 m/s². */
const lost = (x: number, riseS: number): number =>
  x <= 0 ? 0 : x < riseS ? (x * x) / (2 * riseS) : x - riseS / 2;

function pass(
  trace: Trace,
  first: number,
  last: number,
  onsetS: number,
  riseS: number,
  targetMps: number,
): Passing | undefined {
  const { timeS, speedMps, noiseMps } = trace;
  const noise = Math.max(noiseMps, 1e-4);
  const matrix = [0, 1, 2].map(() => [0, 0, 0]);
  const right = [0, 0, 0];
  let squares = 0;
  for (let i = first; i <= last; i++) {
    const x = timeS[i]! - onsetS;
    const g = [1, x, -lost(x, riseS)] as const;
    const weight = 1 / (noise * noise + (EVEN_SHARE * 8 * g[2]) ** 2);
    const y = speedMps[i]! - targetMps;
    squares += weight * y * y;
    for (let r = 0; r < 3; r++) {
      right[r]! += weight * g[r]! * y;
      for (let q = 0; q < 3; q++) matrix[r]![q]! += weight * g[r]! * g[q]!;
    }
  }
  // The slope before the brakes, where few readings tell it.
  const held = ROLLING_SPREAD_MPS2 ** -2;
  matrix[1]![1]! += held;
  right[1]! += held * ROLLING_MPS2;
  squares += held * ROLLING_MPS2 ** 2;
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
    atS: onsetS + high,
    sdS: Math.min(EARLIEST_S, Math.sqrt(Math.max(0, variance)) / Math.max(0.3, Math.abs(rate))),
    slopeMps2: Math.min(rate, -0.3),
    squares: Math.max(0, squares - explained),
    logSpread: -solved.logDeterminant / 2,
  };
}
