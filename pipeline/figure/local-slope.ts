/** Speed and acceleration at each reading from a straight line fitted to the readings around it. */

/** Readings a window must hold before a line through them says more than their noise. */
export const FEWEST_READINGS = 5;

/** Value and slope of the fitted lines, one a point; NaN where there is none. */
export interface LocalFit {
  readonly value: Float64Array;
  readonly slope: Float64Array;
}

/**
 * A least-squares line through the points in a window of `width` centred on each point: its height there,
 * in units of y, and its slope, in units of y per x. NaN where fewer than `FEWEST_READINGS` lie in the window,
 * or where the window reaches past either end: one-sided windows would bend the ends. On even samples the
 * slope is exact for a parabola.
 */
export function localFit(x: ArrayLike<number>, y: ArrayLike<number>, width: number): LocalFit {
  const value = new Float64Array(x.length).fill(Number.NaN);
  const slope = new Float64Array(x.length).fill(Number.NaN);
  const half = width / 2;
  // A sample on the window's edge counts, whatever the last bit of its time says.
  const edge = half * (1 + 1e-9);
  let from = 0;
  let to = 0;
  for (let index = 0; index < x.length; index += 1) {
    const centre = x[index]!;
    while (x[from]! < centre - edge) from += 1;
    while (to < x.length && x[to]! <= centre + edge) to += 1;
    const pastEnd = centre - edge < x[0]! - half * 1e-8 || centre + edge > x[x.length - 1]! + half * 1e-8;
    if (to - from < FEWEST_READINGS || pastEnd) continue;
    let meanX = 0;
    let meanY = 0;
    for (let k = from; k < to; k += 1) {
      meanX += x[k]! / (to - from);
      meanY += y[k]! / (to - from);
    }
    let sxy = 0;
    let sxx = 0;
    for (let k = from; k < to; k += 1) {
      sxy += (x[k]! - meanX) * (y[k]! - meanY);
      sxx += (x[k]! - meanX) ** 2;
    }
    slope[index] = sxy / sxx;
    value[index] = meanY + (sxy / sxx) * (centre - meanX);
  }
  return { value, slope };
}

/** Shortest window, s: shorter ones show the receiver's noise and the tyres, not the car. */
const SHORTEST_WINDOW_S = 0.5;

/** The window for a log of this rate, s: half a second, or as long as five readings take. */
export const slopeWindowS = (rateHz: number): number =>
  Math.max(SHORTEST_WINDOW_S, (FEWEST_READINGS - 1) / rateHz);
