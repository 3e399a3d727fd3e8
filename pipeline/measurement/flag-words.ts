/** What each flag says of a run, from the numbers that were found. Begins in lower case: the flag's name stands before it. */

import { localiseDigits } from '../digits.ts';
import { catalogue, counted } from '../language.ts';
import { roundToDecimals } from '../round.ts';
import { type ForReaders, speedScale } from '../speed-unit.ts';
import { kmhToMps } from '../units.ts';
import type { Flag } from './measurement.ts';

/** The numbers of each flag, in the unit they are told in. */
export interface FlagFacts {
  readonly gap: { readonly missingS: number; readonly afterS: number };
  readonly spike: { readonly count: number };
  readonly 'held-values': { readonly everyS: number };
  readonly 'low-rate': { readonly rateHz: number; readonly limitHz: number };
  readonly noisy: { readonly kmh: number };
  readonly 'derived-speed': Record<never, never>;
  readonly filtered: { readonly filterS: number };
  readonly 'brief-rest': { readonly filterS: number };
  readonly irregular: { readonly ms: number };
  readonly 'poor-fix': {
    readonly satellites?: number;
    readonly dilution?: number;
    readonly statedKmh?: number;
  };
  readonly creep: { readonly m: number; readonly kmh: number };
  readonly 'rolled-back': { readonly kmh: number; readonly withinS: number };
  readonly 'warm-driveline': { readonly place: number; readonly pauseS: number; readonly limitS: number };
  readonly 'short-road': { readonly usedM: number; readonly lengthM: number };
  readonly wind: { readonly mps: number; readonly limitMps: number };
  readonly slope: { readonly risePct: number; readonly limitPct: number };
}
export type FlagCode = keyof FlagFacts;

/** Digits with this many decimals; all there are where the count is absent. Never grouped: a log is searched for them. */
type Print = (value: number, decimals?: number) => string;
/** A speed in km/h, in the readers' unit with this many decimals of it. */
type Speed = (kmh: number, decimals: number) => string;
type Sentences = {
  readonly [Code in FlagCode]: (facts: FlagFacts[Code], print: Print, speed: Speed) => string;
};

const some = (parts: readonly (string | undefined)[]): readonly string[] =>
  parts.filter(part => part !== undefined);

const words = catalogue<Sentences>({
  en: {
    gap: ({ missingS, afterS }, print) =>
      `no reading for ${print(missingS, 2)} s after ${print(afterS, 2)} s`,
    spike: ({ count }) => `${count} impossible ${counted(count, 'reading', 'readings')} left out`,
    'held-values': ({ everyS }, print) =>
      `a fresh reading only every ${print(everyS, 1)} s; rows between repeat it`,
    'low-rate': ({ rateHz, limitHz }, print) =>
      `${print(rateHz, 1)} readings a second; fewer than ${print(limitHz)}`,
    noisy: ({ kmh }, _print, speed) => `one reading scatters by ${speed(kmh, 2)} (one standard deviation)`,
    'derived-speed': () => 'speed worked out from positions, not recorded',
    filtered: ({ filterS }, print) =>
      `neighbouring readings are alike at rest, as behind a filter of ${print(filterS, 2)} s: speeds may come late by about as much; nothing is corrected`,
    'brief-rest': ({ filterS }, print) =>
      `the log stands still too briefly to show whether the receiver filters its speeds by as much as ${print(filterS, 2)} s; if it does, they come late and the uncertainty says too little`,
    irregular: ({ ms }, print) => `time stamps stray by ${print(ms, 0)} ms (one standard deviation)`,
    'poor-fix': ({ satellites, dilution, statedKmh }, print, speed) =>
      some([
        satellites === undefined ? undefined : `${print(satellites)} satellites`,
        dilution === undefined ? undefined : `horizontal dilution of precision ${print(dilution, 1)}`,
        statedKmh === undefined ? undefined : `receiver states ${speed(statedKmh, 2)}`,
      ]).join('; '),
    creep: ({ m, kmh }, print, speed) =>
      `crept ${print(m, 2)} m at ${speed(kmh, 1)} before the launch; the clock starts with the launch`,
    'rolled-back': ({ kmh, withinS }, print, speed) =>
      `moved at up to ${speed(kmh, 1)} within ${print(withinS)} s before the start, forwards or back, and rested again`,
    'warm-driveline': ({ place, pauseS, limitS }, print) =>
      `launch ${place} of the day, ${print(pauseS, 0)} s after the last; under ${print(limitS)} s the driveline may still be warm from it`,
    'short-road': ({ usedM, lengthM }, print) =>
      `the run took ${print(usedM, 0)} m of a road of ${print(lengthM, 0)} m`,
    wind: ({ mps, limitMps }, print) =>
      `mean of ${print(mps, 1)} m/s; the limit of this publication is ${print(limitMps)} m/s`,
    slope: ({ risePct, limitPct }, print) =>
      `the road ${risePct > 0 ? 'rises' : 'falls'} ${print(Math.abs(risePct), 2)} %; the limit of this publication is ${print(limitPct)} %`,
  },
  de: {
    gap: ({ missingS, afterS }, print) =>
      `${print(missingS, 2)} s lang kein Messwert, nach ${print(afterS, 2)} s`,
    spike: ({ count }) =>
      `${count} ${counted(count, 'unmöglicher Messwert', 'unmögliche Messwerte')} ausgelassen`,
    'held-values': ({ everyS }, print) =>
      `nur alle ${print(everyS, 1)} s ein neuer Messwert; die Zeilen dazwischen wiederholen ihn`,
    'low-rate': ({ rateHz, limitHz }, print) =>
      `${print(rateHz, 1)} Messwerte je Sekunde; weniger als ${print(limitHz)}`,
    noisy: ({ kmh }, _print, speed) =>
      `ein einzelner Messwert streut um ${speed(kmh, 2)} (eine Standardabweichung)`,
    'derived-speed': () => 'Geschwindigkeit aus Positionen errechnet, nicht aufgezeichnet',
    filtered: ({ filterS }, print) =>
      `benachbarte Messwerte gleichen sich im Stand wie hinter einem Filter von ${print(filterS, 2)} s: Geschwindigkeiten kommen womöglich um etwa so viel zu spät; korrigiert wird nichts`,
    'brief-rest': ({ filterS }, print) =>
      `das Protokoll steht zu kurz, um zu zeigen, ob der Empfänger seine Geschwindigkeiten um bis zu ${print(filterS, 2)} s filtert; wenn ja, kommen sie zu spät, und die Unsicherheit sagt zu wenig`,
    irregular: ({ ms }, print) => `Zeitstempel schwanken um ${print(ms, 0)} ms (eine Standardabweichung)`,
    'poor-fix': ({ satellites, dilution, statedKmh }, print, speed) =>
      some([
        satellites === undefined
          ? undefined
          : `${print(satellites)} ${counted(satellites, 'Satellit', 'Satelliten')}`,
        dilution === undefined ? undefined : `horizontale Genauigkeitsminderung (HDOP) ${print(dilution, 1)}`,
        statedKmh === undefined ? undefined : `Empfänger gibt ${speed(statedKmh, 2)} an`,
      ]).join('; '),
    creep: ({ m, kmh }, print, speed) =>
      `vor dem Start ${print(m, 2)} m mit ${speed(kmh, 1)} gekrochen; die Zeitnahme beginnt mit dem Start`,
    'rolled-back': ({ kmh, withinS }, print, speed) =>
      `in den letzten ${print(withinS)} s vor dem Start mit bis zu ${speed(kmh, 1)} vor- oder zurückgerollt und wieder zum Stehen gekommen`,
    'warm-driveline': ({ place, pauseS, limitS }, print) =>
      `${place}. Start des Tages, ${print(pauseS, 0)} s nach dem vorigen; unter ${print(limitS)} s kann der Antriebsstrang noch warm davon sein`,
    'short-road': ({ usedM, lengthM }, print) =>
      `die Fahrt brauchte ${print(usedM, 0)} m einer Strecke von ${print(lengthM, 0)} m`,
    wind: ({ mps, limitMps }, print) =>
      `im Mittel ${print(mps, 1)} m/s; die Grenze dieser Publikation liegt bei ${print(limitMps)} m/s`,
    slope: ({ risePct, limitPct }, print) =>
      `die Straße ${risePct > 0 ? 'steigt' : 'fällt'} um ${print(Math.abs(risePct), 2)} %; die Grenze dieser Publikation liegt bei ${print(limitPct)} %`,
  },
});

function sentence<Code extends FlagCode>(code: Code, facts: FlagFacts[Code], spoken: ForReaders): string {
  const print: Print = (value, decimals) =>
    localiseDigits(decimals === undefined ? String(value) : roundToDecimals(value, decimals), spoken, {
      grouped: false,
    });
  const { symbol, fromMps } = speedScale(spoken);
  const speed: Speed = (kmh, decimals) => `${print(fromMps(kmhToMps(kmh)), decimals)} ${symbol}`;
  return words(spoken)[code](facts, print, speed);
}

/** A flag with its numbers and its English text. */
export const flag = <Code extends FlagCode>(code: Code, facts: FlagFacts[Code]): Flag => ({
  code,
  text: sentence(code, facts, 'en'),
  facts,
});

/** What a flag says to readers; one without numbers of its own keeps its English text. */
export const flagText = ({ code, text, facts }: Flag, spoken: ForReaders): string =>
  facts === undefined ? text : sentence(code as FlagCode, facts as never, spoken);
