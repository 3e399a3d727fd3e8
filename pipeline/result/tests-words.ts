/** What tests side by side come to, in words a reader understands. */
import { comparabilityInWords, notAlike, notKnown } from './comparability.ts';
import { comparisonInWords } from './compare.ts';
import { MEASURES } from './measures.ts';
import { TOO_CLOSE } from './methods-words.ts';
import type { TestsCompared } from './tests-compared.ts';
import { type PrintedFor, printDifference, printResult } from './words.ts';

/** The verdict in a few words, for a table or beside a mark: who is ahead, or why nobody is. */
export function testsVerdictInWords({ verdict, first, second, against, measured }: TestsCompared): string {
  switch (verdict) {
    case 'first':
      return `${first.name} is ahead`;
    case 'second':
      return `${second.name} is ahead`;
    case 'too-close':
      return TOO_CLOSE;
    case 'not-alike':
      return comparabilityInWords(notAlike(against)).toLowerCase();
    case 'not-known':
      return `not ranked: ${
        against.length > 0
          ? against.map(({ text }) => text.split(':')[0]!.toLowerCase()).join(', ')
          : Number.isFinite(measured.uncertainty)
            ? 'tried once only'
            : 'no uncertainty can be stated'
      }`;
  }
}

/** How far apart the medians are, with both days' scatter: `2.1 s`, `± 0.4 s`. */
export function testsApart(
  { measure, measured }: TestsCompared,
  language: string,
): ReturnType<typeof printDifference> {
  return printDifference(measured.difference, measured.uncertainty, MEASURES[measure], language);
}

/** One finding in a sentence; it ranks only what the verdict ranks. */
export function testsInWords(compared: TestsCompared, house: PrintedFor): string {
  const { first, second, verdict } = compared;
  const [a, b] = [first.figures.median, second.figures.median];
  if (verdict === 'first' || verdict === 'second' || verdict === 'too-close') {
    return comparisonInWords(a, b, { a: first.name, b: second.name }, house);
  }
  const { text, uncertainty } = testsApart(compared, house.language);
  const apart = uncertainty === undefined ? text : `${text} ${uncertainty}`;
  return `${first.name} (${printResult(a, house).text}) and ${second.name} (${printResult(b, house).text}), ${apart} apart, are not to be ranked; ${testsVerdictInWords(compared).replace(/^not ranked: /, '')}.`;
}

/** Which conditions differed and which are not known, each a sentence; empty where all were alike. */
export const unlikeInWords = ({ conditions }: TestsCompared): readonly string[] =>
  [...notAlike(conditions), ...notKnown(conditions)].map(({ text }) => `${text}.`);
