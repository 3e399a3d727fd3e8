/** A straight line through points of equal weight, with the uncertainty of what is read off it. */
import { correlation, meanOf, standardDeviation } from './repeats.ts';

export interface LineFit {
  readonly intercept: number;
  readonly slope: number;
  /** Standard uncertainties and their correlation (JCGM 100:2008, H.3.2). */
  readonly interceptUncertainty: number;
  readonly slopeUncertainty: number;
  readonly correlation: number;
  /** Standard deviation of points about the line, n − 2 below. */
  readonly residualSd: number;
  /** Value on the line and its standard uncertainty. */
  at(x: number): { readonly value: number; readonly uncertainty: number };
}

/** Least squares line y = intercept + slope · x. @throws RangeError for fewer than three points or no spread in x. */
export function fitLine(x: readonly number[], y: readonly number[]): LineFit {
  const n = x.length;
  if (n < 3 || y.length !== n) throw new RangeError('A line with an uncertainty needs three points');
  const meanX = meanOf(x);
  const meanY = meanOf(y);
  const sdX = standardDeviation(x);
  if (!(sdX > 0)) throw new RangeError('A line needs points at different places');
  const sdY = standardDeviation(y);
  const r = sdY === 0 ? 0 : correlation(x, y);
  const slope = (r * sdY) / sdX;
  const residuals = y.map((value, i) => value - meanY - slope * ((x[i] ?? 0) - meanX));
  const residualSd = Math.sqrt(residuals.reduce((sum, e) => sum + e * e, 0) / (n - 2));
  const sxx = (n - 1) * sdX * sdX;
  const uncertaintyAt = (place: number): number => residualSd * Math.sqrt(1 / n + (place - meanX) ** 2 / sxx);
  return {
    intercept: meanY - slope * meanX,
    slope,
    interceptUncertainty: uncertaintyAt(0),
    slopeUncertainty: residualSd / Math.sqrt(sxx),
    correlation: -meanX / Math.sqrt(sxx / n + meanX * meanX),
    residualSd,
    at: place => ({ value: meanY + slope * (place - meanX), uncertainty: uncertaintyAt(place) }),
  };
}
