/** Speeds that a recorder does not show: it writes 0 for all of them. */
import type { Span } from './standing.ts';

/** A recorder hides speeds when at least this share of its readings at rest is 0. */
const ZEROS_SHARE = 0.3;
/** Readings that scatter less than this are a closed form, not a recorder's, m/s. */
const SCATTERING_MPS = 0.001;
/** No recorder hides more than this, m/s (common practice, no source). */
const MOST_MPS = 0.17;

/**
 * Speed below which readings are 0, m/s; undefined where none are hidden. A recorder that rounds hides half a step;
 * of any other it is known only that its smallest reading is above the limit: half of that is taken.
 */
export function hiddenBelowMps(
  speedMps: Float64Array,
  spans: readonly Span[],
  noiseMps: number,
  stepMps: number | undefined,
): number | undefined {
  let zeros = 0;
  let count = 0;
  for (const { beginIndex, endIndex } of spans) {
    count += endIndex - beginIndex + 1;
    for (let i = beginIndex; i <= endIndex; i++) if (speedMps[i] === 0) zeros++;
  }
  if (count === 0 || zeros < ZEROS_SHARE * count || noiseMps < SCATTERING_MPS) return undefined;
  let smallest = Number.POSITIVE_INFINITY;
  for (const value of speedMps) if (value > 0 && value < smallest) smallest = value;
  if (!Number.isFinite(smallest)) return undefined;
  const rounds = stepMps !== undefined && smallest < 1.5 * stepMps;
  return rounds ? stepMps / 2 : Math.min(MOST_MPS, smallest / 2);
}
