/** Units that are words, as constants carry them; symbols are the same in every language. */
import { languageOf, type Spoken, tagOf } from '../../language.ts';

const UNITS_DE: Readonly<Record<string, string>> = {
  readings: 'Messwerte',
  intervals: 'Abstände',
  'usual ones': 'übliche',
  'readings a second': 'Messwerte je Sekunde',
  satellites: 'Satelliten',
  attempts: 'Versuche',
  'attempts of a method': 'Versuche je Verfahren',
  'of that speed': 'dieser Geschwindigkeit',
  '% of the road': '% der Strecke',
  times: 'Mal',
};

/** A unit as a reader reads it; one that is no word stays as it is. */
export const unitInWords = (unit: string, spoken: Spoken): string =>
  languageOf(tagOf(spoken)) === 'de' ? (UNITS_DE[unit] ?? unit) : unit;
