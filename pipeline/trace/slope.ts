/** Acceleration as the slope of a straight line through the readings around each one. */

/**
 * Least-squares slope over ± `halfWidthS` around every reading, m/s². At low rates the line still takes in one
 * reading either side. Linear in the number of readings for a fixed window.
 */
export function localSlopes(timeS: Float64Array, speedMps: Float64Array, halfWidthS: number): Float64Array {
  const n = timeS.length;
  const slopes = new Float64Array(n);
  let begin = 0;
  let end = 0;
  for (let i = 0; i < n; i++) {
    while (timeS[i]! - timeS[begin]! > halfWidthS + 1e-9) begin++;
    while (end + 1 < n && timeS[end + 1]! - timeS[i]! <= halfWidthS + 1e-9) end++;
    slopes[i] = slopeOver(
      timeS,
      speedMps,
      Math.max(0, Math.min(begin, i - 1)),
      Math.min(n - 1, Math.max(end, i + 1)),
    );
  }
  return slopes;
}

/** Least-squares slope of the readings `begin` … `end` (inclusive); 0 for fewer than two. */
export function slopeOver(timeS: Float64Array, speedMps: Float64Array, begin: number, end: number): number {
  const count = end - begin + 1;
  if (count < 2) return 0;
  const origin = timeS[begin]!;
  let sumT = 0;
  let sumV = 0;
  for (let k = begin; k <= end; k++) {
    sumT += timeS[k]! - origin;
    sumV += speedMps[k]!;
  }
  const meanT = sumT / count;
  const meanV = sumV / count;
  let top = 0;
  let bottom = 0;
  for (let k = begin; k <= end; k++) {
    const dt = timeS[k]! - origin - meanT;
    top += dt * (speedMps[k]! - meanV);
    bottom += dt * dt;
  }
  return bottom > 0 ? top / bottom : 0;
}
