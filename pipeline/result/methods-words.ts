/** What a comparison of launch methods or directions comes to, in words a reader understands. */

import { quotedName, type Spoken } from '../language.ts';
import { roundToDecimals } from '../round.ts';
import { aheadInWords } from './compare.ts';
import { MEASURES } from './measures.ts';
import { LEVEL, type MethodPair, type MethodsCompared, MOST_ATTEMPTS } from './methods-compared.ts';
import type { MeasureId } from './result.ts';
import { compareWords } from './words/compare.ts';
import { methodsWords } from './words/methods.ts';
import { localiseDigits, type PrintedFor, printDifference } from './words.ts';

/** A difference and its ends, printed to one place. */
export interface PrintedPair {
  readonly difference: string;
  /** `0.24 s`, or `0.05 s the other way`; absent where there is no interval. */
  readonly low?: string;
  readonly high?: string;
}

export function printPair(
  { difference, low, high }: MethodPair,
  measure: MeasureId,
  language: string,
): PrintedPair {
  const details = MEASURES[measure];
  if (low === undefined || high === undefined) {
    return { difference: printDifference(difference, Number.NaN, details, language).text };
  }
  const half = (high - low) / 2;
  const print = (si: number): string => printDifference(si, half, details, language).text;
  return {
    difference: print(difference),
    low: low < 0 ? methodsWords(language).otherWay(print(low)) : print(low),
    high: print(high),
  };
}

/** Digits of a chance: two places of three, `below 0.001` under that. */
export function chanceInWords(p: number, language: string): string {
  return p < 0.001
    ? methodsWords(language).below(localiseDigits('0.001', language))
    : localiseDigits(roundToDecimals(p, p < 0.1 ? 3 : 2), language);
}

/** `3 against 3`. */
export const countsOf = ({ ahead, behind }: MethodPair, spoken: Spoken): string =>
  methodsWords(spoken).against(ahead.attempts.length, behind.attempts.length);

/** The verdict alone, for a table or a sentence: `apart` names who is ahead. */
export function verdictInWords(pair: MethodPair, spoken: Spoken): string {
  const words = compareWords(spoken);
  switch (pair.verdict) {
    case 'apart':
      return words.isAhead(quotedName(pair.ahead.name, spoken));
    case 'too-close':
      return words.tooCloseToCall;
    case 'too-few':
      return `${words.tooFewToTell}: ${countsOf(pair, spoken)}`;
    case 'not-known':
      return words.notRankedVerdict;
  }
}

/**
 * One pair as a sentence, such as `‘Both feet’ is quicker by 0.31 s than ‘One foot’, between 0.24 s and 0.38 s:
 * ahead in 42 of 42 pairings of their attempts.`
 */
export function pairInWords(pair: MethodPair, measure: MeasureId, house: PrintedFor): string {
  const { ahead, behind, won, pairings } = pair;
  const { difference, low = '', high = '' } = printPair(pair, measure, house.language);
  const [a, b] = [ahead.name, behind.name];
  const words = methodsWords(house);
  switch (pair.verdict) {
    case 'apart':
      return words.apart(aheadOf(pair, measure, difference, house), [low, high], won, pairings);
    case 'too-close':
      return words.tooClose(a, b, difference, low, high);
    case 'too-few':
      return words.tooFew(a, b, countsOf(pair, house), difference, oftenInWords(pair, house.language));
    case 'not-known':
      return pair.p === undefined ? words.tooManyToCount(a, b, MOST_ATTEMPTS) : words.noUncertainty(a, b);
  }
}

/** `‘Both feet’ is quicker by 0.31 s than ‘One foot’`. */
const aheadOf = (
  { ahead, behind }: MethodPair,
  measure: MeasureId,
  difference: string,
  spoken: Spoken,
): string => {
  const [a, b] = [ahead, behind].map(({ name }) => quotedName(name, spoken));
  return aheadInWords(a!, measure, difference, spoken, b);
};

/** How often chance alone does the most that so few attempts can show. */
function oftenInWords({ smallestP, pairsCounted }: MethodPair, language: string): string {
  const words = methodsWords(language);
  if (smallestP >= 1) return words.everyTime;
  const often = words.oneTimeIn(localiseDigits(roundToDecimals(1 / smallestP, 0), language));
  return smallestP > LEVEL ? often : words.tooOften(often, pairsCounted);
}

/** How the attempts stood in the day, where that may be part of a difference; empty where they took turns. */
export function orderInWords(
  { ahead, behind, stretches, unlike }: MethodPair,
  spoken: Spoken,
): readonly string[] {
  const words = methodsWords(spoken);
  const [a, b] = [ahead.name, behind.name];
  const [first, second] = ahead.attempts[0]!.place < behind.attempts[0]!.place ? [a, b] : [b, a];
  const taken = stretches === 2 ? words.oneAfterOther(first, second) : words.fewTurns(a, b, stretches - 1);
  return [...(stretches >= TURNS_TAKEN ? [] : [taken]), ...unlike.map(what => words.unlike(a, b, what))];
}

/** From this many stretches on each method was come back to, so that a steady change falls on both. */
const TURNS_TAKEN = 4;

/** Pairs of the method with the best median and each other, in the order of medians. */
export function pairsOfFirst({ methods, pairs }: MethodsCompared): readonly MethodPair[] {
  return pairs.filter(({ ahead }) => ahead === methods[0]);
}

/**
 * The finding of all methods in a phrase without its full stop; it ranks nothing the verdicts do not. Undefined
 * where fewer than two methods can be compared.
 */
export function methodsFinding(compared: MethodsCompared, house: PrintedFor): string | undefined {
  const { measure, methods } = compared;
  const pairs = pairsOfFirst(compared);
  const [first] = methods;
  const [next] = pairs;
  if (first === undefined || next === undefined) return undefined;
  const words = methodsWords(house);
  const behind = pairs.filter(({ verdict }) => verdict === 'apart');
  if (next.verdict === 'apart' && behind.length === pairs.length) {
    const { difference, low = '', high = '' } = printPair(next, measure, house.language);
    return words.findingApart(aheadOf(next, measure, difference, house), low, high);
  }
  const namesOf = (of: readonly MethodPair[]): readonly string[] => of.map(pair => pair.behind.name);
  if (behind.length > 0) {
    const others = pairs.filter(pair => !behind.includes(pair));
    const few = pairs.every(({ verdict }) => verdict === 'apart' || verdict === 'too-few');
    return words.someBehind(namesOf(behind), first.name, namesOf(others), few ? 'too few' : 'too close');
  }
  const names = methods.map(({ name }) => name);
  if (pairs.every(({ verdict }) => verdict === 'too-few')) return words.allTooFew(names, countsIn(compared));
  return pairs.every(({ verdict }) => verdict === 'not-known')
    ? words.allNotRanked(names)
    : words.allTooClose(names);
}

const countsIn = ({ methods }: MethodsCompared): readonly string[] =>
  methods.map(({ attempts }) => String(attempts.length));

/** The finding for a plate that has little room: the quickest and by how much, without the range. */
export function shortFinding(compared: MethodsCompared, house: PrintedFor): string | undefined {
  const { measure } = compared;
  const pairs = pairsOfFirst(compared);
  const [next] = pairs;
  if (next === undefined) return undefined;
  const words = methodsWords(house);
  const behind = pairs.filter(({ verdict }) => verdict === 'apart');
  if (behind.length === pairs.length) {
    return aheadInWords(next.ahead.name, measure, printPair(next, measure, house.language).difference, house);
  }
  if (behind.length > 0) {
    const names = behind.map(pair => pair.behind.name);
    return words.shortBehind(names, next.ahead.name);
  }
  if (pairs.every(({ verdict }) => verdict === 'too-few')) return words.shortTooFew(countsIn(compared));
  return pairs.every(({ verdict }) => verdict === 'not-known') ? words.shortNotRanked : words.shortTooClose;
}

/** What a reader must know of how it was worked out, for notes under a table. */
export function comparisonNotes(
  { pairs, pairsCounted }: MethodsCompared,
  language: string,
): readonly string[] {
  if (pairs.length === 0) return [];
  const words = methodsWords(language);
  const level = localiseDigits(roundToDecimals(LEVEL, 2), language);
  return [
    [
      words.rankedWhere(level),
      ...(pairsCounted > 1 ? [words.severalPairs(pairsCounted)] : []),
      words.betweenCovers,
    ].join(' '),
    ...pairs.flatMap(pair => orderInWords(pair, language)),
  ];
}
