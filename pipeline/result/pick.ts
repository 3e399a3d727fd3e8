/** From a test's attempts to one published number: which attempts count, best, median, and its uncertainty. */
import { medianInterval } from '../compare/median-interval.ts';
import { repeatsOf } from '../compare/repeats.ts';
import { studentTFactor } from '../compare/student-t.ts';
import type { StartRule } from '../run/run.ts';
import { MEASURES, type MeasuredValue } from './measures.ts';
import type { Attempt, House, Result, ResultFilter, ResultQuery, Statistic, TestResult } from './result.ts';

interface Reached extends MeasuredValue {
  readonly attempt: Attempt;
}

/** Standard error of a median over that of a mean, large samples of a normal spread; for 2 to 5 values it is less. */
const MEDIAN_OVER_MEAN = Math.sqrt(Math.PI / 2);

const passes = (attempt: Attempt, { launch, direction }: ResultFilter): boolean =>
  (launch === undefined || attempt.launchId === launch) &&
  (direction === undefined || attempt.directionId === direction);

/** Attempts of the query's launch and direction that reached the measure, kept or not, in the day's order. */
function reachedIn(test: TestResult, query: ResultQuery): readonly Reached[] {
  const measure = MEASURES[query.measure];
  return test.attempts.flatMap(attempt => {
    if (!passes(attempt, query)) return [];
    const figure = measure.valueOf(attempt.measurement, query.startRule);
    return figure === undefined ? [] : [{ attempt, ...figure }];
  });
}

const isKept = ({ attempt }: Reached): boolean => attempt.setAside === undefined;

/** The query with the house's start rule put in where none is told. */
const withHouseRule = (
  query: ResultQuery,
  house: House,
): ResultQuery & { readonly startRule: StartRule } => ({
  ...query,
  startRule: query.startRule ?? house.headline_start_rule,
});

/** From best to worst; equal values in the day's order. */
function bestFirst(reached: readonly Reached[], query: ResultQuery): readonly Reached[] {
  const sign = MEASURES[query.measure].better === 'lower' ? 1 : -1;
  return [...reached].sort((a, b) => sign * (a.value - b.value) || a.attempt.number - b.attempt.number);
}

/** The middle attempt, or the two middle ones of an even number: the lower value first. */
function middle(reached: readonly Reached[]): readonly Reached[] {
  const sorted = [...reached].sort((a, b) => a.value - b.value || a.attempt.number - b.attempt.number);
  return sorted.slice(Math.ceil(sorted.length / 2) - 1, Math.floor(sorted.length / 2) + 1);
}

/** Kept attempts of the query's launch and direction that reached the measure, in the day's order. */
export function attemptsReaching(test: TestResult, query: ResultQuery): readonly Attempt[] {
  return reachedIn(test, query)
    .filter(isKept)
    .filter(({ attempt }) => query.attempt === undefined || attempt.id === query.attempt)
    .map(({ attempt }) => attempt);
}

/** Launch methods tried in this test, in the house's order, with the number of kept attempts of each. */
export function launchMethodsOf(
  test: TestResult,
  house: House,
): readonly { readonly id: string; readonly name: string; readonly kept: number }[] {
  return house.launch_methods.flatMap(({ id, name }) => {
    const tried = test.attempts.filter(attempt => attempt.launchId === id);
    const kept = tried.filter(attempt => attempt.setAside === undefined).length;
    return tried.length === 0 ? [] : [{ id, name, kept }];
  });
}

/** The kept attempt with the best figure; the earliest of equal ones. */
export function bestAttempt(test: TestResult, house: House, query: ResultQuery): Attempt | undefined {
  const asked = withHouseRule(query, house);
  return bestFirst(reachedIn(test, asked).filter(isKept), asked)[0]?.attempt;
}

/** The kept attempt in the middle; of an even number the one with the lower value of the two middle ones. */
export function medianAttempt(test: TestResult, house: House, query: ResultQuery): Attempt | undefined {
  return middle(reachedIn(test, withHouseRule(query, house)).filter(isKept))[0]?.attempt;
}

/**
 * Expanded uncertainty of a median, about 95 %: scatter between attempts and measurement of one attempt,
 * root sum of squares. Undefined where an attempt's own uncertainty is not known.
 *
 * Scatter: from six attempts on, the farther end of the sign-test interval, which assumes no shape. Below six
 * no such interval exists: Student's t on n - 1 times the standard error of the mean, times 1.25 for a median
 * of three or more, which takes the attempts as normally spread. A single attempt has no scatter to show.
 * Measurement: the largest of the attempts' own. Its random part is in the scatter already; its receiver
 * part is common to all attempts and is not, and the two are not told apart, so that the sum errs upward.
 */
export function medianUncertainty(reached: readonly MeasuredValue[], median: number): number | undefined {
  const own = reached.map(({ uncertainty }) => uncertainty ?? Number.NaN);
  const measurement = Math.max(...own);
  if (Number.isNaN(measurement)) return undefined;
  const values = reached.map(({ value }) => value);
  const { n, sd } = repeatsOf(values);
  if (sd === undefined) return measurement;
  const interval = medianInterval(values);
  const scatter =
    interval === undefined
      ? ((studentTFactor(0.95, n - 1) * sd) / Math.sqrt(n)) * (n > 2 ? MEDIAN_OVER_MEAN : 1)
      : Math.max(interval.high - median, median - interval.low);
  return Math.hypot(scatter, measurement);
}

interface Chosen {
  readonly value: number;
  readonly uncertainty: number | undefined;
  readonly attempts: readonly Attempt[];
}

function choose(
  kept: readonly Reached[],
  median: number,
  query: ResultQuery,
  statistic: Statistic,
): Chosen | undefined {
  if (statistic === 'median') {
    const attempts = middle(kept).map(({ attempt }) => attempt);
    return { value: median, uncertainty: medianUncertainty(kept, median), attempts };
  }
  const one =
    statistic === 'best'
      ? bestFirst(kept, query)[0]
      : (kept.find(({ attempt }) => attempt.id === query.attempt) ??
        (kept.length === 1 ? kept[0] : undefined));
  if (one === undefined || (query.attempt !== undefined && one.attempt.id !== query.attempt))
    return undefined;
  return { value: one.value, uncertainty: one.uncertainty, attempts: [one.attempt] };
}

/**
 * The published number a query asks for. Undefined where no kept attempt reached it.
 *
 * `best` unless told; a query that names an attempt asks for `this`, whatever its statistic. `n`, `nSetAside`
 * and `median` are always those of all attempts of the query's launch and direction. The uncertainty of `best`
 * and `this` is the attempt's own, of its measurement: it says how well that attempt was timed, not
 * how near the car will come to it again. That of `median` holds the scatter too.
 */
export function pickResult(test: TestResult, house: House, query: ResultQuery): Result | undefined {
  const asked = withHouseRule(query, house);
  const reached = reachedIn(test, asked);
  const kept = reached.filter(isKept);
  if (kept.length === 0) return undefined;
  const statistic = query.attempt === undefined ? (query.statistic ?? 'best') : 'this';
  const { median } = repeatsOf(kept.map(({ value }) => value));
  const chosen = choose(kept, median, asked, statistic);
  if (chosen === undefined) return undefined;
  const ofMedian = medianUncertainty(kept, median);
  const { launch, direction, attempt } = query;
  return {
    measure: query.measure,
    statistic,
    ...(MEASURES[query.measure].fromRest ? { startRule: asked.startRule } : {}),
    value: chosen.value,
    ...(chosen.uncertainty === undefined ? {} : { uncertainty: chosen.uncertainty }),
    n: kept.length,
    nSetAside: reached.length - kept.length,
    median,
    ...(ofMedian === undefined ? {} : { medianUncertainty: ofMedian }),
    among: {
      ...(launch === undefined ? {} : { launch }),
      ...(direction === undefined ? {} : { direction }),
      ...(attempt === undefined ? {} : { attempt }),
    },
    attemptIds: chosen.attempts.map(({ id }) => id),
  };
}
