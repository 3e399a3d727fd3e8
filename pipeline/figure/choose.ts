/** Which attempts a figure draws, and what each is called on it. */

import type { Spoken } from '../language.ts';
import { fromRest, headlineMeasure, isKept } from '../result/headline.ts';
import { bestAttempt, launchMethodsOf, medianAttempt, pickResult } from '../result/pick.ts';
import type { Attempt, House, MeasureId, Result, TestResult } from '../result/result.ts';
import { speedUnitOf } from '../speed-unit.ts';
import type { FigureChoice, NotMade } from './figure.ts';
import { MOST_SERIES } from './theme.ts';
import { notMadeWords } from './words/not-made.ts';
import { figureWords } from './words/shared.ts';

export { fromRest, headlineMeasure, isKept };

/** An attempt as it is drawn: with a name of its own and, where it is kept and reached it, its figure. */
export interface Chosen {
  readonly attempt: Attempt;
  /** Short: launch method where that tells the attempts apart, otherwise with the attempt's number. */
  readonly name: string;
  readonly result?: Result;
}

/**
 * The attempts asked for, or `fallback` where none are; each once, at most `most`: as many as there are series.
 * `standing` alone may be drawn from a start.
 */
export function chooseAttempts(
  test: TestResult,
  house: House,
  choice: FigureChoice,
  measure: MeasureId,
  fallback: readonly string[],
  fits: (attempt: Attempt) => boolean = fromRest,
  most: number = MOST_SERIES,
): readonly Chosen[] | NotMade {
  const attempts: Attempt[] = [];
  for (const word of choice.attempts ?? fallback) {
    const attempt = attemptNamed(test, house, choice, measure, word);
    if (attempt === undefined) return { reason: noSuchAttempt(test, word, house) };
    if (!fits(attempt)) {
      return { reason: notMadeWords(house).anotherKind(attempt.id) };
    }
    if (!attempts.includes(attempt)) attempts.push(attempt);
  }
  if (attempts.length > most) {
    return {
      reason: notMadeWords(house).tooMany(most, attempts.length),
    };
  }
  const names = attemptNames(attempts, house);
  return attempts.map((attempt, index) => {
    const result = pickResult(test, house, { measure, startRule: choice.startRule, attempt: attempt.id });
    return { attempt, name: names[index]!, ...(result === undefined ? {} : { result }) };
  });
}

/**
 * The chosen standing starts, quickest first, with the measure they are chosen by: the day's headline.
 * `fallback` is asked only where the article names no attempts; the best of each launch method unless told.
 */
export function chooseStarts(
  test: TestResult,
  house: House,
  choice: FigureChoice,
  {
    fallback = bestOfEachLaunch,
    most = MOST_SERIES,
  }: { readonly fallback?: typeof bestOfEachLaunch; readonly most?: number } = {},
): { readonly measure: MeasureId; readonly chosen: readonly Chosen[] } | NotMade {
  const measure = headlineMeasure(test, house);
  if (measure === undefined) return { reason: notMadeWords(house).noStart(speedUnitOf(house)) };
  const others = fallback(test, house, choice, measure);
  const chosen = chooseAttempts(test, house, choice, measure, others, fromRest, most);
  return 'reason' in chosen ? chosen : { measure, chosen: quickestFirst(chosen) };
}

function attemptNamed(
  test: TestResult,
  house: House,
  { startRule }: FigureChoice,
  measure: MeasureId,
  word: string,
): Attempt | undefined {
  if (word === 'best') return bestAttempt(test, house, { measure, startRule });
  if (word === 'median') return medianAttempt(test, house, { measure, startRule });
  if (word.startsWith('best:')) {
    return bestAttempt(test, house, { measure, startRule, launch: word.slice('best:'.length) });
  }
  return test.attempts.find(({ id }) => id === word);
}

function noSuchAttempt(test: TestResult, word: string, spoken: Spoken): string {
  const words = notMadeWords(spoken);
  if (word === 'best' || word === 'median') return words.noneReachedIt;
  if (word.startsWith('best:')) return words.noneWithLaunch(word.slice('best:'.length));
  const ids = test.attempts.map(({ id }) => id);
  return words.noSuchAttempt(word, ids[0], ids.length > 1 ? ids.at(-1) : undefined);
}

/** `best:<launch>` for every launch method with a kept attempt that reached the measure, else `best`. */
export function bestOfEachLaunch(
  test: TestResult,
  house: House,
  { startRule }: FigureChoice,
  measure: MeasureId,
): readonly string[] {
  const words = launchMethodsOf(test, house)
    .filter(({ id }) => bestAttempt(test, house, { measure, startRule, launch: id }) !== undefined)
    .slice(0, MOST_SERIES)
    .map(({ id }) => `best:${id}`);
  return words.length > 0 ? words : ['best'];
}

function attemptNames(attempts: readonly Attempt[], spoken: Spoken): readonly string[] {
  const words = figureWords(spoken);
  const launches = attempts.map(({ launchName }) => launchName);
  return attempts.map(({ launchName, number }) => {
    if (launchName === undefined) return words.attempt(number);
    const alone = launches.filter(other => other === launchName).length === 1;
    return alone ? launchName : words.launchAndNumber(launchName, number);
  });
}

/** What a choice of attempts comes to, for a deck: `the best and the median run`. */
export function choiceInWords({ attempts }: FigureChoice, drawn: number, spoken: Spoken): string {
  const { chosen } = figureWords(spoken);
  if (attempts === undefined) return chosen.bests;
  switch (attempts.join(' and ')) {
    case 'best':
      return chosen.best;
    case 'median':
      return chosen.median;
    case 'best and median':
      return chosen['best and median'];
    case 'median and best':
      return chosen['median and best'];
    default:
      return drawn === 1 ? chosen.one : chosen.several;
  }
}

/** Best first, those without a figure last in the day's order. */
export function quickestFirst(chosen: readonly Chosen[]): readonly Chosen[] {
  return [...chosen].sort(
    (a, b) =>
      (a.result?.value ?? Number.POSITIVE_INFINITY) - (b.result?.value ?? Number.POSITIVE_INFINITY) ||
      a.attempt.number - b.attempt.number,
  );
}
