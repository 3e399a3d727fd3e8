/** Two results side by side: how far apart, how sure of it, and in words that never rank what is too close. */
import type { Spoken } from '../language.ts';
import { ProblemError } from '../problem.ts';
import { resultsNotComparable } from '../problems/result.ts';
import { MEASURES, measureLabel } from './measures.ts';
import type { MeasureId, Result } from './result.ts';
import { type Ahead, compareWords } from './words/compare.ts';
import { type PrintedFor, printDifference, printResult, startRuleInWords } from './words.ts';

export interface Comparison {
  /** First minus second, SI. */
  readonly difference: number;
  /** Expanded uncertainty of the difference; infinite where either result has none. */
  readonly uncertainty: number;
  /** The difference does not exceed its uncertainty: the two are never ranked apart. */
  readonly tooCloseToCall: boolean;
}

/** For the person who asked: in English, as every problem. */
const named = ({ measure, startRule }: Result): string =>
  startRule === undefined
    ? measureLabel(measure, 'en')
    : `${measureLabel(measure, 'en')}, ${startRuleInWords(startRule, 'en')}`;

/**
 * The difference of two results of one measure, with the root sum of squares of their expanded uncertainties
 * (JCGM 100:2008, 5.1.2, both of coverage factor 2). Where one receiver measured both, its calibration error
 * is common to both and partly cancels; that correlation (5.2.2) is left out, because the receiver's share is
 * not known apart, so the uncertainty errs upward and more is too close to call, never less.
 * @throws ProblemError where measures or start rules differ.
 */
export function compareResults(a: Result, b: Result): Comparison {
  if (a.measure !== b.measure || a.startRule !== b.startRule) {
    throw new ProblemError(resultsNotComparable(named(a), named(b)));
  }
  const difference = a.value - b.value;
  const uncertainty = Math.hypot(
    a.uncertainty ?? Number.POSITIVE_INFINITY,
    b.uncertainty ?? Number.POSITIVE_INFINITY,
  );
  return { difference, uncertainty, tooCloseToCall: !(Math.abs(difference) > uncertainty) };
}

const WAYS = { s: 'time', m: 'distance', 'm/s': 'speed' } as const;

/** What is said of the one with the better value, by this much: `North is quicker by 0.47 s`. */
export function aheadInWords(
  name: string,
  measure: MeasureId,
  amount: string,
  spoken: Spoken,
  other?: string,
): string {
  const { unit } = MEASURES[measure];
  const way: Ahead =
    unit !== 'm/s²' ? WAYS[unit] : measure === 'peak-acceleration' ? 'acceleration' : 'deceleration';
  return compareWords(spoken).ahead(name, way, amount, other);
}

/** A best of many is helped by chance more than a best of few; said wherever the counts differ. */
function countsInWords(a: Result, b: Result, spoken: Spoken): string {
  if (a.n === b.n || a.statistic !== 'best' || b.statistic !== 'best') return '';
  return ` ${compareWords(spoken).unequalCounts(a.n, b.n)}`;
}

/**
 * One finding for readers, such as `North is quicker by 0.47 s ± 0.03 s: 5.93 s against 6.40 s.`, or that the
 * two are too close to call. Names are of cars, launch methods or days.
 * @throws ProblemError as `compareResults`.
 */
export function comparisonInWords(
  a: Result,
  b: Result,
  names: { readonly a: string; readonly b: string },
  house: PrintedFor,
): string {
  const { difference, uncertainty, tooCloseToCall } = compareResults(a, b);
  const measure = MEASURES[a.measure];
  const apart = printDifference(difference, uncertainty, measure, house);
  const figures = [printResult(a, house).text, printResult(b, house).text] as const;
  const words = compareWords(house);
  const counts = countsInWords(a, b, house);
  if (apart.uncertainty === undefined) {
    return words.notRanked(names.a, figures[0], names.b, figures[1]) + counts;
  }
  if (tooCloseToCall) {
    return words.tooClose(names.a, figures[0], names.b, figures[1], apart.text, apart.uncertainty) + counts;
  }
  const aAhead = measure.better === 'lower' ? difference < 0 : difference > 0;
  const [ahead, figure, other] = aAhead ? [names.a, ...figures] : [names.b, figures[1], figures[0]];
  const by = aheadInWords(ahead, a.measure, `${apart.text} ${apart.uncertainty}`, house);
  return `${by}: ${words.figures(figure, other)}.${counts}`;
}
