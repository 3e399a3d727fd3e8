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
  | { readonly decided: false; readonly reason: string };

/** The slope profile from at least `FEWEST_PASSES` passes, over the stretch that as many of them cover. */
export function slopeFromPasses(passes: readonly Pass[], binM: number = BIN_M): LoggedSlopeAnswer {
  const binned = passes.map(pass => toBins(pass, binM));
  const counts = new Map<number, number>();
  for (const bins of binned) for (const bin of bins.keys()) counts.set(bin, (counts.get(bin) ?? 0) + 1);
  const stretch = longestStretch([...counts].filter(([, n]) => n >= FEWEST_PASSES).map(([bin]) => bin));
  const whole = binned.filter(bins => stretch.every(bin => bins.has(bin)));
  const first = stretch[0];
  const last = stretch.at(-1);
  if (first === undefined || last === undefined || first === last || whole.length < FEWEST_PASSES) {
    return {
      decided: false,
      reason: `${whole.length} passes log altitude over the same stretch; at least ${FEWEST_PASSES} are needed`,
    };
  }
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

function longestStretch(bins: readonly number[]): readonly number[] {
  const sorted = [...bins].sort((a, b) => a - b);
  let best: number[] = [];
  let run: number[] = [];
  for (const bin of sorted) {
    if (run.length > 0 && bin !== run.at(-1)! + 1) run = [];
    run.push(bin);
    if (run.length > best.length) best = [...run];
  }
  return best;
}
