/** How far the time stamps of a log stray from the instants they stand for. */

/** Fewer intervals than this say nothing about scatter. */
const INTERVALS_NEEDED = 50;
/** Intervals longer than this many usual ones are holes, not scatter. */
const ORDINARY_INTERVALS = 1.9;
/** Less scatter than this is the rounding of time to milliseconds, s. */
const ROUNDING_S = 0.0005;

/**
 * Standard deviation of one time stamp, s; undefined where there is none to speak of.
 *
 * A stamp written late makes one interval longer and the next one shorter: neighbouring intervals then vary against
 * each other, by minus the variance of a stamp. Readings that are really taken unevenly do not show that.
 */
export function stampScatterS(timeS: Float64Array, intervalS: number): number | undefined {
  let products = 0;
  let count = 0;
  const longest = ORDINARY_INTERVALS * intervalS;
  for (let i = 2; i < timeS.length; i++) {
    const before = timeS[i - 1]! - timeS[i - 2]!;
    const after = timeS[i]! - timeS[i - 1]!;
    if (before > longest || after > longest) continue;
    products += (before - intervalS) * (after - intervalS);
    count++;
  }
  if (count < INTERVALS_NEEDED) return undefined;
  const scatterS = Math.sqrt(Math.max(0, -products / count));
  return scatterS > ROUNDING_S ? scatterS : undefined;
}
