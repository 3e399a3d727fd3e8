/**
 * Launch methods against each other, and car against car, by the median of all attempts: a best of many is
 * helped by chance more than a best of few, and a median's uncertainty holds the scatter between attempts.
 */
import { compareResults } from '../result/compare.ts';
import { MEASURES } from '../result/measures.ts';
import { compareLaunchMethods } from '../result/methods-compared.ts';
import { pairsOfFirst, shortFinding } from '../result/methods-words.ts';
import { pickResult } from '../result/pick.ts';
import type { Attempt, House, MeasureId, Result, TestResult } from '../result/result.ts';
import { printDifference, printResult, startRuleInWords } from '../result/words.ts';
import type { MadeOverlay, Overlay } from './overlay.ts';
import {
  attemptsWithIds,
  conditionsInWords,
  footPhrases,
  headlineMeasure,
  keptAttempts,
  measureInSentence,
  placeAndDate,
  said,
  sentenceCase,
  surfacesInWords,
} from './phrases.ts';
import { plateOverlay } from './plate.ts';

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
  if (first.result.n < 2 || second.result.n < 2) return 'Not ranked: tried once only';
  const { difference, uncertainty, tooCloseToCall } = compareResults(first.result, second.result);
  if (tooCloseToCall) return 'Too close to call';
  const apart = printDifference(difference, uncertainty, MEASURES[first.result.measure], house.language);
  return `${first.name} is quicker by ${said([apart.text, apart.uncertainty]).join(' ')}`;
}

/** Whether the quickest is ranked first. */
const isRanked = (contenders: readonly Contender[]): boolean => {
  const [first, second] = quickestFirst(contenders);
  if (!first || !second || first.result.n < 2 || second.result.n < 2) return false;
  return !compareResults(first.result, second.result).tooCloseToCall;
};

function makeComparison(
  name: string,
  title: string,
  subtitle: string,
  contenders: readonly Contender[],
  extra: readonly (string | undefined)[],
  house: House,
  ranked: boolean,
): MadeOverlay {
  const columns = contenders.map(({ name: head, result }) => {
    const printed = printResult(result, house);
    return {
      head,
      value: printed.value,
      unit: printed.unit,
      notes: [
        printed.uncertainty ?? 'uncertainty not known',
        result.n === 1 ? 'one attempt' : `median of ${result.n}`,
      ],
      strong: ranked && result === quickestFirst(contenders)[0]?.result,
    };
  });
  const rule = contenders[0]?.result.startRule;
  const setAside = contenders.reduce((sum, { result }) => sum + result.nSetAside, 0);
  const foot = footPhrases([
    rule && startRuleInWords(rule),
    '± is about 95 % and includes the scatter between attempts',
    setAside > 0 ? `${setAside} set aside` : undefined,
    ...extra,
  ]);
  return plateOverlay(
    {
      kind: 'comparison',
      name,
      altText: `${title}. ${subtitle}: ${columns.map(column => `${column.head} ${column.value} ${column.unit} ${column.notes.join(', ')}`).join('; ')}. ${foot.join(', ')}.`,
    },
    { label: house.name, title, subtitle, content: { body: 'columns', columns }, foot },
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
      `${test.car.short_name}, ${measureInSentence(measure)} by launch method`,
      shown.map(({ name, figures }) => ({ name, result: figures.median })),
      [
        compared.methods.length > shown.length
          ? `${compared.methods.length - shown.length} other methods not shown`
          : undefined,
        conditionsInWords(attempts, house),
        placeAndDate(test, house),
      ],
      house,
      pairsOfFirst(compared).every(({ verdict }) => verdict === 'apart'),
    ),
  ];
}

/** The launch method that both tests tried twice or more, and most often; undefined where there is none. */
function commonLaunch(
  measure: MeasureId,
  tests: readonly TestResult[],
  house: House,
): { readonly id: string; readonly name: string } | undefined {
  const counted = house.launch_methods.map(({ id, name }) => ({
    id,
    name,
    n: Math.min(...tests.map(test => pickResult(test, house, { measure, launch: id })?.n ?? 0)),
  }));
  return counted.filter(({ n }) => n >= 2).sort((a, b) => b.n - a.n)[0];
}

function carAgainstCar(test: TestResult, other: TestResult, house: House): readonly MadeOverlay[] {
  const tests = [test, other];
  const measure = headlineMeasure(tests, house);
  if (measure === undefined) return [];
  const launch = commonLaunch(measure, tests, house);
  const contenders = tests.flatMap((each): Contender[] => {
    const among = launch === undefined ? {} : { launch: launch.id };
    const result = pickResult(each, house, { measure, statistic: 'median', ...among });
    return result === undefined ? [] : [{ name: each.car.short_name, result }];
  });
  if (contenders.length < 2) return [];
  const counted = tests.map(each =>
    keptAttempts(each).filter(({ launchId }) => launch === undefined || launchId === launch.id),
  );
  const [surface, otherSurface] = counted.map(surfacesInWords);
  const alike = surface === otherSurface;
  return [
    makeComparison(
      `6-against-${other.id}`,
      alike
        ? findingInWords(contenders, house)
        : `Not alike: ${surface ?? 'surface not noted'} against ${otherSurface ?? 'surface not noted'}`,
      `${sentenceCase(measureInSentence(measure))}, ${launch === undefined ? 'all launch methods' : launch.name.toLowerCase()}`,
      contenders,
      daysInWords(tests, counted, house),
      house,
      alike && isRanked(contenders),
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
  if (first.join() === second.join()) return [`both: ${first[0] ?? ''}`, ...first.slice(1)];
  return days.map((day, index) => `${tests[index]?.car.short_name}: ${day.join(', ')}`);
}

export const comparisonOverlay: Overlay = {
  kind: 'comparison',
  describes: 'Launch methods, or this car and another, by their medians; too close to call where that is so.',
  make(test, house, others) {
    return [
      ...launchMethods(test, house),
      ...others
        .filter(other => other.car.id !== test.car.id)
        .flatMap(other => carAgainstCar(test, other, house)),
    ];
  },
};
