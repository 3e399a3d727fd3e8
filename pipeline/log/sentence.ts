/** One NMEA 0183 sentence: its checksum, its fields, and the numbers in them. */
import { KNOT_MPS } from '../units.ts';
import { EncodedText } from './bytes.ts';
import { dayStartS, readClockDigits, timeOfDayS } from './clock-text.ts';
import { decimalAt, finiteNumber, type Seen } from './decimal.ts';
import { decimalsOf } from './step.ts';

/** XOR of all characters between `$` and `*`, two upper-case hexadecimal digits (NMEA 0183). */
export function checksumOf(body: string): string {
  let sum = 0;
  for (let i = 0; i < body.length; i++) sum ^= body.charCodeAt(i);
  return (sum & 0xff).toString(16).toUpperCase().padStart(2, '0');
}

const DOLLAR = 36;
const STAR = 42;
const COMMA = 44;
const NEWLINE = 10;
const ZERO = 48;

/** `no-checksum` also covers a sentence cut off before its asterisk; `noise` is what only looks like a sentence. */
export type SentenceState = 'good' | 'bad-checksum' | 'no-checksum' | 'noise';

/** Fields looked at; what stands behind them is of no use here. */
const MOST_FIELDS = 32;

/**
 * One sentence where it stands in a text: its fields are told by their places, because most sentences of a log are
 * of other types, and cutting all fields out would be most of the work. The first is talker and type, as `GNRMC`.
 */
export class Sentence {
  /** How many fields the sentence that was read last has, {@link MOST_FIELDS} at most. */
  count = 0;
  /** Where the next sentence of the line, or the line's end, begins. */
  next = 0;
  private text = NOTHING;
  private bytes = NOTHING.bytes;
  private readonly starts = new Uint32Array(MOST_FIELDS);
  private readonly ends = new Uint32Array(MOST_FIELDS);
  private readonly seen: Seen = { mark: 0, decimals: 0 };
  private dayDigits = Number.NaN;
  private dayValueS: number | undefined;

  /** Reads from the `$` at `dollar` to the next one, or to the end of its line. */
  read(text: EncodedText, dollar: number): SentenceState {
    const { bytes } = text;
    this.text = text;
    this.bytes = bytes;
    let sum = 0;
    let count = 0;
    let fieldStart = dollar + 1;
    let star = -1;
    let i = dollar + 1;
    for (; i < bytes.length; i++) {
      const code = bytes[i]!;
      // Letters, digits and points lie above the comma, and are nearly all there is.
      if (code > COMMA) {
        sum ^= code;
        continue;
      }
      if (code === DOLLAR || code === NEWLINE) break;
      if ((code === COMMA || code === STAR) && count < MOST_FIELDS) {
        this.starts[count] = fieldStart;
        this.ends[count++] = i;
        fieldStart = i + 1;
      }
      if (code === STAR) {
        star = i;
        break;
      }
      sum ^= code;
    }
    while (i < bytes.length && bytes[i] !== DOLLAR && bytes[i] !== NEWLINE) i++;
    this.next = i;
    this.count = count;
    if (star < 0) return this.type === undefined ? 'noise' : 'no-checksum';
    if (!isCapital(bytes[dollar + 1]!)) return 'noise';
    const stated = star + 2 < i ? 16 * hexDigit(bytes[star + 1]!) + hexDigit(bytes[star + 2]!) : -1;
    return stated === (sum & 0xff) ? 'good' : 'bad-checksum';
  }

  /** `RMC`, `VTG` or `GGA`; undefined for the others. */
  get type(): SentenceType | undefined {
    const { bytes } = this;
    const start = this.starts[0]!;
    // A sentence without any field behind its type says nothing.
    if (this.count === 0 || this.ends[0]! - start !== 5 || bytes[start + 5] !== COMMA) return undefined;
    if (!isCapital(bytes[start]!) || !isCapital(bytes[start + 1]!)) return undefined;
    return TYPES.get((bytes[start + 2]! << 16) | (bytes[start + 3]! << 8) | bytes[start + 4]!);
  }

  /** Whether a field is this one character. */
  is(index: number, character: string): boolean {
    if (index >= this.count) return false;
    const start = this.starts[index]!;
    return this.ends[index] === start + 1 && this.bytes[start] === character.charCodeAt(0);
  }

  /** A field of one digit; NaN for anything else. */
  digit(index: number): number {
    if (index >= this.count || this.ends[index] !== this.starts[index]! + 1) return Number.NaN;
    return isDigit(this.bytes[this.starts[index]!]!) ? this.bytes[this.starts[index]!]! - ZERO : Number.NaN;
  }

  field(index: number): string {
    return index < this.count ? this.text.slice(this.starts[index]!, this.ends[index]!) : '';
  }

  /** Digits with a sign, a decimal point behind them, or neither; NaN for anything else, blanks included. */
  number(index: number): number {
    return index < this.count ? this.numberBetween(this.starts[index]!, this.ends[index]!) : Number.NaN;
  }

  speed(index: number, factor: number): WrittenSpeed | undefined {
    const value = this.number(index);
    if (Number.isNaN(value)) return undefined;
    return { mps: Math.abs(value) * factor, stepMps: 10 ** -this.seen.decimals * factor };
  }

  /** `ddmm.mmmm` or `dddmm.mmmm` and its hemisphere in the next field as degrees; NaN where it is none. */
  angle(index: number, negative: 'S' | 'W'): number {
    if (index + 1 >= this.count) return Number.NaN;
    const [start, end] = [this.starts[index]!, this.ends[index]!];
    let whole = start;
    while (whole < end && isDigit(this.bytes[whole]!)) whole++;
    const digits = whole - start;
    if (digits < 3 || digits > 5 || this.starts[index + 1] === this.ends[index + 1]) return Number.NaN;
    const degrees = this.numberBetween(start, whole - 2) + this.numberBetween(whole - 2, end) / 60;
    return this.is(index + 1, negative) ? -degrees : degrees;
  }

  /** `ddmmyy` as the start of the day, seconds since 1970; undefined where there is no such day. */
  dayS(index: number): number | undefined {
    const digits =
      index < this.count ? this.numberBetween(this.starts[index]!, this.ends[index]!) : Number.NaN;
    // The same day stands in every sentence of a log.
    if (digits !== this.dayDigits) {
      this.dayDigits = digits;
      this.dayValueS = readDate(this.field(index));
    }
    return this.dayValueS;
  }

  /** `hhmmss` or `hhmmss.sss` as seconds since midnight; undefined where it is no time. */
  timeOfDayS(index: number): number | undefined {
    if (index >= this.count) return undefined;
    const { bytes } = this;
    const start = this.starts[index]!;
    const end = this.ends[index]!;
    // Anything but six digits and a point is left to the patient reading.
    let digits = 0;
    while (start + digits < end && isDigit(bytes[start + digits]!)) digits++;
    if (digits !== 6) return readClockDigits(this.field(index));
    const hour = 10 * bytes[start]! + bytes[start + 1]! - 11 * ZERO;
    const minute = 10 * bytes[start + 2]! + bytes[start + 3]! - 11 * ZERO;
    const second = this.numberBetween(start + 4, end);
    return Number.isNaN(second) ? readClockDigits(this.field(index)) : timeOfDayS(hour, minute, second);
  }

  private numberBetween(start: number, end: number): number {
    const first = this.bytes[start]!;
    const signed = first === 43 || first === 45;
    if (start >= end || !isDigit(signed ? this.bytes[start + 1]! : first)) return Number.NaN;
    const value = decimalAt(this.bytes, start, end, this.seen);
    if (!Number.isNaN(value)) return value;
    const text = this.text.slice(start, end);
    this.seen.decimals = decimalsOf(text);
    return /^[-+]?\d+\.?\d*$/.test(text) ? finiteNumber(text) : Number.NaN;
  }
}

type SentenceType = 'RMC' | 'GGA' | 'VTG';
const TYPES: ReadonlyMap<number, SentenceType> = new Map(
  (['RMC', 'GGA', 'VTG'] as const).map(type => [
    (type.charCodeAt(0) << 16) | (type.charCodeAt(1) << 8) | type.charCodeAt(2),
    type,
  ]),
);
const NOTHING = new EncodedText(new Uint8Array(), 'windows-1252');
const isDigit = (code: number): boolean => code >= ZERO && code < ZERO + 10;
const isCapital = (code: number): boolean => code >= 65 && code <= 90;
/** Value of a hexadecimal digit in either case; large and negative where it is none, so that no sum matches. */
const hexDigit = (code: number): number => {
  if (isDigit(code)) return code - ZERO;
  const letter = (code | 32) - 97;
  return letter >= 0 && letter < 6 ? letter + 10 : -1e6;
};

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
export function readFields(sentence: Sentence): Rmc | Vtg | Gga | undefined {
  const { type } = sentence;
  switch (type) {
    case 'RMC':
      return {
        type,
        timeOfDayS: sentence.timeOfDayS(1),
        dayS: sentence.dayS(9),
        valid: sentence.is(2, 'A') && !sentence.is(12, 'N'),
        speed: sentence.speed(7, KNOT_MPS),
        courseDeg: sentence.number(8),
        latitudeDeg: sentence.angle(3, 'S'),
        longitudeDeg: sentence.angle(5, 'W'),
      };
    case 'VTG': {
      // Before version 2 of the standard the fields had no letters between them.
      const lettered = /^[TMNK]?$/.test(sentence.field(2)) && (sentence.is(6, 'N') || sentence.is(8, 'K'));
      const valid = !sentence.is(9, 'N');
      return {
        type,
        knots: valid ? sentence.speed(lettered ? 5 : 3, KNOT_MPS) : undefined,
        kmh: valid ? sentence.speed(lettered ? 7 : 4, 1 / 3.6) : undefined,
        courseDeg: sentence.number(1),
      };
    }
    case 'GGA':
      return {
        type,
        timeOfDayS: sentence.timeOfDayS(1),
        valid: sentence.digit(6) >= 1,
        latitudeDeg: sentence.angle(2, 'S'),
        longitudeDeg: sentence.angle(4, 'W'),
        altitudeM: sentence.number(9),
        satellites: sentence.number(7),
        hdop: sentence.number(8),
      };
    default:
      return undefined;
  }
}

/** `ddmmyy`; years 80 to 99 are of the last century, since satellite time begins in 1980. */
function readDate(text: string): number | undefined {
  const found = /^(\d{2})(\d{2})(\d{2})$/.exec(text);
  if (!found) return undefined;
  const year = Number(found[3]);
  return dayStartS(year + (year >= 80 ? 1900 : 2000), Number(found[2]), Number(found[1]));
}
