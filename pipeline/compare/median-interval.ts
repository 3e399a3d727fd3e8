/** The interval of a median that needs no assumption about how the values are spread: the sign test's. */

/** Values of a binomial(n, 1/2) up to and including k, as a probability. Exact in double precision to n of about 1000. */
function binomialHalfUpTo(k: number, n: number): number {
  let term = 0.5 ** n;
  let sum = 0;
  for (let i = 0; i <= k; i++) {
    sum += term;
    term = (term * (n - i)) / (i + 1);
  }
  return sum;
}

/** Probability that the interval from the k-th smallest to the k-th largest of n values holds the median. */
export function medianIntervalCoverage(n: number, k: number): number {
  return 1 - 2 * binomialHalfUpTo(k - 1, n);
}

export interface MedianInterval {
  readonly low: number;
  readonly high: number;
  /** Which smallest and largest value the ends are, from 1. */
  readonly k: number;
  /** Actual coverage, at least the one asked for. */
  readonly coverage: number;
}

/**
 * The narrowest sign-test interval of the median that covers at least `coverage`, 0.95 unless told.
 * Undefined where even the whole range covers less: at 0.95, for fewer than six values.
 */
export function medianInterval(values: readonly number[], coverage = 0.95): MedianInterval | undefined {
  const sorted = [...values].sort((a, b) => a - b);
  const n = sorted.length;
  let k = 0;
  while (k + 1 <= n / 2 && medianIntervalCoverage(n, k + 1) >= coverage) k++;
  const low = sorted[k - 1];
  const high = sorted[n - k];
  return k === 0 || low === undefined || high === undefined
    ? undefined
    : { low, high, k, coverage: medianIntervalCoverage(n, k) };
}
