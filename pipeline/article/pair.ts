/** Two tests side by side as a page of its own: who is ahead, or why nobody is, with what was not alike. */
import { measureLabel, measuresOf, rollingTimes, stopsFrom, timesFromRest } from '../result/measures.ts';
import type { House, MeasureId, TestResult } from '../result/result.ts';
import { compareTests, type TestsCompared, testNames } from '../result/tests-compared.ts';
import { testsInWords, testsVerdictInWords, unlikeInWords } from '../result/tests-words.ts';
import { alikeTable } from '../table/alike.ts';
import { pairTable } from '../table/pair.ts';
import type { Table } from '../table/table.ts';

export interface Pair {
  readonly tests: readonly [TestResult, TestResult];
  /** Each tells its test from the other. */
  readonly names: readonly [string, string];
  /** Of the first figure, in a few words; absent where both reached none. */
  readonly verdict?: string;
  /** A sentence for each figure that tests are told by, the first one the answer. */
  readonly answers: readonly { readonly measure: string; readonly text: string }[];
  /** What was not alike or not known for the answer, each a sentence. */
  readonly caveats: readonly string[];
  readonly figures: Table;
  /** Absent with the verdict. */
  readonly conditions?: Table;
}

/** @param names where the two are told apart among more; those that tell them from each other where absent */
export function pairOf(
  tests: readonly [TestResult, TestResult],
  house: House,
  names: readonly [string, string] = namesOf(tests, house),
): Pair {
  const compare = (measure: MeasureId): TestsCompared | undefined =>
    compareTests(tests, house, { measure, startRule: house.headline_start_rule, names });
  const firstOf = (measures: readonly MeasureId[]): TestsCompared | undefined => {
    for (const measure of measures) {
      const compared = compare(measure);
      if (compared !== undefined) return compared;
    }
    return undefined;
  };
  // From rest, on the move, stopping: of each kind the first that both tests reached.
  const asked = [timesFromRest(house), rollingTimes(house), stopsFrom(house)].flatMap(
    measures => firstOf(measures) ?? [],
  );
  const compared = asked.length > 0 ? asked : [firstOf(measuresOf(house)) ?? []].flat();
  const [lead] = compared;
  return {
    tests,
    names,
    answers: compared.map(each => ({
      measure: measureLabel(each.measure, house),
      text: testsInWords(each, house),
    })),
    figures: pairTable(tests, names, house),
    caveats: lead === undefined ? [] : unlikeInWords(lead),
    ...(lead === undefined
      ? {}
      : { verdict: testsVerdictInWords(lead, house), conditions: alikeTable(lead, house) }),
  };
}

function namesOf(tests: readonly [TestResult, TestResult], house: House): readonly [string, string] {
  const [first = '', second = ''] = testNames(tests, house);
  return [first, second];
}

/** Every pair of tests once, in the order of their names in addresses, so that a pair has one page. */
export function pairsOf(tests: readonly TestResult[]): readonly (readonly [TestResult, TestResult])[] {
  const sorted = [...tests].sort((a, b) => (a.id < b.id ? -1 : 1));
  return sorted.flatMap((a, index) => sorted.slice(index + 1).map(b => [a, b] as const));
}

/** Address of the page of two tests, whichever is named first. */
export function pairPath(a: string, b: string): string {
  const [first, second] = a < b ? [a, b] : [b, a];
  return `/compare/${first}/${second}/`;
}
