/**
 * Launch methods against each other, and car against car, by the median of all attempts: a best of many is
 * helped by chance more than a best of few, and a median's uncertainty holds the scatter between attempts.
 */

import { capital, catalogue, nameWithin } from '../language.ts';
import { aheadInWords, compareResults } from '../result/compare.ts';
import { MEASURES, measureInSentence } from '../result/measures.ts';
import { compareLaunchMethods } from '../result/methods-compared.ts';
import { pairsOfFirst, shortFinding } from '../result/methods-words.ts';
import type { Attempt, House, Result, TestResult } from '../result/result.ts';
import { compareTests } from '../result/tests-compared.ts';
import { testsVerdictInWords } from '../result/tests-words.ts';
import { compareWords } from '../result/words/compare.ts';
import { printDifference, printResult, startRuleInWords } from '../result/words.ts';
import type { MadeOverlay, Overlay } from './overlay.ts';
import {
  attemptsWithIds,
  conditionsInWords,
  footPhrases,
  headlineMeasure,
  keptAttempts,
  placeAndDate,
  said,
  sentenceCase,
} from './phrases.ts';
import { plateOverlay } from './plate.ts';
import { houseTheme } from './theme.ts';
import { plateWords } from './words/plates.ts';

interface Contender {
  readonly name: string;
  readonly result: Result;
}

/** More columns than this are too small to read on a phone. */
const MOST = 4;

const quickestFirst = (contenders: readonly Contender[]): readonly Contender[] =>
  [...contenders].sort((a, b) => a.result.value - b.result.value);

/** What the medians say of the two quickest; it ranks nothing that is too close or was tried once only. */
export function findingInWords(contenders: readonly Contender[], house: House): string {
  const [first, second] = quickestFirst(contenders);
  if (!first || !second) return '';
  if (first.result.n < 2 || second.result.n < 2) return plateWords(house).notRankedOnce;
  const { difference, uncertainty, tooCloseToCall } = compareResults(first.result, second.result);
  if (tooCloseToCall) return capital(compareWords(house).tooCloseToCall);
  const apart = printDifference(difference, uncertainty, MEASURES[first.result.measure], house);
  return aheadInWords(
    first.name,
    first.result.measure,
    said([apart.text, apart.uncertainty]).join('\u00a0'),
    house,
  );
}

function makeComparison(
  name: string,
  title: string,
  subtitle: string,
  contenders: readonly Contender[],
  extra: readonly (string | undefined)[],
  house: House,
  ranked: boolean,
): MadeOverlay {
  const words = plateWords(house);
  const columns = contenders.map(({ name: head, result }) => {
    const printed = printResult(result, house);
    return {
      head,
      value: printed.value,
      unit: printed.unit,
      notes: [
        printed.uncertainty ?? words.notKnown,
        result.n === 1 ? words.oneAttempt : words.medianOf(result.n),
      ],
      strong: ranked && result === quickestFirst(contenders)[0]?.result,
    };
  });
  const rule = contenders[0]?.result.startRule;
  const setAside = contenders.reduce((sum, { result }) => sum + result.nSetAside, 0);
  const foot = footPhrases([
    rule && startRuleInWords(rule, house),
    words.medianUncertainty,
    setAside > 0 ? words.setAside(setAside) : undefined,
    ...extra,
  ]);
  return plateOverlay(
    {
      kind: 'comparison',
      name,
      altText: `${title}. ${subtitle}: ${columns.map(column => `${column.head} ${column.value} ${column.unit} ${column.notes.join(', ')}`).join('; ')}. ${foot.join(', ')}.`,
    },
    { label: house.name, title, subtitle, content: { body: 'columns', columns }, foot },
    houseTheme(house),
  );
}

function launchMethods(test: TestResult, house: House): readonly MadeOverlay[] {
  const measure = headlineMeasure([test], house);
  if (measure === undefined) return [];
  const compared = compareLaunchMethods(test, house, { measure, startRule: house.headline_start_rule });
  const finding = shortFinding(compared, house);
  if (finding === undefined) return [];
  const shown = compared.methods.slice(0, MOST);
  const attempts = attemptsWithIds(
    test,
    shown.flatMap(method => method.attempts.map(({ id }) => id)),
  );
  return [
    makeComparison(
      '5-launch-methods',
      finding,
      plateWords(house).byLaunch(test.car.short_name, measureInSentence(measure, house)),
      shown.map(({ name, figures }) => ({ name, result: figures.median })),
      [
        compared.methods.length > shown.length
          ? plateWords(house).othersNotShown(compared.methods.length - shown.length)
          : undefined,
        conditionsInWords(attempts, house),
        placeAndDate(test, house),
      ],
      house,
      pairsOfFirst(compared).every(({ verdict }) => verdict === 'apart'),
    ),
  ];
}

function carAgainstCar(test: TestResult, other: TestResult, house: House): readonly MadeOverlay[] {
  const tests = [test, other] as const;
  const measure = headlineMeasure(tests, house);
  const compared = measure && compareTests(tests, house, { measure, startRule: house.headline_start_rule });
  if (compared === undefined) return [];
  const { first, second, launch, verdict } = compared;
  const contenders = [first, second].map(({ name, figures }) => ({ name, result: figures.median }));
  const counted = tests.map(each =>
    keptAttempts(each).filter(({ launchId }) => launch === undefined || launchId === launch.id),
  );
  const ranked = verdict === 'first' || verdict === 'second';
  return [
    makeComparison(
      `6-against-${other.id}`,
      ranked ? findingInWords(contenders, house) : sentenceCase(testsVerdictInWords(compared, house)),
      `${sentenceCase(measureInSentence(compared.measure, house))}, ${launch === undefined ? plateWords(house).allLaunches : nameWithin(launch.name, house)}`,
      contenders,
      daysInWords(tests, counted, house),
      house,
      ranked,
    ),
  ];
}

/** Date and conditions of each test, or once where they are the same. */
function daysInWords(
  tests: readonly TestResult[],
  counted: readonly (readonly Attempt[])[],
  house: House,
): readonly string[] {
  const days = tests.map((test, index) =>
    said([conditionsInWords(counted[index] ?? [], house), placeAndDate(test, house)]),
  );
  const [first = [], second = []] = days;
  if (first.join() === second.join()) return [plateWords(house).both(first[0] ?? ''), ...first.slice(1)];
  return days.map((day, index) => `${tests[index]?.car.short_name}: ${day.join(', ')}`);
}

export const comparisonOverlay: Overlay = {
  kind: 'comparison',
  describes: catalogue({
    en: 'Launch methods, or this car and another, by their medians; too close to call where that is so.',
    de: 'Startmethoden, oder dieses Auto und ein anderes, nach ihren Medianen; zu eng für eine Rangfolge, wo das so ist.',
  }),
  make(test, house, others) {
    return [
      ...launchMethods(test, house),
      ...others
        .filter(other => other.car.id !== test.car.id)
        .flatMap(other => carAgainstCar(test, other, house)),
    ];
  },
};
