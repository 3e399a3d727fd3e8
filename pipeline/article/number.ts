/** `:number{of=0-100-kmh take=best launch=… direction=… attempt=… start=… test=…}` */
import { catalogue, counted } from '../language.ts';
import { nothingMeasured } from '../problems/article.ts';
import { MEASURES, measureIds, measureLabel, measuresOf } from '../result/measures.ts';
import { attemptsReaching, pickResult } from '../result/pick.ts';
import type { House, Result, ResultFilter, ResultQuery, TestResult } from '../result/result.ts';
import { dateInWords, printResult } from '../result/words.ts';
import { workingsOfResult } from '../result/workings-address.ts';
import { methodOfMeasure } from '../workings/method.ts';
import { AskedWords, directionsOf } from './asked-words.ts';
import { conditionsSentence } from './condition-span.ts';
import type { Answer, Asked, WorkingsLink } from './published-number.ts';

const STATISTICS = ['best', 'median'] as const;

const WORDS = catalogue({
  en: {
    attempt: (number: number | string) => `attempt ${number}`,
    with: (launch: string) => `with ${launch}`,
    as: (attempt: string) => `as attempt ${attempt}`,
    fromTest: (date: string, title: string) => `From the test of ${date}, “${title}”.`,
    only: (direction: string) => `Only ${direction}.`,
    attempts: (from: readonly { readonly number: number; readonly at: string }[]) =>
      `${counted(from.length, 'Attempt', 'Attempts')} ${from.map(({ number, at }) => `${number} at ${at}`).join(' and ')}.`,
  },
  de: {
    attempt: number => `Versuch ${number}`,
    with: launch => `mit der Startmethode „${launch}“`,
    as: attempt => `als Versuch ${attempt}`,
    fromTest: (date, title) => `Aus dem Test vom ${date}, „${title}“.`,
    only: direction => `Nur ${direction}.`,
    attempts: from =>
      `${counted(from.length, 'Versuch', 'Versuche')} ${from.map(({ number, at }) => `${number} um ${at}`).join(' und ')}.`,
  },
});

export function findNumber(asked: Asked): Answer {
  const words = new AskedWords(asked);
  words.allow(['of', 'take', 'launch', 'direction', 'attempt', 'start', 'test']);
  const measure = words.must('of', 'measure', measureIds, ':number{of=0-100-kmh}');
  const test = words.test();
  const statistic = words.one('take', 'statistic', STATISTICS);
  const launch = words.one('launch', 'launch method', words.launches());
  const direction = words.one('direction', 'direction of this road', directionsOf(test));
  const attempt = words.one(
    'attempt',
    'attempt of this test',
    test.attempts.map(({ id }) => id),
  );
  const startRule = words.startRule();
  if (measure === undefined || words.problems.length > 0) return { problems: words.problems };
  const query: ResultQuery = {
    measure,
    startRule,
    ...(statistic === undefined ? {} : { statistic }),
    ...filterOf(launch, direction),
    ...(attempt === undefined ? {} : { attempt }),
  };
  const result = pickResult(test, asked.house, query);
  if (result === undefined) {
    return {
      problems: [
        nothingMeasured(
          asked.where,
          measureLabel(measure, asked.house),
          amongInWords(query, test, asked.house),
          reachedInstead(test, asked.house, query),
        ),
      ],
    };
  }
  const printed = printResult(result, asked.house);
  return {
    text: printed.text,
    heading: measureLabel(measure, asked.house),
    told: toldOf(result, query, test, asked),
    results: [result],
    workings: workingsLinks(test, result, asked),
    rule: methodOfMeasure(query.measure),
  };
}

/** The attempts a result comes from, each with the address of its workings. */
export function workingsLinks(test: TestResult, result: Result, asked: Asked): readonly WorkingsLink[] {
  const of = test.id === asked.test.id ? '' : `, ${dateInWords(test.content.date, asked.house.language)}`;
  return workingsOfResult(test.id, result).map(({ attemptId, address }) => ({
    label: `${WORDS(asked.house).attempt(test.attempts.find(({ id }) => id === attemptId)?.number ?? attemptId)}${of}`,
    path: address,
  }));
}

export function filterOf(launch: string | undefined, direction: string | undefined): ResultFilter {
  return {
    ...(launch === undefined ? {} : { launch }),
    ...(direction === undefined ? {} : { direction }),
  };
}

/** `with Brake and throttle, eastbound`; empty where nothing was narrowed. */
export function amongInWords(among: ResultFilter, test: TestResult, house: House): string {
  const launch = house.launch_methods.find(({ id }) => id === among.launch)?.name;
  const direction = test.road.directions.find(({ id }) => id === among.direction)?.name;
  return [
    launch === undefined ? '' : WORDS(house).with(launch),
    direction ?? '',
    among.attempt === undefined ? '' : WORDS(house).as(among.attempt),
  ]
    .filter(word => word !== '')
    .join(', ');
}

/** Everything said of one result: where it comes from, and the air of the attempts it was picked from. */
export function toldOf(result: Result, query: ResultQuery, test: TestResult, asked: Asked): string[] {
  const direction = test.road.directions.find(({ id }) => id === query.direction)?.name;
  const from = test.attempts.filter(({ id }) => result.attemptIds.includes(id));
  const { attempt: _one, ...all } = query;
  return [
    ...(test.id === asked.test.id
      ? []
      : [
          WORDS(asked.house).fromTest(
            dateInWords(test.content.date, asked.house.language),
            test.content.title,
          ),
        ]),
    withoutLabel(result, asked.house),
    ...(direction === undefined ? [] : [WORDS(asked.house).only(direction)]),
    WORDS(asked.house).attempts(from),
    conditionsSentence(
      result.statistic === 'median' ? attemptsReaching(test, all) : from,
      asked.house.language,
    ),
  ].filter(sentence => sentence !== '');
}

/** The full sentence; the measure's name stands in the note's heading already. */
function withoutLabel(result: Result, house: House): string {
  const { full } = printResult(result, house);
  const label = `${measureLabel(result.measure, house)}: `;
  return full.startsWith(label) ? full.slice(label.length) : full;
}

/** Measures of the same unit that the same attempts did reach. */
function reachedInstead(test: TestResult, house: House, query: ResultQuery): string[] {
  const { unit } = MEASURES[query.measure];
  return measuresOf(house).filter(
    id => MEASURES[id].unit === unit && pickResult(test, house, { ...query, measure: id }) !== undefined,
  );
}
