/** One NMEA 0183 sentence: its checksum, its fields, and the numbers in them. */
import { KNOT_MPS } from '../units.ts';
import { dayStartS, readClockDigits } from './clock-text.ts';
import { decimalsOf } from './step.ts';

/** XOR of all characters between `$` and `*`, two upper-case hexadecimal digits (NMEA 0183). */
export function checksumOf(body: string): string {
  let sum = 0;
  for (let i = 0; i < body.length; i++) sum ^= body.charCodeAt(i);
  return (sum & 0xff).toString(16).toUpperCase().padStart(2, '0');
}

export type CheckedSentence =
  | { readonly state: 'good'; readonly fields: readonly string[] }
  /** `no-checksum` also covers a sentence cut off before its asterisk. */
  | { readonly state: 'bad-checksum' | 'no-checksum' | 'noise' };

/** Splits a sentence that starts with `$`; the first field is talker and type, such as `GNRMC`. */
export function readSentence(text: string): CheckedSentence {
  const star = text.indexOf('*');
  if (star < 0) return { state: USED.test(text) ? 'no-checksum' : 'noise' };
  if (!/^\$[A-Z]/.test(text)) return { state: 'noise' };
  const body = text.slice(1, star);
  if (text.slice(star + 1, star + 3).toUpperCase() !== checksumOf(body)) return { state: 'bad-checksum' };
  // Most sentences of a log are of other types: splitting them is most of the work.
  return { state: 'good', fields: USED.test(text) ? body.split(',') : [] };
}

const USED = /^\$[A-Z]{2}(RMC|VTG|GGA),/;

/** A speed with the step of its field, both m/s. */
export interface WrittenSpeed {
  readonly mps: number;
  readonly stepMps: number;
}

export interface Rmc {
  readonly type: 'RMC';
  readonly timeOfDayS: number | undefined;
  /** Start of the day, seconds since 1970. */
  readonly dayS: number | undefined;
  /** Status A, and no mode indicator that says the data are not valid. */
  readonly valid: boolean;
  readonly speed: WrittenSpeed | undefined;
  readonly courseDeg: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

export interface Vtg {
  readonly type: 'VTG';
  readonly knots: WrittenSpeed | undefined;
  readonly kmh: WrittenSpeed | undefined;
  readonly courseDeg: number;
}

export interface Gga {
  readonly type: 'GGA';
  readonly timeOfDayS: number | undefined;
  readonly valid: boolean;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  readonly altitudeM: number;
  readonly satellites: number;
  readonly hdop: number;
}

/** Values of a checked sentence, of any talker; undefined for other types. Missing numbers are NaN. */
export function readFields(fields: readonly string[]): Rmc | Vtg | Gga | undefined {
  const field = (index: number): string => fields[index] ?? '';
  if (field(0).length !== 5) return undefined;
  switch (field(0).slice(2)) {
    case 'RMC':
      return {
        type: 'RMC',
        timeOfDayS: readClockDigits(field(1)),
        dayS: readDate(field(9)),
        valid: field(2) === 'A' && field(12) !== 'N',
        speed: readSpeed(field(7), KNOT_MPS),
        courseDeg: readNumber(field(8)),
        latitudeDeg: readAngle(field(3), field(4), 'S'),
        longitudeDeg: readAngle(field(5), field(6), 'W'),
      };
    case 'VTG': {
      // Before version 2 of the standard the fields had no letters between them.
      const lettered = /^[TMNK]?$/.test(field(2)) && (field(6) === 'N' || field(8) === 'K');
      return {
        type: 'VTG',
        knots: field(9) === 'N' ? undefined : readSpeed(field(lettered ? 5 : 3), KNOT_MPS),
        kmh: field(9) === 'N' ? undefined : readSpeed(field(lettered ? 7 : 4), 1 / 3.6),
        courseDeg: readNumber(field(1)),
      };
    }
    case 'GGA':
      return {
        type: 'GGA',
        timeOfDayS: readClockDigits(field(1)),
        valid: /^[1-9]$/.test(field(6)),
        latitudeDeg: readAngle(field(2), field(3), 'S'),
        longitudeDeg: readAngle(field(4), field(5), 'W'),
        altitudeM: readNumber(field(9)),
        satellites: readNumber(field(7)),
        hdop: readNumber(field(8)),
      };
    default:
      return undefined;
  }
}

function readNumber(text: string): number {
  return /^[-+]?\d+\.?\d*$/.test(text) ? Number(text) : Number.NaN;
}

function readSpeed(text: string, factor: number): WrittenSpeed | undefined {
  const value = readNumber(text);
  if (Number.isNaN(value)) return undefined;
  return { mps: Math.abs(value) * factor, stepMps: 10 ** -decimalsOf(text) * factor };
}

/** `ddmm.mmmm` or `dddmm.mmmm` and its hemisphere as degrees; NaN where it is none. */
function readAngle(text: string, hemisphere: string, negative: 'S' | 'W'): number {
  const found = /^(\d{1,3})(\d{2}(?:\.\d*)?)$/.exec(text);
  if (!found || hemisphere === '') return Number.NaN;
  const degrees = Number(found[1]) + Number(found[2]) / 60;
  return hemisphere === negative ? -degrees : degrees;
}

/** `ddmmyy`; years 80 to 99 are of the last century, since satellite time begins in 1980. */
function readDate(text: string): number | undefined {
  const found = /^(\d{2})(\d{2})(\d{2})$/.exec(text);
  if (!found) return undefined;
  const year = Number(found[3]);
  return dayStartS(year + (year >= 80 ? 1900 : 2000), Number(found[2]), Number(found[1]));
}
