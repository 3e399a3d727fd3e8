/** Speed from position and time, for logs that have no speed of their own. */
import geodesic from 'geographiclib-geodesic';

export interface TimedPosition {
  readonly timeS: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  /** Positions of different segments are never joined. */
  readonly segment: number;
}

/**
 * Speed at each position, m/s: path from the one before to the one after, over the time between (one-sided
 * at the ends of a segment). Exact for constant acceleration at equal steps; a single step would give the
 * speed half a step earlier. Geodesics on WGS 84 (C. F. F. Karney, Algorithms for geodesics, 2013).
 * NaN where a position stands alone or times do not increase.
 */
export function speedFromPosition(positions: readonly TimedPosition[]): Float64Array {
  const stepM = new Float64Array(positions.length).fill(Number.NaN);
  for (let i = 1; i < positions.length; i++) {
    const from = positions[i - 1]!;
    const to = positions[i]!;
    if (from.segment === to.segment && to.timeS > from.timeS) stepM[i] = distanceM(from, to);
  }
  return Float64Array.from(positions, (position, i) => {
    const before = stepM[i]!;
    const after = i + 1 < positions.length ? stepM[i + 1]! : Number.NaN;
    const fromS = Number.isNaN(before) ? position.timeS : positions[i - 1]!.timeS;
    const toS = Number.isNaN(after) ? position.timeS : positions[i + 1]!.timeS;
    return toS > fromS ? ((before || 0) + (after || 0)) / (toS - fromS) : Number.NaN;
  });
}

function distanceM(from: TimedPosition, to: TimedPosition): number {
  const line = geodesic.Geodesic.WGS84.Inverse(
    from.latitudeDeg,
    from.longitudeDeg,
    to.latitudeDeg,
    to.longitudeDeg,
    geodesic.Geodesic.DISTANCE,
  );
  return line.s12 ?? Number.NaN;
}
