/** A best set beside others fairly: what the best of the same few attempts is to be expected to be. */
import { repeatsOf } from '../compare/repeats.ts';
import { MEASURES, type Measure } from './measures.ts';
import { attemptsReaching, pickResult } from './pick.ts';
import type { House, Result, ResultFilter, ResultQuery, TestResult } from './result.ts';
import { type PrintedFor, printResult } from './words.ts';

/** Attempts that a best is made comparable at. */
export const FAIR_ATTEMPTS = 3;
/** Below this many attempts an expected best hangs on one or two of them, and that is said. */
export const FEW_ATTEMPTS = 6;

/**
 * Mean best of all the ways to take `of` of these values: Σ x₍ᵢ₎ C(n − i, of − 1) / C(n, of) over the values from
 * best to worst. Of all estimates of the expected best of `of` further attempts that are right on average,
 * whatever the attempts' spread, it varies least (Hoeffding, Ann. Math. Stat. 19, 1948). Equals the best
 * where `of` is their number and the mean where it is one. In the values' unit.
 * @throws RangeError unless `of` is a whole number from 1 to the number of values.
 */
export function expectedBestOf(values: readonly number[], of: number, better: Measure['better']): number {
  const n = values.length;
  if (!Number.isInteger(of) || of < 1 || of > n) throw new RangeError(`No best of ${of} among ${n} values`);
  const sign = better === 'lower' ? 1 : -1;
  const sorted = [...values].sort((a, b) => sign * (a - b));
  const best = sorted[0]!;
  // Chance that the i-th best is the best of those taken; each from the one before.
  let chance = of / n;
  let beyond = 0;
  for (let i = 1; i <= n - of + 1; i++) {
    beyond += chance * (sorted[i - 1]! - best);
    chance *= (n - i - of + 1) / (n - i);
  }
  return best + beyond;
}

/** What the kept attempts of a query came to, with the best as it would be of fewer. SI. */
export interface FairBest {
  readonly best: Result;
  readonly median: Result;
  /** Smallest and largest. */
  readonly from: number;
  readonly to: number;
  /** Sample standard deviation; absent for a single attempt. */
  readonly sd?: number;
  readonly n: number;
  readonly nSetAside: number;
  /** Expected best of `FAIR_ATTEMPTS`; absent where there are fewer. */
  readonly ofThree?: number;
  /** So few attempts that the expected best is a rough guide only. */
  readonly few: boolean;
}

/** Values of the kept attempts of a query, in the day's order, SI. */
export function valuesOf(test: TestResult, query: ResultQuery): readonly number[] {
  return attemptsReaching(test, query).map(
    ({ measurement }) => MEASURES[query.measure].valueOf(measurement, query.startRule)!.value,
  );
}

/** Best, median, spread and count of a query's kept attempts; undefined where none reached the measure. */
export function fairBestOf(
  test: TestResult,
  house: House,
  { measure, startRule = house.headline_start_rule, launch, direction }: ResultQuery,
): FairBest | undefined {
  const among: ResultFilter = {
    ...(launch === undefined ? {} : { launch }),
    ...(direction === undefined ? {} : { direction }),
  };
  const query = { measure, startRule, ...among };
  const best = pickResult(test, house, query);
  const median = pickResult(test, house, { ...query, statistic: 'median' });
  if (best === undefined || median === undefined) return undefined;
  const values = valuesOf(test, query);
  const { n, smallest, largest, sd } = repeatsOf(values);
  return {
    best,
    median,
    from: smallest,
    to: largest,
    ...(sd === undefined ? {} : { sd }),
    n,
    nSetAside: best.nSetAside,
    ...(n < FAIR_ATTEMPTS
      ? {}
      : { ofThree: expectedBestOf(values, FAIR_ATTEMPTS, MEASURES[measure].better) }),
    few: n < FEW_ATTEMPTS,
  };
}
/**
 * A best as it may be set beside a best of fewer, such as `Of any 3 of these 12 attempts the best would be 6.02 s on
 * average.`; undefined where there are not more than three.
 */
export function fairBestInWords({ best, ofThree, n, few }: FairBest, house: PrintedFor): string | undefined {
  if (ofThree === undefined || n === FAIR_ATTEMPTS) return undefined;
  const { text } = printResult({ ...best, value: ofThree }, house);
  const rough = few ? `; of so few attempts that is a rough guide` : '';
  return `Of any ${FAIR_ATTEMPTS} of these ${n} attempts the best would be ${text} on average${rough}.`;
}
