/** Two tests side by side as a page of its own: who is ahead, or why nobody is, with what was not alike. */
import { measuresOf, rollingTimes, stopsFrom, timesFromRest } from '../result/measures.ts';
import type { House, MeasureId, TestResult } from '../result/result.ts';
import { compareTests, type TestsCompared, testNames } from '../result/tests-compared.ts';
import { comparedInWords, testsInWords, testsVerdictInWords, unlikeInWords } from '../result/tests-words.ts';
import { alikeTable } from '../table/alike.ts';
import { pairTable } from '../table/pair.ts';
import type { Table } from '../table/table.ts';

/** What two tests come to beside each other, in words. */
export interface PairAnswers {
  /** Each tells its test from the other. */
  readonly names: Names;
  /** Of the first figure, in a few words; absent where both reached none. */
  readonly verdict?: string;
  /** A sentence for each figure that tests are told by, the first one the answer, and what its numbers are. */
  readonly answers: readonly { readonly of: string; readonly text: string }[];
  /** What was not alike or not known for the answer, each a sentence. */
  readonly caveats: readonly string[];
}

export interface Pair extends PairAnswers {
  readonly tests: Two;
  readonly figures: Table;
  /** Absent with the verdict. */
  readonly conditions?: Table;
}

type Two = readonly [TestResult, TestResult];
type Names = readonly [string, string];

/** @param names where the two are told apart among more; those that tell them from each other where absent */
export function pairOf(tests: Two, house: House, names: Names = namesOf(tests, house)): Pair {
  const compared = [...comparisonsOf(tests, house, names)];
  const [lead] = compared;
  return {
    tests,
    ...answersOf(compared, house, names),
    figures: pairTable(tests, names, house),
    ...(lead === undefined ? {} : { conditions: alikeTable(lead, house) }),
  };
}

/** `pairOf` of the first figure alone and without tables, which take most of the time: an archive sets a test beside dozens. */
export function pairLead(tests: Two, house: House, names: Names = namesOf(tests, house)): PairAnswers {
  const [lead] = comparisonsOf(tests, house, names);
  return answersOf(lead === undefined ? [] : [lead], house, names);
}

/** From rest, on the move, stopping: of each kind the first that both tests reached, or any other where there is none. */
function* comparisonsOf(tests: Two, house: House, names: Names): Iterable<TestsCompared> {
  const firstOf = (measures: readonly MeasureId[]): TestsCompared | undefined => {
    for (const measure of measures) {
      const compared = compareTests(tests, house, { measure, startRule: house.headline_start_rule, names });
      if (compared !== undefined) return compared;
    }
    return undefined;
  };
  let found = false;
  for (const kind of [timesFromRest, rollingTimes, stopsFrom]) {
    const compared = firstOf(kind(house));
    if (compared === undefined) continue;
    found = true;
    yield compared;
  }
  const other = found ? undefined : firstOf(measuresOf(house));
  if (other !== undefined) yield other;
}

function answersOf(compared: readonly TestsCompared[], house: House, names: Names): PairAnswers {
  const [lead] = compared;
  return {
    names,
    ...(lead === undefined ? {} : { verdict: testsVerdictInWords(lead, house) }),
    answers: compared.map(each => ({ of: comparedInWords(each, house), text: testsInWords(each, house) })),
    caveats: lead === undefined ? [] : unlikeInWords(lead),
  };
}

function namesOf(tests: Two, house: House): Names {
  const [first = '', second = ''] = testNames(tests, house);
  return [first, second];
}

/** Days between two tests that a page sets side by side, at most: a year, and what a season shifts. */
export const MOST_DAYS_APART = 400;
const DAY_MS = 86_400_000;

type Dated = Pick<TestResult, 'id' | 'car' | 'content'>;
const daysApart = (a: Dated, b: Dated): number => Math.abs(dayOf(a) - dayOf(b));

/** Every pair of an archive asks for them: millions of questions after a few thousand days. */
const days = new Map<string, number>();
function dayOf({ content: { date } }: Dated): number {
  const known = days.get(date);
  if (known !== undefined) return known;
  const day = Date.parse(date) / DAY_MS;
  days.set(date, day);
  return day;
}

/**
 * Whether two tests have a page of their own: tests of the same car always, others where they were driven near enough
 * in time. It hangs on these two alone, so that an address stays whatever is published later, and a publication of
 * many years has as many pages a test as one of a few.
 */
export const havePage = (a: Dated, b: Dated): boolean =>
  a.id !== b.id && (a.car.id === b.car.id || daysApart(a, b) <= MOST_DAYS_APART);

/** The tests that have a page with this one in which it is named first. */
export const secondsOf = <Test extends Dated>(first: Dated, tests: readonly Test[]): readonly Test[] =>
  tests.filter(other => first.id < other.id && havePage(first, other));

/** Every pair of tests that has a page, once, in the order of their names in addresses. */
export function pairsOf<Test extends Dated>(tests: readonly Test[]): readonly (readonly [Test, Test])[] {
  const sorted = [...tests].sort((a, b) => (a.id < b.id ? -1 : 1));
  return sorted.flatMap(a => secondsOf(a, sorted).map(b => [a, b] as const));
}

/** At most so many of the tests that have a page beside this one, those of the same car first, then the nearest in time. */
export function nearestTests<Test extends Dated>(
  test: Dated,
  others: readonly Test[],
  most: number,
): readonly Test[] {
  const chosen = new Set(
    others
      .filter(other => havePage(test, other))
      // Of each once, not with every comparison of two: an archive asks it for every test.
      .map(other => ({
        other,
        ofOtherCar: Number(other.car.id !== test.car.id),
        apart: daysApart(test, other),
      }))
      .sort((a, b) => a.ofOtherCar - b.ofOtherCar || a.apart - b.apart)
      .slice(0, most)
      .map(({ other }) => other),
  );
  // In the order they came in: newest first.
  return others.filter(other => chosen.has(other));
}

/** Tests that figures, tables and plates of one set beside it, at most: every one of them adds rows, and work. */
export const MOST_BESIDE = 6;

/** The other tests that figures, tables and plates of one set beside it, in the order of the publication. */
export const testsBeside = (test: TestResult, tests: readonly TestResult[]): readonly TestResult[] =>
  nearestTests(
    test,
    tests.filter(({ id }) => id !== test.id),
    MOST_BESIDE,
  );

/** `testsBeside` for every test of an archive: of others than its own car's, only those near in time are looked at. */
export function testsBesideEach(tests: readonly TestResult[]): (test: TestResult) => readonly TestResult[] {
  const ofCar = Map.groupBy(tests, ({ car }) => car.id);
  const byDay = [...tests].sort((a, b) => dayOf(a) - dayOf(b));
  const placeByDay = new Map(byDay.map((test, index) => [test, index]));
  const order = new Map(tests.map((test, index) => [test, index]));
  return test => {
    const near = new Set(ofCar.get(test.car.id));
    for (const step of [-1, 1]) {
      let found = 0;
      let farthest = 0;
      for (let at = placeByDay.get(test)! + step; at >= 0 && at < byDay.length; at += step) {
        const other = byDay[at]!;
        const apart = daysApart(test, other);
        // All of one day, of which the order among the tests decides.
        if (found >= MOST_BESIDE && apart > farthest) break;
        near.add(other);
        if (other.car.id !== test.car.id) found += 1;
        farthest = apart;
      }
    }
    return testsBeside(
      test,
      [...near].sort((a, b) => order.get(a)! - order.get(b)!),
    );
  };
}

/** Address of the page of two tests, whichever is named first. */
export function pairPath(a: string, b: string): string {
  const [first, second] = a < b ? [a, b] : [b, a];
  return `/compare/${first}/${second}/`;
}
