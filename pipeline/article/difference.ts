/** `:difference{of=… launch="a b"}`, or directions="x y", or tests="id id": of medians, unless told `take=best`. */

import { catalogue } from '../language.ts';
import { nothingMeasured, notTwo } from '../problems/article.ts';
import { compareResults, comparisonInWords } from '../result/compare.ts';
import { fairBestInWords, fairBestOf } from '../result/fair-best.ts';
import { MEASURES, measureIds, measureLabel } from '../result/measures.ts';
import { compareDirections, compareLaunchMethods, type MethodPair } from '../result/methods-compared.ts';
import { orderInWords, pairInWords, printPair } from '../result/methods-words.ts';
import { pickResult } from '../result/pick.ts';
import type { House, MeasureId, Result, ResultQuery, TestResult } from '../result/result.ts';
import { compareTests, testNames } from '../result/tests-compared.ts';
import { testsInWords, unlikeInWords } from '../result/tests-words.ts';
import { compareWords } from '../result/words/compare.ts';
import { printDifference } from '../result/words.ts';
import type { StartRule } from '../run/run.ts';
import { AskedWords, directionsOf } from './asked-words.ts';
import { amongInWords, filterOf, toldOf, workingsLinks } from './number.ts';
import type { Answer, Asked } from './published-number.ts';
import type { RuleId } from './rules.ts';

interface Side {
  readonly name: string;
  readonly test: TestResult;
  readonly launch?: string | undefined;
  readonly direction?: string | undefined;
}

const WORDS = catalogue({
  en: {
    heading: (label: string, of: 'best' | 'median') =>
      `${label}, difference of ${of === 'best' ? 'bests' : 'medians'}`,
    /** Within a sentence that reads with an amount as well. */
    tooFew: (a: number, b: number) => `not to be told from ${a} attempts against ${b}`,
    notKnown: 'not to be told',
  },
  de: {
    heading: (label, of) => `${label}, Unterschied der ${of === 'best' ? 'Bestwerte' : 'Mediane'}`,
    tooFew: (a, b) => `bei ${a} gegen ${b} Versuchen offen`,
    notKnown: 'nicht zu bestimmen',
  },
});

export function findDifference(asked: Asked): Answer {
  const words = new AskedWords(asked);
  words.allow(['of', 'take', 'launch', 'direction', 'directions', 'tests', 'test', 'start']);
  const measure = words.must('of', 'measure', measureIds, ':difference{of=0-100-kmh launch="a b"}');
  const statistic = words.one('take', 'statistic', ['best', 'median'] as const) ?? 'median';
  const startRule = words.startRule();
  const sides = sidesOf(words);
  if (measure === undefined || sides === undefined || words.problems.length > 0) {
    return { problems: words.problems };
  }
  const { house, where } = asked;
  const picked = sides.map(side => {
    const query: ResultQuery = { measure, startRule, statistic, ...filterOf(side.launch, side.direction) };
    return { side, query, result: pickResult(side.test, house, query) };
  });
  const missing = picked.filter(({ result }) => result === undefined);
  const [a, b] = picked;
  if (missing.length > 0 || a?.result === undefined || b?.result === undefined) {
    return {
      problems: missing.map(({ side, query }) =>
        nothingMeasured(where, measureLabel(measure, house), amongInWords(query, side.test, house), []),
      ),
    };
  }
  const { text, told, rule } = tellApart(a.result, b.result, [a.side, b.side], startRule, house);
  return {
    text,
    heading: WORDS(house).heading(measureLabel(measure, house), statistic),
    // The air is often the same for both; a sentence is told once.
    told: [
      ...new Set([
        ...told,
        ...namedToldOf(a.side.name, toldOf(a.result, a.query, a.side.test, asked)),
        ...namedToldOf(b.side.name, toldOf(b.result, b.query, b.side.test, asked)),
      ]),
    ],
    results: [a.result, b.result],
    workings: [
      ...workingsLinks(a.side.test, a.result, asked),
      ...workingsLinks(b.side.test, b.result, asked),
    ],
    rule,
  };
}

interface Told {
  readonly text: string;
  readonly told: readonly string[];
  readonly rule: RuleId;
}

/** By the verdict that tables and figures give of the same two; bests by their own uncertainties. */
function tellApart(
  a: Result,
  b: Result,
  sides: readonly [Side, Side],
  startRule: StartRule,
  house: House,
): Told {
  const { measure, statistic } = a;
  const [one, other] = sides;
  const pair = statistic === 'median' ? pairOf(measure, startRule, sides, house) : undefined;
  if (pair !== undefined) {
    return {
      text: inSentence(pair, measure, house),
      told: [pairInWords(pair, measure, house), ...orderInWords(pair, house)],
      rule: 'launch-comparison',
    };
  }
  const { difference, uncertainty, tooCloseToCall } = compareResults(a, b);
  const text = tooCloseToCall
    ? compareWords(house).tooCloseToCall
    : printDifference(difference, uncertainty, MEASURES[measure], house).text;
  const tests =
    statistic === 'median' && one.test !== other.test && one.direction === undefined
      ? compareTests([one.test, other.test], house, { measure, startRule, launch: one.launch ?? null })
      : undefined;
  if (tests !== undefined) {
    return { text, told: [testsInWords(tests, house), ...unlikeInWords(tests)], rule: 'alike' };
  }
  const fewer = a.n === b.n ? [] : sides.flatMap(side => bestOfFewer(a, side, startRule, house));
  const finding = comparisonInWords(a, b, { a: one.name, b: other.name }, house);
  return { text, told: [finding, ...fewer], rule: 'too-close' };
}

/** What a best would have been of as few attempts as bests are made comparable at. */
function bestOfFewer(
  { measure, statistic }: Result,
  { name, test, launch, direction }: Side,
  startRule: StartRule,
  house: House,
): readonly string[] {
  if (statistic !== 'best') return [];
  const fair = fairBestOf(test, house, { measure, startRule, ...filterOf(launch, direction) });
  const words = fair && fairBestInWords(fair, house);
  return words === undefined ? [] : [`${name}: ${words}`];
}

/** Two launch methods or directions of one day, by the verdict that tables and figures give; undefined for tests. */
function pairOf(
  measure: MeasureId,
  startRule: StartRule,
  [a, b]: readonly [Side, Side],
  house: House,
): MethodPair | undefined {
  if (a.test !== b.test) return undefined;
  const byLaunch = a.launch !== b.launch;
  const compare = byLaunch ? compareLaunchMethods : compareDirections;
  const among = byLaunch ? filterOf(undefined, a.direction) : filterOf(a.launch, undefined);
  const ids = [a, b].map(side => (byLaunch ? side.launch : side.direction));
  return compare(a.test, house, { measure, startRule, among }).pairs.find(
    ({ ahead, behind }) => ids.includes(ahead.id) && ids.includes(behind.id),
  );
}

/** What stands in the sentence: the difference, or why there is none to be told. */
function inSentence(pair: MethodPair, measure: MeasureId, house: House): string {
  switch (pair.verdict) {
    case 'apart':
      return printPair(pair, measure, house.language).difference;
    case 'too-close':
      return compareWords(house).tooCloseToCall;
    case 'too-few':
      return WORDS(house).tooFew(pair.ahead.attempts.length, pair.behind.attempts.length);
    case 'not-known':
      return WORDS(house).notKnown;
  }
}

/** Says first whose figures follow. */
const namedToldOf = (name: string, [first, ...rest]: readonly string[]): string[] =>
  first === undefined ? [] : [`${name}: ${first}`, ...rest];

/** The two things compared; a third attribute with one word narrows both. */
function sidesOf(words: AskedWords): readonly [Side, Side] | undefined {
  const { asked } = words;
  const { house, publication } = asked;
  const before = words.problems.length;
  const launches = words.several('launch', 'launch method', words.launches());
  const tests = words.several(
    'tests',
    'test',
    publication.tests.map(({ id }) => id),
  );
  const test = words.test();
  const directions = words.several('directions', 'direction of this road', directionsOf(test));
  const direction = words.one('direction', 'direction of this road', directionsOf(test));
  if (words.problems.length > before) return undefined;
  const pairs = [launches, tests, directions].filter(pair => pair.length === 2);
  const stray = [launches, tests, directions].some(pair => pair.length > 2);
  const single = tests.length === 1 || directions.length === 1;
  if (pairs.length !== 1 || stray || single || new Set(pairs[0]).size !== 2) {
    const found = ['launch', 'tests', 'directions'].flatMap(name =>
      asked.attributes[name] === undefined ? [] : [`${name}="${asked.attributes[name]}"`],
    );
    words.problems.push(notTwo(asked.where, found.length === 0 ? 'nothing to compare' : found.join(' ')));
    return undefined;
  }
  const launch = launches.length === 1 ? launches[0] : undefined;
  const asTests =
    pairs[0] === tests ? pairs[0].map(word => publication.tests.find(({ id }) => id === word)!) : [];
  const names = testNames(asTests, house);
  const nameOf = new Map(asTests.map(({ id }, index) => [id, names[index]!]));
  const sides = pairs[0]!.map((word): Side => {
    if (pairs[0] === launches) {
      return {
        name: house.launch_methods.find(({ id }) => id === word)!.name,
        test,
        launch: word,
        direction,
      };
    }
    if (pairs[0] === directions) {
      const name = test.road.directions.find(({ id }) => id === word)!.name;
      return { name, test, launch, direction: word };
    }
    const other = publication.tests.find(({ id }) => id === word)!;
    return { name: nameOf.get(word)!, test: other, launch, direction };
  });
  return [sides[0]!, sides[1]!];
}
