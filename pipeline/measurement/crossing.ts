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
import type { Trace } from '../trace/trace.ts';
import { rectangular } from './uncertainty.ts';

/** Half widths of the stretches tried, s. */
export const CROSSING_HALF_WIDTHS_S: readonly number[] = [0.8, 0.55, 0.38, 0.26, 0.18, 0.12, 0.08];
/** Fewest readings a parabola is put through. */
const CROSSING_READINGS = 5;
/** A stretch is refused when its scatter is larger than noise would give in about one case in forty. */
const REFUSED_BEYOND_SDS = 2;

export interface Crossing {
  readonly timeS: number;
  /** Last reading before the crossing. */
  readonly index: number;
  /** Acceleration there, m/s². */
  readonly slopeMps2: number;
  /** Standard uncertainties of the time, s. */
  readonly noiseS: number;
  readonly interpolationS: number;
  readonly gapS: number;
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
  let best = straight;
  for (const halfWidthS of CROSSING_HALF_WIDTHS_S) {
    const candidate = throughMany(trace, straight, halfWidthS, begin, end, targetMps);
    if (candidate !== undefined && candidate.noiseS < Math.hypot(best.noiseS, best.interpolationS))
      best = candidate;
  }
  return best;
}

function betweenTwo(trace: Trace, i: number, begin: number, end: number, targetMps: number): Crossing {
  const { timeS, speedMps, noiseMps } = trace;
  const intervalS = timeS[i + 1]! - timeS[i]!;
  const rise = speedMps[i + 1]! - speedMps[i]!;
  const share = (targetMps - speedMps[i]!) / rise;
  const slope = rise / intervalS;
  const bend = Math.max(bendAt(speedMps, i, begin, end), bendAt(speedMps, i + 1, begin, end));
  return {
    timeS: timeS[i]! + share * intervalS,
    index: i,
    slopeMps2: slope,
    // The answer lies between the two readings whatever the noise.
    noiseS: Math.min(rectangular(intervalS), (noiseMps * Math.hypot(share, 1 - share)) / Math.abs(slope)),
    // Two straight lines meeting between the readings leave their chord by a quarter of the second difference.
    interpolationS: Math.min(rectangular(intervalS), bend / 4 / Math.sqrt(3) / Math.abs(slope)),
    gapS: trace.gaps.some(gap => gap.index === i) ? rectangular(intervalS) : 0,
  };
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
  const { timeS, speedMps, noiseMps } = trace;
  const around = straight.timeS;
  let first = straight.index + 1;
  let last = straight.index;
  while (first > begin && around - timeS[first - 1]! <= halfWidthS) first--;
  while (last < end && timeS[last + 1]! - around <= halfWidthS) last++;
  if (last - first + 1 < CROSSING_READINGS || first > straight.index || last <= straight.index)
    return undefined;
  if (trace.gaps.some(gap => gap.index >= first && gap.index < last)) return undefined;
  const fit = fitPolynomial(timeS, speedMps, first, last, around, 2);
  if (fit === undefined) return undefined;
  const freedom = fit.count - 3;
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
  let index = straight.index;
  while (index > begin && timeS[index]! > timeAt) index--;
  while (index + 1 < end && timeS[index + 1]! <= timeAt) index++;
  return {
    timeS: timeAt,
    index,
    slopeMps2,
    noiseS: (noiseMps * Math.sqrt(fittedVariance(fit, timeAt))) / Math.abs(slopeMps2),
    interpolationS: 0,
    gapS: 0,
  };
}
