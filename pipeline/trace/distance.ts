/** Distance as the integral of recorded speed: positions are never summed. */
import type { Span } from './standing.ts';

/**
 * Trapezoid integral of speed from the first reading, m. Unbiased under noise while moving; while standing
 * the folded noise would add distance, so readings within a stand count as zero.
 */
export function integrateSpeed(
  timeS: Float64Array,
  speedMps: Float64Array,
  stands: readonly Span[],
): Float64Array {
  const distanceM = new Float64Array(timeS.length);
  let stand = 0;
  for (let i = 1; i < timeS.length; i++) {
    while (stand < stands.length && stands[stand]!.endIndex < i) stand++;
    const standing = stand < stands.length && stands[stand]!.beginIndex < i;
    const added = standing ? 0 : ((speedMps[i]! + speedMps[i - 1]!) / 2) * (timeS[i]! - timeS[i - 1]!);
    distanceM[i] = distanceM[i - 1]! + added;
  }
  return distanceM;
}
