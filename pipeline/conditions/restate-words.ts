/** Why a run is not restated, in one clause. */
import { localiseDigits } from '../digits.ts';
import { catalogue, listed, type Spoken } from '../language.ts';
import { roundToDecimals } from '../round.ts';

/** A fact that restating asks for. */
export type NeededFact =
  | 'massKg'
  | 'dragAreaM2'
  | 'rollingResistance'
  | 'drive'
  | 'temperatureK'
  | 'pressurePa'
  | 'relativeHumidity'
  | 'headwindMps'
  | 'road';

/** What stands against restating a run; numbers in the unit they are told in. */
export type NotRestatedWhy =
  | { readonly why: 'not-known'; readonly facts: readonly NeededFact[] }
  | { readonly why: 'few-readings' }
  | { readonly why: 'wind'; readonly mps: number; readonly limitMps: number }
  | { readonly why: 'density'; readonly percent: number; readonly limitPercent: number }
  | {
      readonly why: 'slope';
      readonly percent: number;
      readonly afterM: number;
      readonly limitPercent: number;
    };

export const restateWords = catalogue({
  en: {
    fact: {
      massKg: 'mass of the car as tested',
      dragAreaM2: 'drag area of the car',
      rollingResistance: 'rolling resistance of the car',
      drive: 'kind of drive of the car',
      temperatureK: 'temperature of the air',
      pressurePa: 'pressure of the air',
      relativeHumidity: 'humidity of the air',
      headwindMps: 'wind along the run',
      road: 'slope of the road',
    } satisfies Record<NeededFact, string>,
    notKnown: (facts: readonly string[]) =>
      `${listed(
        facts.map(fact => `the ${fact}`),
        'en',
      )} ${facts.length === 1 ? 'is' : 'are'} not known`,
    fewReadings: 'the log holds too few readings of the run',
    wind: (mps: string, limit: string) =>
      `a wind of ${mps} m/s along the run, beyond the ${limit} m/s this is shown to hold for`,
    density: (percent: string, limit: string) =>
      `an air density ${percent} % from the reference, beyond the ${limit} % this is shown to hold for`,
    slope: (percent: string, afterM: string, limit: string) =>
      `a slope of ${percent} % after ${afterM} m, beyond the ${limit} % this is shown to hold for`,
  },
  de: {
    fact: {
      massKg: 'die Masse des Autos im Test',
      dragAreaM2: 'die Luftwiderstandsfläche des Autos',
      rollingResistance: 'der Rollwiderstand des Autos',
      drive: 'die Antriebsart des Autos',
      temperatureK: 'die Lufttemperatur',
      pressurePa: 'der Luftdruck',
      relativeHumidity: 'die Luftfeuchte',
      headwindMps: 'der Wind längs der Fahrt',
      road: 'die Neigung der Straße',
    },
    notKnown: facts => `${listed(facts, 'de')} ${facts.length === 1 ? 'ist' : 'sind'} nicht bekannt`,
    fewReadings: 'das Log enthält zu wenige Messwerte der Fahrt',
    wind: (mps, limit) =>
      `Wind von ${mps} m/s längs der Fahrt, jenseits der ${limit} m/s, bis zu denen die Methode geprüft ist`,
    density: (percent, limit) =>
      `eine Luftdichte ${percent} % neben dem Bezugswert, jenseits der ${limit} %, bis zu denen die Methode geprüft ist`,
    slope: (percent, afterM, limit) =>
      `eine Neigung von ${percent} % nach ${afterM} m, jenseits der ${limit} %, bis zu denen die Methode geprüft ist`,
  },
});

/** The reason in one clause, without a full stop. */
export function notRestatedInWords(reason: NotRestatedWhy, spoken: Spoken): string {
  const words = restateWords(spoken);
  const print = (value: number, decimals: number): string =>
    localiseDigits(roundToDecimals(value, decimals), spoken);
  switch (reason.why) {
    case 'not-known':
      return words.notKnown(reason.facts.map(fact => words.fact[fact]));
    case 'few-readings':
      return words.fewReadings;
    case 'wind':
      return words.wind(print(reason.mps, 1), localiseDigits(String(reason.limitMps), spoken));
    case 'density':
      return words.density(print(reason.percent, 0), print(reason.limitPercent, 0));
    case 'slope':
      return words.slope(print(reason.percent, 1), print(reason.afterM, 0), print(reason.limitPercent, 0));
  }
}
