/**
 * The instant speed passes a value, from a parabola through the readings around it.
 *
 * Two neighbouring readings carry their whole noise into the answer; many readings carry less, but a gear change
 * among them would bend the curve. So the widest stretch is used whose readings scatter about the parabola no more
 * than the log's own noise explains; where none does, the straight line between two readings stands.
 */
import {
  evaluatePolynomial,
  fitPolynomial,
  fittedVariance,
  polynomialSlope,
} from '../trace/least-squares.ts';
import { alikeFactor } from '../trace/noise.ts';
import { slopeOver } from '../trace/slope.ts';
import type { Trace } from '../trace/trace.ts';
import { lastIndexAtOrBefore } from './tape.ts';
import { rectangular } from './uncertainty.ts';

/** Half widths of the stretches tried, s. */
export const CROSSING_HALF_WIDTHS_S: readonly number[] = [
  0.04, 0.06, 0.08, 0.12, 0.18, 0.26, 0.38, 0.55, 0.8,
];
/** Fewest readings a parabola is put through. */
const CROSSING_READINGS = 5;
/** Steps of the recorder in half a stretch. */
const STAIRS_HALF = 1.5;
/** A stretch is refused when its scatter is larger than noise would give in about one case in forty. */
const REFUSED_BEYOND_SDS = 2;
/**
 * Widening stops where the answers of all stretches so far no longer agree within this many of their own standard
 * deviations: bias begins to show before scatter does (intersection of confidence intervals; Goldenshluger and
 * Nemirovski 1997).
 */
const AGREEMENT_SDS = 2;
/**
 * Where a bend ends the widening, what is left of it within the stretch moves the answer by this many of its standard
 * deviations: an allowance, set on simulated runs.
 */
const BEND_LEFT_SDS = 0.55;
/** Readings this near tell the slope where two neighbours differ by less than the noise, s. */
const CENTRE_HALF_WIDTH_S = 0.12;
const CLEAR_RISE_SDS = 4;
/** Between readings further apart than this (s) a gear change goes unseen: an allowance, as a share of the interval. */
const COARSE_S = 0.6;
const COARSE_SHARE = 0.08;
/** Divides the second difference to give how far speed leaves the chord between two readings. */
const BEND_SHARE = 6;

/** A parabola through the readings `firstIndex` … `lastIndex`: m/s over s since `originX`, lowest power first. */
export interface CrossingFit {
  readonly originX: number;
  readonly coefficients: readonly number[];
  readonly firstIndex: number;
  readonly lastIndex: number;
}

/**
 * Brakes that come on around the crossing: speed is level + slope·x − full·D(x) at x seconds after the onset, with
 * D = x²/2r while the deceleration rises for r seconds, x − r/2 after that, 0 before. The likeliest of all answers.
 */
export interface BrakesFit {
  /** How many answers were averaged. */
  readonly answers: number;
  readonly onsetS: number;
  readonly riseS: number;
  /** Speed at the onset, m/s. */
  readonly levelMps: number;
  /** Before the brakes, and under it, m/s². */
  readonly slopeMps2: number;
  /** Of the brakes alone, m/s². */
  readonly fullMps2: number;
  /** When this answer passes the speed, s. */
  readonly passedS: number;
  readonly firstIndex: number;
  readonly lastIndex: number;
}

export interface Crossing {
  readonly timeS: number;
  /** Last reading before the crossing. */
  readonly index: number;
  /** Acceleration there, m/s². */
  readonly slopeMps2: number;
  /** Standard uncertainties of the time, s. */
  readonly noiseS: number;
  readonly interpolationS: number;
  /** Share of `noiseS` that the scatter of time stamps makes; absent where they are regular. */
  readonly stampShare?: number;
  readonly gapS: number;
  /** What it was taken from; absent where the straight line between two readings stands. */
  readonly fit?: CrossingFit;
  /** As `fit`, where the brakes come on around it. */
  readonly brakes?: BrakesFit;
}

/** First rise through `targetMps` between two readings of `begin` … `end`; undefined if there is none. */
export function risingThrough(
  trace: Trace,
  begin: number,
  end: number,
  targetMps: number,
): Crossing | undefined {
  const { speedMps } = trace;
  for (let i = begin; i < end; i++) {
    if (speedMps[i]! < targetMps && speedMps[i + 1]! >= targetMps)
      return around(trace, i, begin, end, targetMps);
  }
  return undefined;
}

/** Last fall through `targetMps` between two readings of `begin` … `end`; undefined if there is none. */
export function fallingThrough(
  trace: Trace,
  begin: number,
  end: number,
  targetMps: number,
): Crossing | undefined {
  const { speedMps } = trace;
  for (let i = end - 1; i >= begin; i--) {
    if (speedMps[i]! >= targetMps && speedMps[i + 1]! < targetMps)
      return around(trace, i, begin, end, targetMps);
  }
  return undefined;
}

/** The crossing between readings `i` and `i + 1`. */
function around(trace: Trace, i: number, begin: number, end: number, targetMps: number): Crossing {
  const straight = betweenTwo(trace, i, begin, end, targetMps);
  if (straight.gapS > 0) return straight;
  let earliestS = Number.NEGATIVE_INFINITY;
  let latestS = Number.POSITIVE_INFINITY;
  let many: Crossing | undefined;
  let bends = false;
  const centre = centred(trace, straight, begin, end, targetMps);
  for (const halfWidthS of CROSSING_HALF_WIDTHS_S) {
    const candidate = throughMany(trace, centre, halfWidthS, begin, end, targetMps);
    bends ||= candidate === undefined && many !== undefined;
    if (candidate === undefined) continue;
    const allowedS = AGREEMENT_SDS * candidate.noiseS;
    earliestS = Math.max(earliestS, candidate.timeS - allowedS);
    latestS = Math.min(latestS, candidate.timeS + allowedS);
    bends ||= earliestS > latestS;
    if (earliestS > latestS) break;
    if (many === undefined || candidate.noiseS < many.noiseS) many = candidate;
  }
  if (many === undefined) return straight;
  const interpolationS = bends ? BEND_LEFT_SDS * many.noiseS : 0;
  const better = many.noiseS < Math.hypot(straight.noiseS, straight.interpolationS);
  return better ? { ...many, interpolationS } : straight;
}

function betweenTwo(trace: Trace, i: number, begin: number, end: number, targetMps: number): Crossing {
  const { timeS, speedMps } = trace;
  const intervalS = timeS[i + 1]! - timeS[i]!;
  const rise = speedMps[i + 1]! - speedMps[i]!;
  const share = (targetMps - speedMps[i]!) / rise;
  const gapS = trace.gaps.some(gap => gap.index === i) ? rectangular(intervalS) : 0;
  const { noiseMps, stampShare } = scatterAt(trace, rise / intervalS);
  // A step no larger than the noise says nothing about the slope: take that from more readings.
  const clear = Math.abs(rise) > CLEAR_RISE_SDS * noiseMps;
  const near = readingsWithin(trace.timeS, timeS[i]!, CENTRE_HALF_WIDTH_S, begin, end);
  const wide = slopeOver(timeS, speedMps, Math.min(near.first, i), Math.max(near.last, i + 1));
  const slope = clear || wide * rise <= 0 ? rise / intervalS : wide;
  const bend = Math.max(bendAt(speedMps, i, begin, end), bendAt(speedMps, i + 1, begin, end));
  // Where the two readings differ clearly, the crossing lies between them, wherever the estimate does.
  const most = clear ? intervalS * Math.hypot(rectangular(1), share - 0.5) : Number.POSITIVE_INFINITY;
  return {
    timeS: timeS[i]! + share * intervalS,
    index: i,
    slopeMps2: slope,
    noiseS: Math.min(most, (noiseMps * Math.hypot(share, 1 - share)) / Math.abs(slope)),
    // Between a parabola, an eighth of the second difference off its chord, and a kink, a quarter of it off;
    // where one of them is nearly level, that is a long time.
    interpolationS: Math.min(
      most,
      Math.max(
        bend / BEND_SHARE / Math.sqrt(3) / leastSlope(trace, i, begin, end, slope),
        intervalS > COARSE_S ? COARSE_SHARE * intervalS : 0,
      ),
    ),
    gapS,
    ...(stampShare > 0 ? { stampShare } : {}),
  };
}

/**
 * At high rates noise takes the first reading beyond the target well before the speed itself gets there: a straight
 * line through the readings near it finds the middle of the stretches.
 */
function centred(trace: Trace, straight: Crossing, begin: number, end: number, targetMps: number): Crossing {
  const { timeS, speedMps } = trace;
  let centre = straight;
  for (let round = 0; round < 3; round++) {
    const { first, last } = readingsWithin(timeS, centre.timeS, CENTRE_HALF_WIDTH_S, begin, end);
    if (last - first + 1 < CROSSING_READINGS) return straight;
    const line = fitPolynomial(timeS, speedMps, first, last, centre.timeS, 1);
    const [value = 0, slope = 0] = line?.coefficients ?? [];
    const shift = (targetMps - value) / slope;
    if (slope * straight.slopeMps2 <= 0 || !(Math.abs(shift) <= CENTRE_HALF_WIDTH_S)) return straight;
    const movedS = centre.timeS + shift;
    centre = { ...straight, timeS: movedS, index: indexAt(timeS, movedS, centre.index, begin, end) };
  }
  return centre;
}

/** Last reading at or before a time, between `begin` and `end - 1`; `near` is where to begin looking. */
function indexAt(timeS: Float64Array, atS: number, near: number, begin: number, end: number): number {
  let index = near;
  while (index > begin && timeS[index]! > atS) index--;
  while (index + 1 < end && timeS[index + 1]! <= atS) index++;
  return index;
}

function readingsWithin(
  timeS: Float64Array,
  atS: number,
  halfWidthS: number,
  begin: number,
  end: number,
): { first: number; last: number } {
  let first = Math.max(begin, lastIndexAtOrBefore(timeS, atS - halfWidthS));
  while (first <= end && timeS[first]! < atS - halfWidthS) first++;
  const last = Math.min(end, lastIndexAtOrBefore(timeS, atS + halfWidthS));
  return { first, last };
}

function leastSlope(trace: Trace, i: number, begin: number, end: number, slope: number): number {
  const { timeS, speedMps } = trace;
  const along = [i - 1, i + 1]
    .filter(k => k >= begin && k < end)
    .map(k => ((speedMps[k + 1]! - speedMps[k]!) / (timeS[k + 1]! - timeS[k]!)) * Math.sign(slope));
  return Math.max(1e-6, Math.min(Math.abs(slope), ...along));
}

function bendAt(values: Float64Array, i: number, begin: number, end: number): number {
  return i <= begin || i >= end ? 0 : Math.abs(values[i + 1]! - 2 * values[i]! + values[i - 1]!);
}

function throughMany(
  trace: Trace,
  straight: Crossing,
  halfWidthS: number,
  begin: number,
  end: number,
  targetMps: number,
): Crossing | undefined {
  const { timeS, speedMps } = trace;
  const around = straight.timeS;
  const { first, last } = readingsWithin(timeS, around, halfWidthS, begin, end);
  if (last - first + 1 < CROSSING_READINGS || first > straight.index || last <= straight.index)
    return undefined;
  if (trace.gaps.some(gap => gap.index >= first && gap.index < last)) return undefined;
  // A recorder of coarse steps draws a staircase: a stretch must hold several.
  const stairS = (trace.speedStepMps ?? 0) / Math.abs(straight.slopeMps2);
  if (halfWidthS < STAIRS_HALF * stairS) return undefined;
  const fit = fitPolynomial(timeS, speedMps, first, last, around, 2);
  if (fit === undefined) return undefined;
  const freedom = fit.count - 3;
  // A stamp that is late by a little reads a speed that is off by that times the acceleration.
  const { noiseMps, stampShare } = scatterAt(trace, straight.slopeMps2);
  const variance = Math.max(noiseMps, 1e-6) ** 2;
  if (fit.residualSumOfSquares / variance > freedom + REFUSED_BEYOND_SDS * Math.sqrt(2 * freedom))
    return undefined;
  let dt = 0;
  for (let k = 0; k < 4; k++) {
    const slope = polynomialSlope(fit.coefficients, dt);
    if (slope * straight.slopeMps2 <= 0) return undefined;
    dt += (targetMps - evaluatePolynomial(fit.coefficients, dt)) / slope;
  }
  if (!(Math.abs(dt) <= halfWidthS)) return undefined;
  const timeAt = around + dt;
  const slopeMps2 = polynomialSlope(fit.coefficients, dt);
  return {
    timeS: timeAt,
    index: indexAt(timeS, timeAt, straight.index, begin, end),
    slopeMps2,
    noiseS: averagedMps(trace, noiseMps, fittedVariance(fit, timeAt)) / Math.abs(slopeMps2),
    ...(stampShare > 0 ? { stampShare } : {}),
    interpolationS: 0,
    gapS: 0,
    fit: { originX: around, coefficients: fit.coefficients, firstIndex: first, lastIndex: last },
  };
}

/** Scatter of one reading where speed changes so fast, m/s, and how much of it the time stamps make. */
function scatterAt(trace: Trace, slopeMps2: number): { noiseMps: number; stampShare: number } {
  const stampMps = (trace.stampS ?? 0) * Math.abs(slopeMps2);
  const noiseMps = Math.hypot(trace.noiseMps, stampMps);
  return { noiseMps, stampShare: noiseMps > 0 ? stampMps / noiseMps : 0 };
}

/** Standard deviation of an average of readings that may be alike, m/s; never more than that of one of them. */
function averagedMps(trace: Trace, noiseMps: number, variance: number): number {
  return noiseMps * Math.min(1, alikeFactor(trace.filterS, trace.rateHz) * Math.sqrt(variance));
}
