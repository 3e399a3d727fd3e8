/**
 * Standard deviation of one speed reading, from the log itself.
 *
 * Speed is written as a magnitude, so noise around rest is folded: the root mean square of such readings is
 * the standard deviation of the unfolded ones. Recorders that write 0 for negative readings keep half of them,
 * and the root mean square of the readings above 0 is again the standard deviation.
 */
import { medianOf } from './least-squares.ts';
import { type Span, STANDING_MPS } from './standing.ts';

/** Assumed where the log neither stands nor moves long enough to tell, m/s (0.1 km/h; common practice). */
export const ASSUMED_NOISE_MPS = 0.1 / 3.6;
/** Fewer readings than this say nothing about scatter. */
const READINGS_NEEDED = 12;
/** Below this rate the car itself changes too much between readings to be told from noise. */
const MOVING_LOWEST_RATE_HZ = 5;

export interface Noise {
  readonly noiseMps: number;
  readonly noiseFrom: 'standing' | 'moving' | 'assumed';
}

/** The larger of the scatter while standing and while moving, never under the recorder's own step / √12. */
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
  const noiseMps = Math.max(standing ?? 0, moving ?? 0, floor);
  return { noiseMps, noiseFrom: (standing ?? 0) >= (moving ?? 0) ? 'standing' : 'moving' };
}

/** Root mean square of readings while standing, without the edges where the car is about to move. */
function standingNoise(speedMps: Float64Array, spans: readonly Span[]): number | undefined {
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
  if (squares.length < READINGS_NEEDED) return 0;
  // 0.4549 is the median of a squared standard normal; the median ignores a car rocking on its springs.
  return Math.sqrt(medianOf(squares) / 0.4549);
}

/** Scatter of third differences while moving: they vanish for any smooth acceleration, and have variance 20σ². */
function movingNoise(speedMps: Float64Array): number | undefined {
  const third = new Float64Array(speedMps.length);
  let count = 0;
  for (let i = 3; i < speedMps.length; i++) {
    const slowest = Math.min(speedMps[i]!, speedMps[i - 1]!, speedMps[i - 2]!, speedMps[i - 3]!);
    if (slowest < 4 * STANDING_MPS) continue;
    third[count++] = Math.abs(speedMps[i]! - 3 * speedMps[i - 1]! + 3 * speedMps[i - 2]! - speedMps[i - 3]!);
  }
  return count < READINGS_NEEDED ? undefined : (1.4826 * medianOf(third.subarray(0, count))) / Math.sqrt(20);
}
