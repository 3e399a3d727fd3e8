/** Two tests of the publication against each other: a verdict for each condition, in words for readers. */

import {
  COMPARED,
  COMPARISON_LIMITS,
  type ComparedCondition,
  type ComparedConditions,
  compareConditions,
  type Likeness,
  type Span,
} from '../conditions/comparability.ts';
import { capital, type Spoken } from '../language.ts';
import type { StartRule } from '../run/run.ts';
import type { Attempt, TestResult } from './result.ts';
import { conditionsWords, surfacesInWords } from './words/conditions.ts';
import { printedWords } from './words/printed.ts';
import { printQuantity, type QuantityKind, startRuleInWords } from './words.ts';

export interface ConditionVerdict {
  readonly condition: ComparedCondition;
  readonly likeness: Likeness;
  /** `Wind not alike: 0.4–1.2 m/s against 3.1–3.4 m/s`. */
  readonly text: string;
  /** The same within a sentence, without the values: `wind not alike`. */
  readonly brief: string;
  /** What is known of each test, as printed; absent where it is not known. */
  readonly values: readonly [string | undefined, string | undefined];
  /** What is asked, and where from. */
  readonly limit: string;
  readonly source: string;
}

export interface ComparedBy {
  /** Attempts that were counted; every kept attempt that is a standing start unless told. */
  readonly attempts?: readonly [readonly Attempt[], readonly Attempt[]];
  /** Start rules of the two figures; the same house's headline rule where absent, which is alike. */
  readonly startRules?: readonly [StartRule, StartRule];
  /** Language tag of the publication; `en-GB` unless told. */
  readonly language?: string;
}

/** A verdict for each condition, in the order of `COMPARED`. */
export function comparabilityOf(a: TestResult, b: TestResult, by: ComparedBy = {}): ConditionVerdict[] {
  const language = by.language ?? 'en-GB';
  const facts = [a, b].map((test, i) =>
    conditionsOf(test, by.attempts?.[i] ?? countedAttempts(test), by.startRules?.[i] ?? 'first-movement'),
  ) as [ComparedConditions, ComparedConditions];
  const words = conditionsWords(language);
  return compareConditions(...facts).map(({ condition, likeness }): ConditionVerdict => {
    const [first, second] = facts.map(each => said(condition, each, language));
    const values =
      first === second ? (first ?? '') : words.against(first ?? words.notKnown, second ?? words.notKnown);
    const { asks, source } = COMPARISON_LIMITS[condition];
    return {
      condition,
      likeness,
      text: `${words.condition[condition]} ${words.likeness[likeness]}${values === '' ? '' : `: ${values}`}`,
      values: [first, second],
      brief: `${words.inSentence[condition]} ${words.likeness[likeness]}`,
      limit: asks,
      source,
    };
  });
}

/** The verdicts that keep two tests apart, then those that nobody knows. */
export const notAlike = (verdicts: readonly ConditionVerdict[]): readonly ConditionVerdict[] =>
  verdicts.filter(({ likeness }) => likeness === 'not-alike');
export const notKnown = (verdicts: readonly ConditionVerdict[]): readonly ConditionVerdict[] =>
  verdicts.filter(({ likeness }) => likeness === 'not-known');

/** `Not alike: wind and surface`, `Alike`, or `Alike as far as known; not known: slope`. */
export const comparabilityInWords = (verdicts: readonly ConditionVerdict[], spoken: Spoken): string =>
  capital(comparabilityPhrase(verdicts, spoken));

/** The same within a sentence. */
export function comparabilityPhrase(verdicts: readonly ConditionVerdict[], spoken: Spoken): string {
  const words = conditionsWords(spoken);
  const names = (of: readonly ConditionVerdict[]): readonly string[] =>
    of.map(({ condition }) => words.inSentence[condition]);
  const apart = notAlike(verdicts);
  if (apart.length > 0) return words.allNotAlike(names(apart));
  const unknown = notKnown(verdicts);
  if (unknown.length === 0) return words.allAlike;
  return unknown.length === COMPARED.length ? words.nothingKnown : words.alikeAsKnown(names(unknown));
}

const countedAttempts = (test: TestResult): readonly Attempt[] =>
  test.attempts.filter(
    ({ setAside, measurement }) => setAside === undefined && measurement.run.kind === 'standing-start',
  );

/** What the conditions of some attempts of a test come to; a fact that one of them lacks is not known. */
export function conditionsOf(
  test: TestResult,
  attempts: readonly Attempt[],
  startRule: StartRule,
): ComparedConditions {
  const every = <T>(read: (attempt: Attempt) => T | undefined): readonly T[] | undefined => {
    const values = attempts.map(read).filter(value => value !== undefined);
    return values.length === attempts.length && values.length > 0 ? values : undefined;
  };
  const span = (values: readonly number[] | undefined): Span | undefined =>
    values && { low: Math.min(...values), high: Math.max(...values) };
  const known = <K extends string, V>(key: K, value: V | undefined): { readonly [P in K]?: V } =>
    (value === undefined ? {} : { [key]: value }) as { readonly [P in K]?: V };
  const surfaces = every(({ conditions }) => conditions.surface);
  const slopes = every(({ conditions }) => conditions.slopePct);
  return {
    ...known('surfaces', surfaces && [...new Set(surfaces)]),
    ...known('temperatureK', span(every(({ conditions }) => conditions.temperatureK))),
    ...known('densityKgm3', span(every(({ conditions }) => conditions.densityKgm3))),
    ...known('windMps', span(every(({ conditions }) => conditions.windMps))),
    ...known('slopePct', slopes && slopes.reduce((sum, slope) => sum + slope, 0) / slopes.length),
    ...known('rateHz', span(every(({ trace }) => trace.rateHz))),
    ...known('loadKg', test.content.as_tested.mass_kg - test.car.kerb_mass_kg),
    startRule,
    attempts: attempts.length,
  };
}

/** What is known of one condition, as a reader sees it. */
function said(condition: ComparedCondition, facts: ComparedConditions, language: string): string | undefined {
  const quantity = (value: number | undefined, kind: QuantityKind, precision?: number): string | undefined =>
    value === undefined ? undefined : printQuantity(value, kind, precision, language);
  const range = (span: Span | undefined, kind: QuantityKind, precision?: number): string | undefined => {
    const [low, high] = [span?.low, span?.high].map(value => quantity(value, kind, precision));
    return low === high || low === undefined ? low : printedWords(language).range(low, high ?? low);
  };
  switch (condition) {
    case 'surface':
      return facts.surfaces && surfacesInWords(facts.surfaces, language);
    case 'temperature':
      return range(facts.temperatureK, 'temperature');
    case 'density':
      return range(facts.densityKgm3, 'density');
    case 'wind':
      return range(facts.windMps, 'wind');
    case 'slope':
      return quantity(facts.slopePct, 'slope', 2);
    case 'start-rule':
      return facts.startRule && startRuleInWords(facts.startRule as StartRule, language);
    case 'rate':
      return range(facts.rateHz, 'rate');
    case 'attempts':
      return quantity(facts.attempts, 'count');
    case 'load':
      return quantity(facts.loadKg, 'mass');
  }
}
