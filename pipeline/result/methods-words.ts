/** What a comparison of launch methods or directions comes to, in words a reader understands. */

import { roundToDecimals } from '../round.ts';
import { aheadInWords } from './compare.ts';
import { MEASURES } from './measures.ts';
import { LEVEL, type MethodPair, type MethodsCompared, MOST_ATTEMPTS } from './methods-compared.ts';
import type { MeasureId } from './result.ts';
import { localiseDigits, type PrintedFor, printDifference } from './words.ts';

/** What stands where two may not be ranked. */
export const TOO_CLOSE = 'too close to call';
export const TOO_FEW = 'too few to tell';

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
    low: low < 0 ? `${print(low)} the other way` : print(low),
    high: print(high),
  };
}

/** Digits of a chance: two places of three, `below 0.001` under that. */
export function chanceInWords(p: number, language: string): string {
  return p < 0.001
    ? `below ${localiseDigits('0.001', language)}`
    : localiseDigits(roundToDecimals(p, p < 0.1 ? 3 : 2), language);
}

const quoted = (name: string): string => `‘${name}’`;

/** `3 against 3`. */
export const countsOf = ({ ahead, behind }: MethodPair): string =>
  `${ahead.attempts.length} against ${behind.attempts.length}`;

/** The verdict alone, for a table or a sentence: `apart` names who is ahead. */
export function verdictInWords(pair: MethodPair): string {
  switch (pair.verdict) {
    case 'apart':
      return `${quoted(pair.ahead.name)} is ahead`;
    case 'too-close':
      return TOO_CLOSE;
    case 'too-few':
      return `${TOO_FEW}: ${countsOf(pair)}`;
    case 'not-known':
      return 'not ranked';
  }
}

/**
 * One pair as a sentence, such as `‘Both feet’ is quicker by 0.31 s than ‘One foot’, between 0.24 s and 0.38 s:
 * ahead in 42 of 42 pairings of their attempts.`
 */
export function pairInWords(pair: MethodPair, measure: MeasureId, house: PrintedFor): string {
  const { ahead, behind, won, pairings } = pair;
  const printed = printPair(pair, measure, house.language);
  const [a, b] = [quoted(ahead.name), quoted(behind.name)];
  switch (pair.verdict) {
    case 'apart':
      return `${a} ${aheadInWords(measure)} ${printed.difference} than ${b}, between ${printed.low} and ${printed.high}: ahead in ${won} of ${pairings} pairings of their attempts.`;
    case 'too-close':
      return `${a} and ${b} are ${TOO_CLOSE}: ${printed.difference} between their medians, anything from ${printed.low} to ${printed.high}.`;
    case 'too-few':
      return `Too few to tell between ${a} and ${b}, ${countsOf(pair)}: ${printed.difference} between their medians, and chance alone would part so few completely ${oftenInWords(pair, house.language)}.`;
    case 'not-known':
      return pair.p === undefined
        ? `${a} and ${b} are not ranked: more than ${MOST_ATTEMPTS} attempts of one are not counted out.`
        : `${a} and ${b} are not ranked: no uncertainty can be stated.`;
  }
}

/** How often chance alone does the most that so few attempts can show. */
function oftenInWords({ smallestP, pairsCounted }: MethodPair, language: string): string {
  if (smallestP >= 1) return 'every time';
  const often = `one time in ${localiseDigits(roundToDecimals(1 / smallestP, 0), language)}`;
  return smallestP > LEVEL ? often : `${often}, too often where ${pairsCounted} pairs are compared`;
}

/** How the attempts stood in the day, where that may be part of a difference; empty where they took turns. */
export function orderInWords({ ahead, behind, stretches, unlike }: MethodPair): readonly string[] {
  const [a, b] = [quoted(ahead.name), quoted(behind.name)];
  const [first, second] = ahead.attempts[0]!.place < behind.attempts[0]!.place ? [a, b] : [b, a];
  const taken =
    stretches === 2
      ? `Every attempt of ${first} came before those of ${second}`
      : `${a} and ${b} took turns only ${stretches - 1} times`;
  return [
    ...(stretches >= TURNS_TAKEN
      ? []
      : [`${taken}: heat, wind and whatever else changed with the hour may be part of their difference.`]),
    ...unlike.map(what => `${a} and ${b} did not share every ${what}: that may be part of their difference.`),
  ];
}

/** From this many stretches on each method was come back to, so that a steady change falls on both. */
const TURNS_TAKEN = 4;

const listed = (parts: readonly string[]): string =>
  parts.length < 2 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`;

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
  const a = quoted(first.name);
  const behind = pairs.filter(({ verdict }) => verdict === 'apart');
  if (next.verdict === 'apart' && behind.length === pairs.length) {
    const { difference, low, high } = printPair(next, measure, house.language);
    return `${a} ${aheadInWords(measure)} ${difference} than ${quoted(next.behind.name)}, between ${low} and ${high}`;
  }
  if (behind.length > 0) {
    const slower = listed(behind.map(pair => quoted(pair.behind.name)));
    const others = pairs.filter(pair => !behind.includes(pair)).map(pair => quoted(pair.behind.name));
    return `${slower} ${behind.length === 1 ? 'is' : 'are'} behind ${a}; between ${listed([a, ...others])} it is ${pairs.every(({ verdict }) => verdict === 'apart' || verdict === 'too-few') ? TOO_FEW : TOO_CLOSE}`;
  }
  const names = listed(methods.map(({ name }) => quoted(name)));
  if (pairs.every(({ verdict }) => verdict === 'too-few')) {
    const counts = methods.map(({ attempts }) => String(attempts.length));
    return `Too few to tell ${names} apart: ${counts.length === 2 ? counts.join(' against ') : `${listed(counts)} attempts`}`;
  }
  return pairs.every(({ verdict }) => verdict === 'not-known')
    ? `${names} are not ranked`
    : `Between ${names} it is ${TOO_CLOSE}`;
}

/** The finding for a plate that has little room: the quickest and by how much, without the range. */
export function shortFinding(compared: MethodsCompared, house: PrintedFor): string | undefined {
  const { measure, methods } = compared;
  const pairs = pairsOfFirst(compared);
  const [next] = pairs;
  if (next === undefined) return undefined;
  const behind = pairs.filter(({ verdict }) => verdict === 'apart');
  if (behind.length === pairs.length) {
    return `${next.ahead.name} ${aheadInWords(measure)} ${printPair(next, measure, house.language).difference}`;
  }
  if (behind.length > 0) {
    const names = behind.map(pair => pair.behind.name);
    return `${listed(names)} ${names.length === 1 ? 'is' : 'are'} behind ${next.ahead.name}`;
  }
  if (pairs.every(({ verdict }) => verdict === 'too-few')) {
    const counts = methods.map(({ attempts }) => String(attempts.length));
    return `Too few to tell: ${counts.length === 2 ? counts.join(' against ') : `${listed(counts)} attempts`}`;
  }
  return pairs.every(({ verdict }) => verdict === 'not-known') ? 'Not ranked' : 'Too close to call';
}

/** What a reader must know of how it was worked out, for notes under a table. */
export function comparisonNotes(
  { pairs, pairsCounted }: MethodsCompared,
  language: string,
): readonly string[] {
  if (pairs.length === 0) return [];
  const level = localiseDigits(roundToDecimals(LEVEL, 2), language);
  const several =
    pairsCounted > 1 ? ` ${pairsCounted} pairs were compared; chances are raised for that (Holm).` : '';
  return [
    `Ranked only where chance alone would part the attempts so unevenly less than ${level} of the time (Mann and Whitney’s test, exact) and the difference exceeds what the timing can tell.${several} “Between” covers about 95 %, scatter and timing together.`,
    ...pairs.flatMap(orderInWords),
  ];
}
