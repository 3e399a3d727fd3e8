/** When the car stands, and how much its speed readings scatter then. */

/** A car slower than this stands: under it lie a receiver's noise and a car settling on its springs. */
export const STANDING_MPS = 0.25;
/** Shortest stand that counts as rest before a start. */
export const STANDING_SHORTEST_S = 1;
/** In noisy logs the limit is this many standard deviations of one reading. */
const STANDING_NOISE_SDS = 5;

/** Sample indices, inclusive. */
export interface Span {
  readonly beginIndex: number;
  readonly endIndex: number;
}

/** The speed under which the car stands, m/s. */
export function standingLimitMps(noiseMps: number, stepMps = 0): number {
  return Math.max(STANDING_MPS, STANDING_NOISE_SDS * noiseMps, 0.6 * stepMps);
}

/** Every stretch of at least two readings and `STANDING_SHORTEST_S` under the limit, in order of time. */
export function standingSpans(timeS: Float64Array, speedMps: Float64Array, limitMps: number): Span[] {
  const spans: Span[] = [];
  let begin = -1;
  for (let i = 0; i <= timeS.length; i++) {
    const stands = i < timeS.length && speedMps[i]! < limitMps;
    if (stands && begin < 0) begin = i;
    if (stands || begin < 0) continue;
    const end = i - 1;
    if (end > begin && timeS[end]! - timeS[begin]! >= 0.95 * STANDING_SHORTEST_S) {
      spans.push({ beginIndex: begin, endIndex: end });
    }
    begin = -1;
  }
  return spans;
}
