/**
 * The slope of a road from the altitude that receivers log. One pass says little: satellite altitude wanders by a
 * metre or more within minutes, which over 400 m looks like a slope of a quarter of a percent. Many passes, minutes
 * apart, wander differently, and their scatter tells how far their mean can be trusted.
 */
import { geodesicBetween } from '../geodesy.ts';
import type { Trace } from '../trace/trace.ts';
import { degToRad } from '../units.ts';
import { type ProfilePoint, type SlopeProfile, surveyedSlope } from './slope.ts';

/** A place on the road and the way distance along it counts. */
export interface RoadLine {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly headingDeg: number;
}

/** Altitude along the road on one drive over it, either way. */
export interface Pass {
  readonly alongM: Float64Array;
  readonly altitudeM: Float64Array;
}

/** One stretch of a trace as a pass; undefined where the log has no positions or no altitude. */
export function traceToPass(
  trace: Trace,
  beginIndex: number,
  endIndex: number,
  line: RoadLine,
): Pass | undefined {
  const { latitudeDeg, longitudeDeg, altitudeM } = trace.channels;
  if (latitudeDeg === undefined || longitudeDeg === undefined || altitudeM === undefined) return undefined;
  const along: number[] = [];
  const altitude: number[] = [];
  for (let i = beginIndex; i <= endIndex; i++) {
    const { distanceM, startBearingDeg } = geodesicBetween(
      line.latitudeDeg,
      line.longitudeDeg,
      latitudeDeg[i]!,
      longitudeDeg[i]!,
    );
    const alongM = distanceM * Math.cos(degToRad(startBearingDeg - line.headingDeg));
    if (!Number.isFinite(alongM) || !Number.isFinite(altitudeM[i]!)) continue;
    along.push(alongM);
    altitude.push(altitudeM[i]!);
  }
  return { alongM: Float64Array.from(along), altitudeM: Float64Array.from(altitude) };
}

/** Slower than this a car turns or creeps, m/s. */
const PASSING_MPS = 4;
/** A pass is at least this long, m, and its distance along the road at least this share of the distance driven. */
const SHORTEST_PASS_M = 150;
const STRAIGHT_SHARE = 0.95;

/** Every drive of a log along the road, either way: turns, and what leads elsewhere, are left out. */
export function tracePasses(trace: Trace, line: RoadLine): readonly Pass[] {
  const { speedMps, distanceM } = trace;
  const found: Pass[] = [];
  let begin = -1;
  for (let i = 0; i <= speedMps.length; i++) {
    const moving = i < speedMps.length && speedMps[i]! >= PASSING_MPS;
    if (moving && begin < 0) begin = i;
    if (moving || begin < 0) continue;
    const drivenM = distanceM[i - 1]! - distanceM[begin]!;
    const pass = drivenM < SHORTEST_PASS_M ? undefined : traceToPass(trace, begin, i - 1, line);
    const alongM = pass === undefined ? 0 : Math.abs((pass.alongM.at(-1) ?? 0) - (pass.alongM[0] ?? 0));
    if (pass !== undefined && alongM >= STRAIGHT_SHARE * drivenM - BIN_M) found.push(pass);
    begin = -1;
  }
  return found;
}

/** Length of road over which altitude is averaged within a pass, m. */
export const BIN_M = 50;
/** Fewer passes than this have no scatter worth the name. */
export const FEWEST_PASSES = 4;

export interface LoggedSlope {
  /** In the direction of the road line; heights over its first place. */
  readonly profile: SlopeProfile;
  /** Mean rise from end to end, a fraction. */
  readonly meanSlope: number;
  /** Standard uncertainty of the mean rise, from the scatter between passes over √n. */
  readonly standardUncertainty: number;
  /** Passes that cover the road from end to end. */
  readonly passes: number;
}

export type LoggedSlopeAnswer =
  | { readonly decided: true; readonly slope: LoggedSlope }
  /** How many passes log altitude at all, where too few cover one stretch. */
  | { readonly decided: false; readonly passes: number };

/**
 * The slope profile from at least `FEWEST_PASSES` passes over one stretch. Of all stretches the one is taken whose
 * slope is known best: uncertainty falls with its length and with the root of the passes that cover it.
 */
export function slopeFromPasses(passes: readonly Pass[], binM: number = BIN_M): LoggedSlopeAnswer {
  const binned = passes.map(pass => toBins(pass, binM));
  const { whole, first, last } = bestStretch(binned);
  if (whole.length < FEWEST_PASSES) {
    return { decided: false, passes: binned.filter(({ size }) => size > 0).length };
  }
  const stretch = Array.from({ length: last - first + 1 }, (_, i) => first + i);
  const points = stretch.map((bin): ProfilePoint => {
    const rises = whole.map(bins => bins.get(bin)! - bins.get(first)!);
    return [bin * binM, rises.reduce((sum, rise) => sum + rise, 0) / rises.length];
  });
  const slopes = whole.map(bins => (bins.get(last)! - bins.get(first)!) / ((last - first) * binM));
  const meanSlope = slopes.reduce((sum, slope) => sum + slope, 0) / slopes.length;
  const variance = slopes.reduce((sum, slope) => sum + (slope - meanSlope) ** 2, 0) / (slopes.length - 1);
  return {
    decided: true,
    slope: {
      profile: surveyedSlope(points),
      meanSlope,
      standardUncertainty: Math.sqrt(variance / slopes.length),
      passes: whole.length,
    },
  };
}

/**
 * Altitude at every multiple of `binM` that the pass goes over: a straight line through the readings nearest to it,
 * since readings crowd where the car is slow and a pass may begin or end inside a bin.
 */
function toBins({ alongM, altitudeM }: Pass, binM: number): Map<number, number> {
  const sums = new Map<
    number,
    { n: number; d: number; dd: number; a: number; da: number; low: number; high: number }
  >();
  for (let i = 0; i < alongM.length; i++) {
    const bin = Math.round(alongM[i]! / binM);
    const d = alongM[i]! - bin * binM;
    const a = altitudeM[i]!;
    const sum = sums.get(bin) ?? { n: 0, d: 0, dd: 0, a: 0, da: 0, low: d, high: d };
    sum.n += 1;
    sum.d += d;
    sum.dd += d * d;
    sum.a += a;
    sum.da += d * a;
    sum.low = Math.min(sum.low, d);
    sum.high = Math.max(sum.high, d);
    sums.set(bin, sum);
  }
  const heights = new Map<number, number>();
  for (const [bin, { n, d, dd, a, da, low, high }] of sums) {
    const spread = n * dd - d * d;
    if (low <= 0 && high >= 0 && spread > 0) heights.set(bin, (a * dd - d * da) / spread);
  }
  return heights;
}

type Bins = ReadonlyMap<number, number>;

/** The stretch of bins that is worth most, and the passes that cover it from end to end; none where too few do. */
function bestStretch(binned: readonly Bins[]): {
  readonly whole: readonly Bins[];
  readonly first: number;
  readonly last: number;
} {
  const covers = binned.map(bins => ({ bins, ...longestRun([...bins.keys()]) }));
  const covering = (first: number, last: number): readonly Bins[] =>
    covers.filter(({ from, to }) => from <= first && to >= last).map(({ bins }) => bins);
  const ends = (of: 'from' | 'to'): readonly number[] => [...new Set(covers.map(cover => cover[of]))];
  let best = { whole: [] as readonly Bins[], first: 0, last: 0 };
  let most = 0;
  for (const first of ends('from')) {
    for (const last of ends('to')) {
      const whole = last > first ? covering(first, last) : [];
      const worth = (last - first) * Math.sqrt(whole.length);
      if (whole.length < FEWEST_PASSES || worth <= most) continue;
      most = worth;
      best = { whole, first, last };
    }
  }
  return best;
}

/** The longest run of bins that follow one another. */
function longestRun(bins: readonly number[]): { readonly from: number; readonly to: number } {
  const sorted = [...bins].sort((a, b) => a - b);
  let best = { from: 0, to: -1 };
  let from = sorted[0] ?? 0;
  for (const [i, bin] of sorted.entries()) {
    if (i > 0 && bin !== sorted[i - 1]! + 1) from = bin;
    if (bin - from > best.to - best.from) best = { from, to: bin };
  }
  return best;
}
