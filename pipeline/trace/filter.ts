/** Whether a receiver smooths its speeds, seen from how alike neighbouring readings are while the car stands. */
import { exp, log } from '../elementary.ts';
import type { Span } from './standing.ts';

/** Fewer pairs of readings than this say nothing. */
const PAIRS_NEEDED = 40;
/** Likeness counts when it is this many times what chance gives. */
const CLEAR_SDS = 4;
/** A stand counts from so many readings on, with none further out than this, and its variance at most this of noise's. */
const STAND_READINGS = 10;
const FARTHEST_SDS = 4.5;
const MOST_VARIANCE = 1.4;
/** Less likeness than this is not worth telling. */
const LEAST_CORRELATION = 0.08;
/** A filter slower than this would be no speedometer: what is alike then is the car, s. */
const LONGEST_S = 1;
/** A log says nothing of a receiver where a filter as slow as this would not show, s. */
export const FILTER_TOLD_S = 0.1;

/**
 * Time constant of a first-order filter that would make neighbouring readings as alike as they are, s; undefined
 * where they are not. Speed is written as a magnitude: the likeness of magnitudes of normal deviates of correlation ρ
 * is 2 (√(1 − ρ²) + ρ arcsin ρ − 1) / (π − 2), which is solved for ρ.
 */
export function filterTimeS(
  speedMps: Float64Array,
  spans: readonly Span[],
  noiseMps: number,
  intervalS: number,
): number | undefined {
  const { squares, products, count } = neighboursAtRest(speedMps, spans, noiseMps);
  if (count < PAIRS_NEEDED || squares === 0) return undefined;
  const alike = products / squares;
  if (alike < CLEAR_SDS / Math.sqrt(count) || alike < LEAST_CORRELATION) return undefined;
  const correlation = ofMagnitudes(Math.min(0.98, alike));
  const timeS = -intervalS / log(correlation);
  return timeS < LONGEST_S ? timeS : undefined;
}

/**
 * Whether a filter of `FILTER_TOLD_S`, or of one interval where that is longer, would not show in the stands of a
 * log, because they hold too few readings.
 */
export function restTooBrief(
  speedMps: Float64Array,
  spans: readonly Span[],
  noiseMps: number,
  intervalS: number,
): boolean {
  const alike = magnitudesAlike(exp(-intervalS / Math.max(FILTER_TOLD_S, intervalS)));
  return neighboursAtRest(speedMps, spans, noiseMps).count < Math.max(PAIRS_NEEDED, (CLEAR_SDS / alike) ** 2);
}

/** Squares of readings at rest about their mean, products of neighbours, and how many pairs there are. */
function neighboursAtRest(
  speedMps: Float64Array,
  spans: readonly Span[],
  noiseMps: number,
): { readonly squares: number; readonly products: number; readonly count: number } {
  let squares = 0;
  let products = 0;
  let count = 0;
  for (const { beginIndex, endIndex } of spans) {
    // The edges belong to the car's coming to rest and leaving it.
    const margin = Math.max(2, Math.ceil((endIndex - beginIndex) / 5));
    const stand = speedMps.subarray(beginIndex + margin, endIndex - margin + 1);
    if (stand.length < STAND_READINGS || !stands(stand, noiseMps)) continue;
    // Recorders that write 0 for what is negative halve the mean of a magnitude: it is taken from the stand itself.
    const mean = stand.reduce((sum, value) => sum + value, 0) / stand.length;
    for (let i = 0; i + 1 < stand.length; i++) {
      squares += (stand[i]! - mean) ** 2;
      products += (stand[i]! - mean) * (stand[i + 1]! - mean);
      count++;
    }
  }
  return { squares, products, count };
}

/** Whether readings scatter as noise does and no more: a car that creeps or rocks makes them alike too. */
function stands(readings: Float64Array, noiseMps: number): boolean {
  let squares = 0;
  let most = 0;
  for (const value of readings) {
    squares += value * value;
    most = Math.max(most, value);
  }
  return most < FARTHEST_SDS * noiseMps && squares < MOST_VARIANCE * readings.length * noiseMps ** 2;
}

/** Correlation of the magnitudes of normal deviates of correlation `r`. */
const magnitudesAlike = (r: number): number =>
  (2 * (Math.sqrt(1 - r * r) + r * Math.asin(r) - 1)) / (Math.PI - 2);

/** Correlation of normal deviates whose magnitudes are correlated as told. */
function ofMagnitudes(alike: number): number {
  let low = 0;
  let high = 1;
  for (let k = 0; k < 40; k++) {
    const r = (low + high) / 2;
    if (magnitudesAlike(r) < alike) low = r;
    else high = r;
  }
  return (low + high) / 2;
}
