/**
 * Standard deviation of one speed reading, from the log itself.
 *
 * Speed is written as a magnitude, so noise around rest is folded: the root mean square of such readings is
 * the standard deviation of the unfolded ones. Recorders that write 0 for negative readings keep half of them,
 * and the root mean square of the readings above 0 is again the standard deviation.
 */
import { exp } from '../elementary.ts';
import { medianOf } from './least-squares.ts';
import { type Span, STANDING_MPS } from './standing.ts';

/** Assumed where the log neither stands nor moves long enough to tell, m/s (0.1 km/h; common practice). */
export const ASSUMED_NOISE_MPS = 0.1 / 3.6;
/** Fewer readings than this say nothing about scatter. */
const READINGS_NEEDED = 12;
/** Two estimates differ when they are this many standard deviations apart. */
const DIFFER_SDS = 2.5;
/** Below this rate the car itself changes too much between readings to be told from noise. */
const MOVING_LOWEST_RATE_HZ = 5;

/**
 * How much less the mean of neighbouring readings gains over one of them when a filter of this time constant makes
 * them alike: the square root of (1 + ρ)/(1 − ρ), ρ the correlation of neighbours (first-order autoregression).
 */
export function alikeFactor(filterS: number | undefined, rateHz: number): number {
  if (filterS === undefined) return 1;
  const correlation = exp(-1 / (rateHz * filterS));
  return Math.sqrt((1 + correlation) / (1 - correlation));
}

export interface Noise {
  readonly noiseMps: number;
  readonly noiseFrom: 'standing' | 'moving' | 'assumed';
}

/** A standard deviation, m/s, and of how many independent readings it is worth. */
interface Scatter {
  readonly mps: number;
  readonly worth: number;
}

/**
 * The scatter while standing and while moving together where they agree, the larger where they do not; never under
 * the recorder's own step / √12. Taking the larger of two estimates always would overstate noise in short logs.
 */
export function estimateNoise(
  speedMps: Float64Array,
  spans: readonly Span[],
  rateHz: number,
  stepMps: number | undefined,
): Noise {
  const floor = stepMps === undefined ? 0 : stepMps / Math.sqrt(12);
  const standing = standingNoise(speedMps, spans);
  const moving = rateHz >= MOVING_LOWEST_RATE_HZ ? movingNoise(speedMps) : undefined;
  if (standing === undefined && moving === undefined) {
    return { noiseMps: Math.max(ASSUMED_NOISE_MPS, floor), noiseFrom: 'assumed' };
  }
  const larger = (standing?.mps ?? 0) >= (moving?.mps ?? 0) ? 'standing' : 'moving';
  const noiseMps = Math.max(together(standing, moving), floor);
  return { noiseMps, noiseFrom: larger };
}

function together(one: Scatter | undefined, other: Scatter | undefined): number {
  if (one === undefined || other === undefined) return (one ?? other)!.mps;
  const [low, high] = one.mps < other.mps ? [one, other] : [other, one];
  // A standard deviation from a median is known to 1.16/√n of itself (JCGM 100, E.4.3; efficiency of the median).
  const known = 1.16 * Math.hypot(1 / Math.sqrt(low.worth), 1 / Math.sqrt(high.worth));
  if (high.mps > low.mps * (1 + DIFFER_SDS * known)) return high.mps;
  return Math.sqrt((low.worth * low.mps ** 2 + high.worth * high.mps ** 2) / (low.worth + high.worth));
}

/** Root mean square of readings while standing, without the edges where the car is about to move. */
function standingNoise(speedMps: Float64Array, spans: readonly Span[]): Scatter | undefined {
  const squares: number[] = [];
  let zeros = 0;
  for (const span of spans) {
    const length = span.endIndex - span.beginIndex + 1;
    const margin = Math.max(1, Math.floor(length / 5));
    for (let i = span.beginIndex + margin; i <= span.endIndex - margin; i++) {
      if (speedMps[i] === 0) zeros++;
      else squares.push(speedMps[i]! ** 2);
    }
  }
  if (squares.length + zeros < READINGS_NEEDED) return undefined;
  if (squares.length < READINGS_NEEDED) return { mps: 0, worth: zeros };
  // 0.4549 is the median of a squared standard normal; the median ignores a car rocking on its springs.
  return { mps: Math.sqrt(medianOf(squares) / 0.4549), worth: squares.length };
}

/** Scatter of third differences while moving: they vanish for any smooth acceleration, and have variance 20σ². */
function movingNoise(speedMps: Float64Array): Scatter | undefined {
  const third = new Float64Array(speedMps.length);
  let count = 0;
  for (let i = 3; i < speedMps.length; i++) {
    const slowest = Math.min(speedMps[i]!, speedMps[i - 1]!, speedMps[i - 2]!, speedMps[i - 3]!);
    if (slowest < 4 * STANDING_MPS) continue;
    third[count++] = Math.abs(speedMps[i]! - 3 * speedMps[i - 1]! + 3 * speedMps[i - 2]! - speedMps[i - 3]!);
  }
  if (count < READINGS_NEEDED) return undefined;
  const mps = (1.4826 * medianOf(third.subarray(0, count))) / Math.sqrt(20);
  // Four readings share in every difference, and a car that is driven is not smooth: worth a third.
  return { mps, worth: count / 3 };
}
