/** Phrases that overlays say of a test: when, where, in what weather, and which measure heads it. */

import { timesFromRest } from '../result/measures.ts';
import { pickResult } from '../result/pick.ts';
import type { Attempt, House, MeasureId, TestResult } from '../result/result.ts';
import { surfacesInWords as statesInWords } from '../result/words/conditions.ts';
import { dateInWords as plainDate, printQuantity, type QuantityKind } from '../result/words.ts';
import { plateWords } from './words/plates.ts';

/** The measure that heads every one of these tests; undefined where they have none in common. */
export function headlineMeasure(tests: readonly TestResult[], house: House): MeasureId | undefined {
  return timesFromRest(house).find(measure =>
    tests.every(test => pickResult(test, house, { measure }) !== undefined),
  );
}

/** `12 May 2026` in the house's language, held together, from an ISO 8601 date. */
export function dateInWords(isoDate: string, house: House): string {
  return plainDate(isoDate, house.language).replaceAll(' ', '\u00a0');
}

/** `Fixture field, 12 May 2026`. */
export function placeAndDate(test: TestResult, house: House): string {
  return `${test.road.name}, ${dateInWords(test.content.date, house)}`;
}

/** What the range of a reading is over some attempts, printed: `14 °C`, or `12 to 14 °C`. */
export function rangeInWords(
  values: readonly (number | undefined)[],
  kind: QuantityKind,
  house: House,
): string | undefined {
  const known = values.filter(value => value !== undefined);
  if (known.length === 0) return undefined;
  const low = printQuantity(Math.min(...known), kind, undefined, house.language);
  const high = printQuantity(Math.max(...known), kind, undefined, house.language);
  if (low === high) return low;
  return plateWords(house).range(low.split('\u00a0')[0]!, high);
}

/** Head or tail wind of some attempts; a wind known but not its direction is said as such. */
export function windInWords(attempts: readonly Attempt[], house: House): string | undefined {
  const along = attempts.map(({ conditions }) => conditions.headwindMps).filter(wind => wind !== undefined);
  if (along.length < attempts.length || along.length === 0) {
    const wind = rangeInWords(
      attempts.map(({ conditions }) => conditions.windMps),
      'wind',
      house,
    );
    return wind === undefined ? undefined : plateWords(house).wind(wind);
  }
  const head = rangeInWords(
    along.filter(wind => wind >= 0),
    'wind',
    house,
  );
  const tail = rangeInWords(
    along.filter(wind => wind < 0).map(wind => -wind),
    'wind',
    house,
  );
  const words = plateWords(house);
  return [head && words.headwind(head), tail && words.tailwind(tail)].filter(Boolean).join(', ');
}

/** `14 °C, 1006 hPa, headwind 1.6 m/s, slope 0.1 %, dry`: what is known of the air and road of some attempts. */
export function conditionsInWords(attempts: readonly Attempt[], house: House): string | undefined {
  const of = (kind: QuantityKind, read: (attempt: Attempt) => number | undefined): string | undefined =>
    rangeInWords(attempts.map(read), kind, house);
  const slope = of('slope', ({ conditions }) => conditions.slopePct);
  const facts = [
    of('temperature', ({ conditions }) => conditions.temperatureK),
    of('pressure', ({ conditions }) => conditions.pressurePa),
    windInWords(attempts, house),
    slope && plateWords(house).slope(slope),
    surfacesInWords(attempts, house),
  ].filter(Boolean);
  return facts.length === 0 ? undefined : facts.join(', ');
}

/** `dry`, or `dry and damp`. */
export function surfacesInWords(attempts: readonly Attempt[], house: House): string | undefined {
  const surfaces = [...new Set(attempts.flatMap(({ conditions }) => conditions.surface ?? []))];
  return surfaces.length === 0 ? undefined : statesInWords(surfaces, house);
}

/** The attempts with these ids, in the day's order. */
export const attemptsWithIds = (test: TestResult, ids: readonly string[]): readonly Attempt[] =>
  test.attempts.filter(({ id }) => ids.includes(id));

export const keptAttempts = (test: TestResult): readonly Attempt[] =>
  test.attempts.filter(({ setAside }) => setAside === undefined);

/** First letter large, as a foot or a sentence begins. */
export const sentenceCase = (text: string): string =>
  text === '' ? text : `${text[0]?.toUpperCase()}${text.slice(1)}`;

/** Without the phrases that are absent or empty. */
export const said = (phrases: readonly (string | undefined)[]): readonly string[] =>
  phrases.filter((phrase): phrase is string => phrase !== undefined && phrase !== '');

/** The phrases of a foot that are there, the first with a large letter. */
export function footPhrases(phrases: readonly (string | undefined)[]): readonly string[] {
  const [first = '', ...rest] = said(phrases);
  return [sentenceCase(first), ...rest];
}
