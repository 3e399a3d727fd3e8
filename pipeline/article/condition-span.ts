/** Air, wind and surface of several attempts as one phrase: from the least to the most of the day. */
import { catalogue, type Spoken } from '../language.ts';
import type { Attempt, AttemptConditions } from '../result/result.ts';
import { surfacesInWords } from '../result/words/conditions.ts';
import { capital, printQuantity, type QuantityKind } from '../result/words.ts';

/** As written in `:condition{of=…}`. */
export const CONDITIONS = [
  'temperature',
  'pressure',
  'humidity',
  'density',
  'wind',
  'headwind',
  'surface',
] as const;
export type ConditionWord = (typeof CONDITIONS)[number];

interface Quantity {
  readonly kind: QuantityKind;
  valueOf(conditions: AttemptConditions): number | undefined;
}

const QUANTITY: Readonly<Record<Exclude<ConditionWord, 'surface'>, Quantity>> = {
  temperature: { kind: 'temperature', valueOf: c => c.temperatureK },
  pressure: { kind: 'pressure', valueOf: c => c.pressurePa },
  humidity: { kind: 'humidity', valueOf: c => c.relativeHumidity },
  density: { kind: 'density', valueOf: c => c.densityKgm3 },
  wind: { kind: 'wind', valueOf: c => c.windMps },
  headwind: { kind: 'wind', valueOf: c => c.headwindMps },
};

const WORDS = catalogue({
  en: {
    /** Where a dash would stand beside a minus sign. */
    range: (least: string, most: string) => `${least} to ${most}`,
    inSentence: {
      temperature: 'temperature',
      pressure: 'pressure',
      humidity: 'humidity',
      density: 'density',
      wind: 'wind',
      headwind: 'headwind',
      surface: 'surface',
    } satisfies Record<ConditionWord, string>,
  },
  de: {
    range: (least, most) => `${least} bis ${most}`,
    inSentence: {
      temperature: 'Temperatur',
      pressure: 'Luftdruck',
      humidity: 'Luftfeuchte',
      density: 'Luftdichte',
      wind: 'Wind',
      headwind: 'Gegenwind',
      surface: 'Fahrbahn',
    },
  },
});

/** As a head. */
export const conditionHeading = (of: ConditionWord, spoken: Spoken): string =>
  capital(WORDS(spoken).inSentence[of]);

const NO_BREAK_SPACE = '\u00a0';

/** `17–19 °C`, `−1.6 to 1.6 m/s`, `dry and damp`; undefined where no attempt has a reading of it. */
export function conditionSpan(
  attempts: readonly Attempt[],
  of: ConditionWord,
  language: string,
): string | undefined {
  if (of === 'surface') {
    const surfaces = new Set(attempts.flatMap(({ conditions }) => conditions.surface ?? []));
    return surfaces.size === 0 ? undefined : surfacesInWords([...surfaces], language);
  }
  const quantity = QUANTITY[of];
  const { kind } = quantity;
  const values = attempts.flatMap(({ conditions }) => quantity.valueOf(conditions) ?? []);
  if (values.length === 0) return undefined;
  const least = printQuantity(Math.min(...values), kind, undefined, language);
  const most = printQuantity(Math.max(...values), kind, undefined, language);
  if (least === most) return least;
  const digits = least.split(NO_BREAK_SPACE)[0] ?? least;
  // A dash beside a minus sign reads badly.
  return values.some(value => value < 0) || digits.startsWith('\u2212')
    ? WORDS(language).range(digits, most)
    : `${digits}–${most}`;
}

/** All that is known of the air, wind and surface of these attempts, as one sentence; empty where nothing is. */
export function conditionsSentence(attempts: readonly Attempt[], language: string): string {
  const said = CONDITIONS.flatMap(of => {
    if (of === 'headwind') return [];
    const span = conditionSpan(attempts, of, language);
    return span === undefined ? [] : [`${WORDS(language).inSentence[of]} ${span}`];
  });
  if (said.length === 0) return '';
  const sentence = said.join(', ');
  return `${capital(sentence)}.`;
}
