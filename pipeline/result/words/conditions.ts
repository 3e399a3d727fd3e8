/** Conditions of the day and whether those of two tests were alike. */
import type { ComparedCondition, Likeness } from '../../conditions/comparability.ts';
import { catalogue, listed, type Spoken } from '../../language.ts';

export type Surface = 'dry' | 'damp' | 'wet';

export const conditionsWords = catalogue({
  en: {
    surface: { dry: 'dry', damp: 'damp', wet: 'wet' } satisfies Record<Surface, string>,
    /** As a head. */
    condition: {
      surface: 'Surface',
      temperature: 'Temperature',
      density: 'Air density',
      wind: 'Wind',
      slope: 'Slope',
      'start-rule': 'Start of the clock',
      rate: 'Readings a second',
      attempts: 'Number of attempts',
      load: 'Load aboard',
    } satisfies Record<ComparedCondition, string>,
    inSentence: {
      surface: 'surface',
      temperature: 'temperature',
      density: 'air density',
      wind: 'wind',
      slope: 'slope',
      'start-rule': 'start of the clock',
      rate: 'readings a second',
      attempts: 'number of attempts',
      load: 'load aboard',
    } satisfies Record<ComparedCondition, string>,
    likeness: {
      alike: 'alike',
      'not-alike': 'not alike',
      'not-known': 'not known',
    } satisfies Record<Likeness, string>,
    against: (a: string, b: string) => `${a} against ${b}`,
    notKnown: 'not known',
    /** Of all conditions together, within a sentence. */
    allNotAlike: (which: readonly string[]) => `not alike: ${listed(which, 'en')}`,
    allAlike: 'alike',
    nothingKnown: 'nothing known of either',
    alikeAsKnown: (unknown: readonly string[]) =>
      `alike as far as known; not known: ${listed(unknown, 'en')}`,
    notRanked: (why: string) => `not ranked: ${why}`,
    /** A test by its car and day. */
    carOn: (car: string, date: string) => `${car} on ${date}`,
  },
  de: {
    surface: { dry: 'trocken', damp: 'feucht', wet: 'nass' },
    condition: {
      surface: 'Fahrbahn',
      temperature: 'Temperatur',
      density: 'Luftdichte',
      wind: 'Wind',
      slope: 'Neigung',
      'start-rule': 'Beginn der Zeitnahme',
      rate: 'Messwerte je Sekunde',
      attempts: 'Zahl der Versuche',
      load: 'Zuladung',
    },
    inSentence: {
      surface: 'Fahrbahn',
      temperature: 'Temperatur',
      density: 'Luftdichte',
      wind: 'Wind',
      slope: 'Neigung',
      'start-rule': 'Beginn der Zeitnahme',
      rate: 'Messwerte je Sekunde',
      attempts: 'Zahl der Versuche',
      load: 'Zuladung',
    },
    likeness: { alike: 'vergleichbar', 'not-alike': 'nicht vergleichbar', 'not-known': 'nicht bekannt' },
    against: (a, b) => `${a} gegenüber ${b}`,
    notKnown: 'nicht bekannt',
    allNotAlike: which => `nicht vergleichbar: ${listed(which, 'de')}`,
    allAlike: 'vergleichbar',
    nothingKnown: 'von beiden nichts bekannt',
    alikeAsKnown: unknown => `soweit bekannt vergleichbar; nicht bekannt: ${listed(unknown, 'de')}`,
    notRanked: why => `ohne Rangfolge: ${why}`,
    carOn: (car, date) => `${car} am ${date}`,
  },
});

/** A state of the road as a reader reads it; a word that is none stays as it is. */
export function surfaceInWords(surface: string, spoken: Spoken): string {
  const { surface: words } = conditionsWords(spoken);
  return Object.hasOwn(words, surface) ? words[surface as Surface] : surface;
}

/** `dry`, or `dry and damp`. */
export const surfacesInWords = (surfaces: readonly string[], spoken: Spoken): string =>
  listed(
    surfaces.map(surface => surfaceInWords(surface, spoken)),
    spoken,
  );
