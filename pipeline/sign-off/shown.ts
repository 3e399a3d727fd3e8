/** Corrections as a page shows them: newest first, each with its reason and the numbers before and after. */
import type { Publication, TestResult } from '../result/result.ts';
import { numbersOf } from './numbers.ts';
import { correctionsOf } from './record.ts';

export interface ShownCorrection {
  /** Its place among the test's corrections, from 1 in the order of time; it never changes. */
  readonly number: number;
  /** Year-month-day. */
  readonly date: string;
  readonly what: string;
  readonly reason: string;
  readonly moved: readonly { readonly name: string; readonly was: string; readonly now: string }[];
}

/**
 * Numbers that a reader meets first stand for the rest: where key figures or the article moved, cells of tables and
 * single attempts that moved with them are not listed again.
 */
export function shownCorrections(test: TestResult, publication: Publication): readonly ShownCorrection[] {
  const corrections = test.content.corrections ?? [];
  if (corrections.length === 0) return [];
  const told = correctionsOf(test, [...numbersOf(test, publication)]);
  return corrections
    .map(({ date, what, reason }, index): ShownCorrection => {
      const moved = told[index]?.moved ?? [];
      const first = moved.filter(({ key }) => /^(key-figures|article)\//.test(key));
      const shown = first.length > 0 ? first : moved;
      return {
        number: index + 1,
        date,
        what,
        reason,
        moved: shown.map(({ name, was, now }) => ({ name, was, now })),
      };
    })
    .reverse();
}
