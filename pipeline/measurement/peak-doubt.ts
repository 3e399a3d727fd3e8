/**
 * How far the steepest of many straight lines may be from the steepest slope of the car: a greatest of many bends, so
 * that its distribution is drawn (JCGM 101) and not added up.
 *
 * The steepest of many lines through readings that scatter is on average too steep. Noise put once more on the
 * readings makes it steeper again: the noises of both times together have √2 times the spread of the first, so that
 * what the second adds is √2 − 1 of what the first had added already. The excess is not taken off the figure; the
 * interval is widened by it instead (JCGM 100, F.2.4.5).
 */

import { keptNormals } from '../compare/monte-carlo.ts';
import { exp } from '../elementary.ts';
import { selected } from '../trace/least-squares.ts';
import type { Trace } from '../trace/trace.ts';

/** A straight line through the readings `begin` … `end`. */
export interface Line {
  readonly begin: number;
  readonly end: number;
  readonly slopeMps2: number;
}

/** The second noise shows how the first may have scattered, but not how it did: an allowance, set on simulated runs. */
const SPREAD = 1.2;
/** Draws; always the same ones, so that the same log gives the same figure. */
export const PEAK_DRAWS = 1000;
const standardNormals = keptNormals(20_260_601);
/** Lines this many of their own standard deviations less steep than the steepest do not become it. */
const REACH_SDS = 4;
/** Readings further apart than this from the steepest line are another pull, s. */
const AROUND_S = 2;

/** Half the width of the interval around the steepest slope that holds 95 % of what the slope may be, m/s². */
export function peakDoubtMps2(trace: Trace, lines: readonly Line[], steepest: Line): number {
  const { timeS } = trace;
  const noiseMps = Math.hypot(trace.noiseMps, steepest.slopeMps2 * (trace.stampS ?? 0));
  const sdMps2 = noiseMps / Math.sqrt(rulerOf(timeS, steepest).squares);
  const near = lines.filter(
    ({ begin, slopeMps2 }) =>
      Math.abs(timeS[begin]! - timeS[steepest.begin]!) <= AROUND_S &&
      slopeMps2 >= steepest.slopeMps2 - REACH_SDS * Math.SQRT2 * sdMps2,
  );
  const first = Math.min(...near.map(({ begin }) => begin));
  const last = Math.max(...near.map(({ end }) => end));
  // A thousand draws by some dozens of lines: lists of numbers, for objects take three times as long.
  const begins = Int32Array.from(near, ({ begin }) => begin - first);
  const ends = Int32Array.from(near, ({ end }) => end - first + 1);
  const slopes = Float64Array.from(near, ({ slopeMps2 }) => slopeMps2);
  const rulers = near.map(line => rulerOf(timeS, line));
  const middles = Float64Array.from(rulers, ({ meanS }) => meanS - timeS[first]!);
  const squares = Float64Array.from(rulers, ruler => ruler.squares);
  const alike = trace.filterS === undefined ? 0 : exp(-1 / (trace.rateHz * trace.filterS));
  const fresh = Math.sqrt(1 - alike * alike);
  const count = last - first + 2;
  const sums = new Float64Array(count);
  const moments = new Float64Array(count);
  const sinceS = timeS.subarray(first, last + 1).map(t => t - timeS[first]!);
  const normals = standardNormals(PEAK_DRAWS * count);
  const excesses = new Float64Array(PEAK_DRAWS);
  for (let draw = 0; draw < PEAK_DRAWS; draw++) {
    const from = draw * count;
    let noise = noiseMps * normals[from]!;
    let sum = 0;
    let moment = 0;
    for (let k = 1; k < count; k++) {
      sum += noise;
      moment += sinceS[k - 1]! * noise;
      sums[k] = sum;
      moments[k] = moment;
      noise = alike * noise + fresh * (noiseMps * normals[from + k]!);
    }
    let greatest = Number.NEGATIVE_INFINITY;
    for (let line = 0; line < slopes.length; line++) {
      const begin = begins[line]!;
      const end = ends[line]!;
      const moment = moments[end]! - moments[begin]! - middles[line]! * (sums[end]! - sums[begin]!);
      const slope = slopes[line]! + moment / squares[line]!;
      if (slope > greatest) greatest = slope;
    }
    excesses[draw] = greatest - steepest.slopeMps2;
  }
  return halfWidth(excesses);
}

/** Middle of a line's readings, s, and the sum of squares about it. */
function rulerOf(timeS: Float64Array, { begin, end }: Line): { meanS: number; squares: number } {
  let sum = 0;
  for (let i = begin; i <= end; i++) sum += timeS[i]!;
  const meanS = sum / (end - begin + 1);
  let squares = 0;
  for (let i = begin; i <= end; i++) squares += (timeS[i]! - meanS) ** 2;
  return { meanS, squares };
}

/** What 95 % of the first noise's excesses do not exceed either way, from those of the second noise. */
function halfWidth(excesses: Float64Array): number {
  let sum = 0;
  for (const excess of excesses) sum += excess;
  const mean = sum / excesses.length;
  const already = mean / (Math.SQRT2 - 1);
  const sizes = excesses.map(excess => Math.abs(already + SPREAD * (excess - mean)));
  return selected(sizes, Math.ceil(0.95 * sizes.length) - 1);
}
