/** What repeated values come to: centre, spread, quartiles. */
import { quantileSorted } from 'simple-statistics';

export interface Repeats {
  readonly n: number;
  readonly smallest: number;
  readonly largest: number;
  readonly median: number;
  readonly mean: number;
  /** Sample standard deviation, n - 1 below; absent for a single value. */
  readonly sd?: number;
  readonly lowerQuartile: number;
  readonly upperQuartile: number;
}

/** A sum whose rounding error does not grow with the count (Neumaier 1974). */
export function sumOf(values: readonly number[]): number {
  let sum = 0;
  let lost = 0;
  for (const value of values) {
    const next = sum + value;
    lost += Math.abs(sum) >= Math.abs(value) ? sum - next + value : value - next + sum;
    sum = next;
  }
  return sum + lost;
}

/** Arithmetic mean. @throws RangeError where there is no value. */
export function meanOf(values: readonly number[]): number {
  if (values.length === 0) throw new RangeError('No values, no mean');
  const rough = sumOf(values) / values.length;
  return rough + sumOf(values.map(value => value - rough)) / values.length;
}

/** Sum of the products of two series' deviations from their means, means first, so that nothing large cancels. */
function sumOfProducts(a: readonly number[], b: readonly number[]): number {
  const meanA = meanOf(a);
  const meanB = meanOf(b);
  return sumOf(a.map((value, i) => (value - meanA) * ((b[i] ?? meanB) - meanB)));
}

/** Sample standard deviation, n - 1 below. @throws RangeError for fewer than two values. */
export function standardDeviation(values: readonly number[]): number {
  if (values.length < 2) throw new RangeError('A standard deviation needs two values');
  return Math.sqrt(sumOfProducts(values, values) / (values.length - 1));
}

/** Correlation of two series of the same length (JCGM 100:2008, C.3.6). @throws RangeError where lengths differ. */
export function correlation(a: readonly number[], b: readonly number[]): number {
  if (a.length !== b.length || a.length < 2) throw new RangeError('A correlation needs pairs of values');
  return sumOfProducts(a, b) / Math.sqrt(sumOfProducts(a, a) * sumOfProducts(b, b));
}

/**
 * Correlation of a series with itself one place on, as NIST StRD certifies it: the sum of products of
 * neighbours' deviations over the sum of squares. Near 0 where attempts do not follow from each other;
 * well above 0 where tyres, brakes or battery drift through the day.
 */
export function lagOneCorrelation(values: readonly number[]): number {
  const mean = meanOf(values);
  const deviations = values.map(value => value - mean);
  const products = deviations.slice(1).map((value, i) => value * (deviations[i] ?? 0));
  return sumOf(products) / sumOf(deviations.map(value => value * value));
}

/** Median: the middle value, or the mean of the two middle ones. @throws RangeError where there is no value. */
export function medianOf(values: readonly number[]): number {
  return repeatsOf(values).median;
}

/**
 * Centre and spread of repeated values. Quartiles lie (n − 1)/4 places from either end of the sorted list, on the
 * straight line between neighbours (definition 7 of Hyndman and Fan 1996, as charts and spreadsheets have it).
 * @throws RangeError where there is no value.
 */
export function repeatsOf(values: readonly number[]): Repeats {
  const sorted = [...values].sort((a, b) => a - b);
  const smallest = sorted[0];
  const largest = sorted.at(-1);
  if (smallest === undefined || largest === undefined) throw new RangeError('No values, no repeats');
  return {
    n: sorted.length,
    smallest,
    largest,
    median: quantileSorted(sorted, 0.5),
    mean: meanOf(sorted),
    ...(sorted.length < 2 ? {} : { sd: standardDeviation(sorted) }),
    lowerQuartile: quantileSorted(sorted, 0.25),
    upperQuartile: quantileSorted(sorted, 0.75),
  };
}
