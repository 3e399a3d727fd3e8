/**
 * Highest speed of a run. Speed may bend smoothly over the top, or come to a point where the driver goes from power to
 * coasting or to the brake. A parabola, points and points before brakes that build up, at every instant near the
 * highest reading, are all fitted to the readings around it, and their tops averaged with the weight the readings give them.
 */
import { exp } from '../elementary.ts';
import { solveSymmetric } from '../trace/least-squares.ts';
import { slopeOver } from '../trace/slope.ts';
import type { Trace } from '../trace/trace.ts';
import { topLostMps } from './lag.ts';
import { lastIndexAtOrBefore } from './tape.ts';
import { COVERAGE_FACTOR } from './uncertainty.ts';

/** Readings within this long of the highest are used, and at least `TOP_READINGS` on either side, s. */
export const TOP_HALF_WIDTH_S = 0.08;
export const TOP_READINGS = 3;
/** Instants at which a point is tried, between the neighbours of the highest reading or this far around it, s. */
const POINT_REACH_S = 0.05;
const POINTS = 20;
/**
 * The shorter the interval beside the time in which a driver changes pedals (s), the less lies between two readings.
 * The share is an allowance, set on simulated runs.
 */
const UNSEEN_SHARE = 0.6;
const UNSEEN_WHOLE_S = 0.25;
/** No shape explains the readings where these scatter by so many standard deviations more than noise. */
const SCATTERED_SDS = 1;

export interface Top {
  readonly topMps: number;
  /** Expanded, k = 2. */
  readonly topUncertaintyMps: number;
}

/**
 * A curve through the readings around the highest, x seconds after `originS`, lowest power first:
 *
 *   parabola  v = c₀ + c₁x + c₂x²
 *   point     v = c₀ + c₁x before the point, c₀ + c₂x after it
 *   brakes    v = c₀ + c₁x before the point, c₀ + c₂x² after it
 */
export interface TopFit {
  readonly shape: 'parabola' | 'point' | 'brakes';
  /** Time of the highest reading, or of the point, s of the log. */
  readonly originS: number;
  /** m/s, m/s², and m/s³ where squared. */
  readonly coefficients: readonly [number, number, number];
  /** Where it is highest among the readings it was made from, s after `originS`, and how high, m/s. */
  readonly topS: number;
  readonly topMps: number;
  readonly firstIndex: number;
  readonly lastIndex: number;
}

/** The likeliest of the curves whose tops `measureTop` averages, and how many they are; undefined where none fits. */
export function likeliestTop(
  trace: Trace,
  firstIndex: number,
  lastIndex: number,
): (TopFit & { readonly answers: number }) | undefined {
  const { found, begin, end } = topsOf(trace, firstIndex, lastIndex);
  if (found.length === 0) return undefined;
  const { shape, originS, coefficients, topS, mps } = found.reduce((best, one) =>
    one.squares < best.squares ? one : best,
  );
  return {
    answers: found.length,
    shape,
    originS,
    coefficients,
    topS,
    topMps: mps,
    firstIndex: begin,
    lastIndex: end,
  };
}

/** The top of the readings `firstIndex` … `lastIndex`. */
export function measureTop(trace: Trace, firstIndex: number, lastIndex: number, receiverMps: number): Top {
  const { at, begin, end, found } = topsOf(trace, firstIndex, lastIndex);
  const plain = { mps: trace.speedMps[at]!, variance: trace.noiseMps ** 2 };
  const { mps, variance } = found.length === 0 ? plain : average(found, end - begin + 1 - 3);
  const lost = lostToFilter(trace, at, firstIndex, lastIndex);
  const standard = Math.hypot(
    Math.sqrt(variance),
    unseenMps(trace, at, firstIndex, lastIndex),
    lost,
    receiverMps,
  );
  return { topMps: mps, topUncertaintyMps: COVERAGE_FACTOR * standard };
}

/** Every curve tried on the readings `begin` … `end` around the highest, `at`. */
function topsOf(
  trace: Trace,
  firstIndex: number,
  lastIndex: number,
): {
  readonly at: number;
  readonly begin: number;
  readonly end: number;
  readonly found: readonly Shape[];
} {
  const { timeS, speedMps } = trace;
  const at = highestReading(speedMps, firstIndex, lastIndex);
  const atS = timeS[at]!;
  const begin = Math.max(firstIndex, Math.min(at - TOP_READINGS, indexFrom(timeS, atS - TOP_HALF_WIDTH_S)));
  const end = Math.min(lastIndex, Math.max(at + TOP_READINGS, indexFrom(timeS, atS + TOP_HALF_WIDTH_S) - 1));
  const shapes = [fitTop(trace, begin, end, atS, 'parabola', bent, vertexOf)];
  const fromS = Math.min(-POINT_REACH_S, timeS[Math.max(begin, at - 1)]! - atS);
  const toS = Math.max(POINT_REACH_S, timeS[Math.min(end, at + 1)]! - atS);
  for (let k = 0; k <= POINTS; k++) {
    const pointS = fromS + ((toS - fromS) * k) / POINTS;
    shapes.push(fitTop(trace, begin, end, atS, 'point', pointed(pointS), () => pointS));
    shapes.push(fitTop(trace, begin, end, atS, 'brakes', braked(pointS), () => pointS));
  }
  return { at, begin, end, found: shapes.filter(shape => shape !== undefined) };
}

/** The highest middle one of three neighbours, or the neighbour above it: one wild reading cannot be it. */
function highestReading(speedMps: Float64Array, firstIndex: number, lastIndex: number): number {
  let at = firstIndex;
  let highest = 0;
  for (let i = firstIndex + 1; i < lastIndex; i++) {
    const [a, b, c] = [speedMps[i - 1]!, speedMps[i]!, speedMps[i + 1]!];
    const middle = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    if (middle <= highest) continue;
    highest = middle;
    at = i;
  }
  const around = [at - 1, at, at + 1].filter(i => i > firstIndex && i < lastIndex);
  return around.reduce((best, i) => (speedMps[i]! > speedMps[best]! ? i : best), at);
}

const indexFrom = (timeS: Float64Array, atS: number): number => lastIndexAtOrBefore(timeS, atS - 1e-9) + 1;

type Basis = (dt: number) => readonly [number, number, number];
const bent: Basis = dt => [1, dt, dt * dt];
/** Level at the point, slope before it, slope after it. */
const pointed =
  (pointS: number): Basis =>
  dt => [1, Math.min(0, dt - pointS), Math.max(0, dt - pointS)];
/** Level at the point, slope before it, and a fall after it that grows as brakes build up. */
const braked =
  (pointS: number): Basis =>
  dt => [1, Math.min(0, dt - pointS), Math.max(0, dt - pointS) ** 2];
/** Where the parabola is highest; where it is not bent that way, at the highest reading. */
const vertexOf = ([, slope = 0, bend = 0]: readonly number[]): number => (bend < 0 ? -slope / (2 * bend) : 0);

/** What may lie between two readings: a share of how far lines of the slopes on either side rise above them, m/s. */
function unseenMps({ timeS, speedMps, rateHz }: Trace, at: number, first: number, last: number): number {
  const rise = slopeOver(timeS, speedMps, Math.max(first, at - 2), at);
  const fall = -slopeOver(timeS, speedMps, at, Math.min(last, at + 2));
  if (rise <= 0 || fall <= 0) return 0;
  return (UNSEEN_SHARE * Math.min(1, 1 / (UNSEEN_WHOLE_S * rateHz)) * rise * fall) / (rise + fall) / rateHz;
}

/** How long a slope before or after the top is looked at where a filter smooths it, in time constants and at least, s. */
const FILTERED_S = 3;
const FILTERED_SHORTEST_S = 0.2;
/** Share of what a filter may take off a pointed top, as a standard uncertainty (simulated runs). */
const FILTERED_SHARE = 0.9;

function lostToFilter({ timeS, speedMps, filterS }: Trace, at: number, first: number, last: number): number {
  if (filterS === undefined) return 0;
  const aroundS = Math.max(FILTERED_SHORTEST_S, FILTERED_S * filterS);
  const from = Math.max(first, Math.min(at - 2, indexFrom(timeS, timeS[at]! - aroundS)));
  const to = Math.min(last, Math.max(at + 2, indexFrom(timeS, timeS[at]! + aroundS)));
  return (
    FILTERED_SHARE *
    topLostMps(filterS, slopeOver(timeS, speedMps, from, at), -slopeOver(timeS, speedMps, at, to))
  );
}

interface Shape extends Pick<TopFit, 'shape' | 'originS' | 'coefficients' | 'topS'> {
  readonly mps: number;
  /** Variance of that for readings of the log's noise. */
  readonly variance: number;
  /** Sum of squares in units of the log's noise. */
  readonly squares: number;
}

function fitTop(
  trace: Trace,
  begin: number,
  end: number,
  atS: number,
  shape: TopFit['shape'],
  basis: Basis,
  topOf: (solution: readonly number[]) => number,
): Shape | undefined {
  const { timeS, speedMps } = trace;
  const noise = Math.max(trace.noiseMps, 1e-4);
  const level = speedMps[Math.floor((begin + end) / 2)]!;
  const matrix = [0, 1, 2].map(() => [0, 0, 0]);
  const right = [0, 0, 0];
  let whole = 0;
  for (let i = begin; i <= end; i++) {
    const g = basis(timeS[i]! - atS);
    const y = speedMps[i]! - level;
    whole += y * y;
    for (let r = 0; r < 3; r++) {
      right[r]! += g[r]! * y;
      for (let q = 0; q < 3; q++) matrix[r]![q]! += g[r]! * g[q]!;
    }
  }
  const solved = end - begin < 3 ? undefined : solveSymmetric(matrix, right);
  if (solved === undefined) return undefined;
  const askedS = topOf(solved.solution);
  const topS = Math.max(timeS[begin]! - atS, Math.min(timeS[end]! - atS, askedS));
  const g = basis(topS);
  let mps = level;
  let variance = 0;
  let explained = 0;
  for (let r = 0; r < 3; r++) {
    mps += g[r]! * solved.solution[r]!;
    explained += right[r]! * solved.solution[r]!;
    for (let q = 0; q < 3; q++) variance += g[r]! * solved.inverse[r]![q]! * g[q]! * noise * noise;
  }
  const [c0 = 0, c1 = 0, c2 = 0] = solved.solution;
  return {
    shape,
    originS: shape === 'parabola' ? atS : atS + askedS,
    coefficients: [level + c0, c1, c2],
    topS: shape === 'parabola' ? topS : topS - askedS,
    mps,
    variance,
    squares: Math.max(0, whole - explained) / (noise * noise),
  };
}

/** Moments of the mixture. Where no shape explains the readings, their scatter about the best one counts as noise. */
function average(shapes: readonly Shape[], freedom: number): { mps: number; variance: number } {
  const least = Math.min(...shapes.map(({ squares }) => squares));
  const scattered = least > freedom + SCATTERED_SDS * Math.sqrt(2 * freedom);
  const scale = scattered ? least / Math.max(1, freedom) : 1;
  let total = 0;
  let sum = 0;
  let squared = 0;
  const origin = shapes[0]!.mps;
  for (const { mps, variance, squares } of shapes) {
    const weight = exp((least - squares) / (2 * scale));
    total += weight;
    sum += weight * (mps - origin);
    squared += weight * ((mps - origin) ** 2 + variance * scale);
  }
  const mean = sum / total;
  return { mps: origin + mean, variance: Math.max(0, squared / total - mean * mean) };
}
