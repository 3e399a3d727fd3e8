/** Acceleration at each reading: the slope of a straight line fitted to the readings around it. */

/** Readings a window must hold before a line through them says more than their noise. */
export const FEWEST_READINGS = 5;

/**
 * Least-squares slope of y over x in a window of `width` centred on each point, in units of y per x.
 * NaN where fewer than `FEWEST_READINGS` lie in the window, or where the window reaches past either end:
 * one-sided windows would bend the ends. For a parabola the slope is exact on even samples.
 */
export function localSlope(x: ArrayLike<number>, y: ArrayLike<number>, width: number): Float64Array {
  const slope = new Float64Array(x.length).fill(Number.NaN);
  const half = width / 2;
  let from = 0;
  let to = 0;
  for (let index = 0; index < x.length; index += 1) {
    const centre = x[index]!;
    // A sample on the window's edge counts, whatever the last bit of its time says.
    const edge = half * (1 + 1e-9);
    while (x[from]! < centre - edge) from += 1;
    while (to < x.length && x[to]! <= centre + edge) to += 1;
    if (
      to - from < FEWEST_READINGS ||
      centre - half < x[0]! - 1e-9 ||
      centre + half > x[x.length - 1]! + 1e-9
    ) {
      continue;
    }
    let meanX = 0;
    let meanY = 0;
    for (let k = from; k < to; k += 1) {
      meanX += x[k]!;
      meanY += y[k]!;
    }
    meanX /= to - from;
    meanY /= to - from;
    let sxy = 0;
    let sxx = 0;
    for (let k = from; k < to; k += 1) {
      sxy += (x[k]! - meanX) * (y[k]! - meanY);
      sxx += (x[k]! - meanX) ** 2;
    }
    slope[index] = sxy / sxx;
  }
  return slope;
}

/** Shortest window, s: shorter ones show the receiver's noise and the tyres, not the car. */
const SHORTEST_WINDOW_S = 0.5;

/** The window for a log of this rate, s: half a second, or as long as five readings take. */
export const slopeWindowS = (rateHz: number): number =>
  Math.max(SHORTEST_WINDOW_S, (FEWEST_READINGS - 1) / rateHz);
