/** The lines under a plot that let it stand alone: rule, conditions, car, road, date, publication. */

import { capital } from '../language.ts';
import type { Attempt, AttemptConditions, House, TestResult } from '../result/result.ts';
import { surfaceInWords } from '../result/words/conditions.ts';
import { dateInWords as plainDate, printQuantity, startRuleInWords } from '../result/words.ts';
import type { StartRule } from '../run/run.ts';
import type { DrawnFacts } from './figure.ts';
import { figureWords } from './words/shared.ts';

/** A date that no line end takes apart, for narrow pictures. */
const unbroken = (isoDate: string, { language }: House): string =>
  dateInWords(isoDate, language).replaceAll(' ', '\u00a0');

/** A date as people write it in the house's language: `12 May 2026`; a day with a point, `12.`, keeps its month. */
export function dateInWords(isoDate: string, language: string): string {
  return plainDate(isoDate, language).replace(/^(\d+\.) /, '$1\u00a0');
}

type ConditionKey = 'temperatureK' | 'pressurePa' | 'relativeHumidity' | 'windMps';
const PRINTED: readonly {
  readonly key: ConditionKey;
  readonly kind: 'temperature' | 'pressure' | 'humidity' | 'wind';
  /** What says which it is, where its unit does not. */
  readonly named?: 'humidity' | 'wind';
}[] = [
  { key: 'temperatureK', kind: 'temperature' },
  { key: 'pressurePa', kind: 'pressure' },
  { key: 'relativeHumidity', kind: 'humidity', named: 'humidity' },
  { key: 'windMps', kind: 'wind', named: 'wind' },
];

/** Air, wind and surface over some attempts, as ranges where they changed: `dry, 14 °C to 17 °C, wind 2.1 m/s`. */
export function conditionsInWords(
  attempts: readonly Attempt[],
  language: string,
  keys: readonly ConditionKey[] = PRINTED.map(({ key }) => key),
): string {
  const readings = attempts.map(({ conditions }) => conditions);
  const words = figureWords(language);
  const said: string[] = [];
  const surfaces = [...new Set(readings.flatMap(({ surface }) => surface ?? []))];
  if (surfaces.length > 0) {
    said.push(words.surfaces(surfaces.map(surface => surfaceInWords(surface, language))));
  }
  for (const { key, kind, named } of PRINTED) {
    if (!keys.includes(key)) continue;
    const range = rangeOf(readings, key);
    if (range === undefined) continue;
    const [least, most] = range.map(value => printQuantity(value, kind, undefined, language));
    const text = least === most ? least! : words.range(least!.split('\u00a0')[0]!, most!);
    said.push(named === undefined ? text : words[named](text));
  }
  return said.length > 0 ? said.join(', ') : words.noConditions;
}

function rangeOf(readings: readonly AttemptConditions[], key: ConditionKey): readonly number[] | undefined {
  const values = readings.flatMap(reading => reading[key] ?? []);
  return values.length === 0 ? undefined : [Math.min(...values), Math.max(...values)];
}

export interface FootFacts {
  /** Drawn attempts: their conditions are told. */
  readonly attempts: readonly Attempt[];
  /** Absent where no clock starts from rest. */
  readonly startRule?: StartRule;
  /** Whole sentences said after the rule, such as how a value was worked out. */
  readonly method?: readonly string[];
  /** What must never be left out, however small the picture. */
  readonly caution?: string;
  /** What letters and marks stand for, where a crop cannot do without it. */
  readonly key?: string;
}

/** Foot lines in the order printed. */
export function footLines(test: TestResult, house: House, facts: FootFacts): readonly string[] {
  const { content, car, road } = test;
  const rule = facts.startRule === undefined ? [] : [`${capital(startRuleInWords(facts.startRule, house))}.`];
  const method = [...rule, ...(facts.method ?? [])].join(' ');
  const mass = printQuantity(content.as_tested.mass_kg, 'mass', undefined, house.language);
  const published = content.published === undefined ? '' : `, ${unbroken(content.published, house)}`;
  return [
    ...(method === '' ? [] : [method]),
    `${figureWords(house).asTested(car.name, mass)} ${road.name}, ${unbroken(content.date, house)}: ${conditionsInWords(facts.attempts, house.language)}.`,
    ...(facts.caution === undefined ? [] : [facts.caution]),
    `${house.name}${published}. ${house.licence.name}.`,
  ];
}

/** What is said under a plot, in full and for a crop, and counted. */
export function feet(
  test: TestResult,
  house: House,
  facts: FootFacts,
): {
  readonly foot: readonly string[];
  readonly cropFoot: readonly string[];
  readonly drawn: DrawnFacts;
} {
  const kept = test.attempts.filter(({ setAside }) => setAside === undefined).length;
  const published =
    test.content.published === undefined ? '' : `, ${unbroken(test.content.published, house)}`;
  const parts = [
    ...(facts.startRule === undefined ? [] : [startRuleInWords(facts.startRule, house)]),
    figureWords(house).keptOf(kept, test.attempts.length),
    conditionsInWords(facts.attempts, house.language, ['temperatureK', 'windMps']),
  ];
  const { attempts, startRule } = facts;
  return {
    drawn: {
      ...(startRule === undefined ? {} : { startRule }),
      attempts: attempts.length,
      kept: attempts.filter(({ setAside }) => setAside === undefined).length,
    },
    foot: footLines(test, house, facts),
    cropFoot: [
      ...(facts.caution === undefined ? [] : [facts.caution]),
      `${facts.key === undefined ? '' : `${facts.key} `}${capital(parts.join('; '))}.`,
      `${house.name}${published}`,
    ],
  };
}

/** A name whose number does not part from it at the end of a line. */
export const heldTogether = (name: string): string => name.replace(/ (?=\d)/g, '\u00a0');
