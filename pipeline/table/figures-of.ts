/** Best and median of one measure, as table cells. */

import type { Spoken } from '../language.ts';
import { pickResult } from '../result/pick.ts';
import type { House, MeasureId, Result, TestResult } from '../result/result.ts';
import { printedWords } from '../result/words/printed.ts';
import { printMedian, printResult } from '../result/words.ts';
import { workingsOfResult } from '../result/workings-address.ts';
import type { StartRule } from '../run/run.ts';
import type { TableCell } from './table.ts';
import { tableWords } from './words/shared.ts';

/** Stands where an attempt or a rule has no figure. */
export const NONE = '–';

export interface BestAndMedian {
  /** Value, uncertainty, median: digits with their unit. */
  readonly cells: readonly [TableCell, TableCell, TableCell];
  readonly n: number;
  readonly nSetAside: number;
}

/**
 * Undefined where no kept attempt reached the measure. The median is printed to the places of the best,
 * so that the two can be read against each other; of a single attempt there is none.
 */
export function bestAndMedian(
  test: TestResult,
  house: House,
  measure: MeasureId,
  startRule?: StartRule,
): BestAndMedian | undefined {
  const best = pickResult(test, house, { measure, ...(startRule === undefined ? {} : { startRule }) });
  if (best === undefined) return undefined;
  const { text, uncertainty } = printResult(best, house);
  return {
    cells: [
      { text, workings: workingsPaths(test, best) },
      { text: uncertainty ?? printedWords(house).notStated },
      medianCell(test, house, best),
    ],
    n: best.n,
    nSetAside: best.nSetAside,
  };
}

function medianCell(test: TestResult, house: House, best: Result): TableCell {
  const { measure, startRule } = best;
  const median = pickResult(test, house, {
    measure,
    statistic: 'median',
    ...(startRule === undefined ? {} : { startRule }),
  });
  if (best.n < 2 || median === undefined) return { text: NONE };
  return {
    text: printMedian(best, house),
    workings: workingsPaths(test, median),
  };
}

/** Where the workings of a test's result stand, from the site's root. */
export const workingsPaths = (test: Pick<TestResult, 'id'>, result: Result): readonly string[] =>
  workingsOfResult(test.id, result).map(({ address }) => address);

/** `6`, or `6 of 8` where two more were set aside. */
export const keptOf = (n: number, nSetAside: number, spoken: Spoken): string =>
  nSetAside === 0 ? String(n) : tableWords(spoken).keptOf(n, n + nSetAside);
