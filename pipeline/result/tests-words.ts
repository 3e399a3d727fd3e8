/** What tests side by side come to, in words a reader understands. */

import { nameWithin, type Spoken } from '../language.ts';
import type { ForReaders } from '../speed-unit.ts';
import { comparabilityPhrase, notAlike, notKnown } from './comparability.ts';
import { comparisonInWords } from './compare.ts';
import { MEASURES, measureLabel } from './measures.ts';
import type { House } from './result.ts';
import type { TestsCompared } from './tests-compared.ts';
import { compareWords } from './words/compare.ts';
import { conditionsWords } from './words/conditions.ts';
import { printedWords } from './words/printed.ts';
import { type PrintedFor, printDifference, printResult, startRuleInWords } from './words.ts';

/** The verdict in a few words, for a table or beside a mark: who is ahead, or why nobody is. */
export function testsVerdictInWords(compared: TestsCompared, spoken: Spoken): string {
  const { verdict, first, second } = compared;
  const words = compareWords(spoken);
  switch (verdict) {
    case 'first':
      return words.isAhead(first.name);
    case 'second':
      return words.isAhead(second.name);
    case 'too-close':
      return words.tooCloseToCall;
    case 'not-alike':
      return whyNotRanked(compared, spoken);
    case 'not-known':
      return conditionsWords(spoken).notRanked(whyNotRanked(compared, spoken));
  }
}

/** What stands against ranking two tests, within a sentence. */
function whyNotRanked({ verdict, against, measured }: TestsCompared, spoken: Spoken): string {
  if (verdict === 'too-close') return compareWords(spoken).tooCloseToCall;
  if (verdict === 'not-alike') return comparabilityPhrase(notAlike(against), spoken);
  if (against.length > 0) return against.map(({ brief }) => brief).join(', ');
  return Number.isFinite(measured.uncertainty)
    ? compareWords(spoken).triedOnce
    : printedWords(spoken).noUncertainty;
}

/** The figure two tests are set side by side by: `0–100 km/h, straight from rest`. */
export const figureInWords = ({ measure, launch }: TestsCompared, house: House): string =>
  [measureLabel(measure, house), ...(launch === undefined ? [] : [nameWithin(launch.name, house)])].join(
    ', ',
  );

/** What is set side by side: `0–100 km/h, straight from rest; clock from first movement; medians of 6 and 4`. */
export function comparedInWords(compared: TestsCompared, house: House): string {
  const { startRule, first, second } = compared;
  return [
    figureInWords(compared, house),
    ...(startRule === undefined ? [] : [startRuleInWords(startRule, house)]),
    compareWords(house).mediansOf(first.figures.n, second.figures.n),
  ].join('; ');
}

/** How far apart the medians are, with both days' scatter: `2.1 s`, `± 0.4 s`. */
export function testsApart(
  { measure, measured }: TestsCompared,
  readers: ForReaders,
): ReturnType<typeof printDifference> {
  return printDifference(measured.difference, measured.uncertainty, MEASURES[measure], readers);
}

/** One finding in a sentence; it ranks only what the verdict ranks. */
export function testsInWords(compared: TestsCompared, house: PrintedFor): string {
  const { first, second, verdict } = compared;
  const [a, b] = [first.figures.median, second.figures.median];
  if (verdict === 'first' || verdict === 'second' || verdict === 'too-close') {
    return comparisonInWords(a, b, { a: first.name, b: second.name }, house);
  }
  const { text, uncertainty } = testsApart(compared, house);
  const apart = uncertainty === undefined ? text : `${text} ${uncertainty}`;
  const figures = [printResult(a, house).text, printResult(b, house).text] as const;
  return compareWords(house).testsNotRanked(
    first.name,
    figures[0],
    second.name,
    figures[1],
    apart,
    whyNotRanked(compared, house),
  );
}

/** Which conditions differed and which are not known, each a sentence; empty where all were alike. */
export const unlikeInWords = ({ conditions }: TestsCompared): readonly string[] =>
  [...notAlike(conditions), ...notKnown(conditions)].map(({ text }) => `${text}.`);
