/** Times written as text: ISO 8601 instants, times of day, and the run-together digits of NMEA. */

export const DAY_S = 86_400;

export interface ClockReading {
  /** Seconds since 1970-01-01 (with a date) or since midnight (without). */
  readonly seconds: number;
  /** `utc`: date and zone are known. `local`: a date without a zone. `time-of-day`: neither. `elapsed`: no clock. */
  readonly kind: 'utc' | 'local' | 'time-of-day' | 'elapsed';
}

const ISO =
  /^(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})[T ]\s*(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?\s*(Z|UTC|[+-]\d{2}(?::?\d{2})?)?$/i;
const TIME_OF_DAY = /^(?:\S*\d[./-]\d\S*\s+)?(\d{1,2}):(\d{2}):(\d{2}(?:[.,:]\d+)?)\s*(AM|PM)?$/i;
/** What may stand behind a time of day. */
const HALF_DAY = /\s*(?:AM|PM)?$/i;
const MINUTES = /^(\d{1,3}):(\d{2}(?:[.,]\d+)?)$/;
const DIGITS = /^(\d{2})(\d{2})(\d{2}(?:[.,]\d+)?)$/;

const toNumber = (text: string): number => Number(text.replace(/[,:]/, '.'));

/** A clock taken apart: its reading is `beforeS + (minutesS + second) - zoneS`. */
export interface ClockParts {
  readonly kind: ClockReading['kind'];
  /** Start of the day, or the minutes of a count, s. */
  readonly beforeS: number;
  /** Hours and minutes, s. */
  readonly minutesS: number;
  readonly zoneS: number;
  readonly second: number;
  /** Where the seconds stand in the text; undefined where it has none. */
  readonly secondAt: readonly [start: number, end: number] | undefined;
}

/**
 * An ISO 8601 date and time (`T` or a blank between them; `/` or `.` for the hyphens), or `HH:MM:SS.fff`
 * (also with AM or PM, or after a date in another order, which is then left aside), or `MM:SS.fff`.
 * Undefined where the text is none of these or names no real time.
 */
export function readClock(text: string): ClockReading | undefined {
  const parts = clockParts(text);
  return parts && { seconds: partsToS(parts, parts.second), kind: parts.kind };
}

/** With other seconds than its own, always worked out in this order, so that it is the same to the last bit. */
export const partsToS = ({ beforeS, minutesS, zoneS }: ClockParts, second: number): number =>
  beforeS + (minutesS + second) - zoneS;

/** What {@link readClock} reads, in its parts. */
export function clockParts(text: string): ClockParts | undefined {
  const written = text.trim();
  const offset = text.length - text.trimStart().length;
  const iso = ISO.exec(written);
  if (iso) {
    const beforeS = dayStartS(Number(iso[1]), Number(iso[2]), Number(iso[3]));
    const minutesS = minutesOfDayS(Number(iso[4]), Number(iso[5]));
    const second = secondOf(iso[6] ?? '0');
    if (beforeS === undefined || minutesS === undefined || second === undefined) return undefined;
    const zone = iso[7];
    // The first colon stands behind the hour.
    const at = offset + written.indexOf(':') + ':00:'.length;
    return {
      kind: zone === undefined ? 'local' : 'utc',
      beforeS,
      minutesS,
      zoneS: zoneOffsetS(zone),
      second,
      secondAt: iso[6] === undefined ? undefined : [at, at + iso[6].length],
    };
  }
  const day = TIME_OF_DAY.exec(written);
  if (day) {
    const half = day[4]?.toUpperCase();
    const hour = half === undefined ? Number(day[1]) : (Number(day[1]) % 12) + (half === 'PM' ? 12 : 0);
    const minutesS = minutesOfDayS(hour, Number(day[2]));
    const second = secondOf(day[3]!);
    if (minutesS === undefined || second === undefined) return undefined;
    const end = offset + HALF_DAY.exec(written)!.index;
    const secondAt = [end - day[3]!.length, end] as const;
    return { kind: 'time-of-day', beforeS: 0, minutesS, zoneS: 0, second, secondAt };
  }
  const minutes = MINUTES.exec(written);
  if (minutes) {
    const second = secondOf(minutes[2]!);
    if (second === undefined) return undefined;
    const end = offset + written.length;
    return {
      kind: 'elapsed',
      beforeS: Number(minutes[1]) * 60,
      minutesS: 0,
      zoneS: 0,
      second,
      secondAt: [end - minutes[2]!.length, end],
    };
  }
  return undefined;
}

/** `hhmmss` or `hhmmss.sss` as seconds since midnight; undefined where it is no time. */
export function readClockDigits(text: string): number | undefined {
  const found = DIGITS.exec(text.trim());
  if (!found) return undefined;
  return timeOfDayS(Number(found[1]), Number(found[2]), toNumber(found[3]!));
}

/** Start of a day in seconds since 1970-01-01; undefined where there is no such day. */
export function dayStartS(year: number, month: number, day: number): number | undefined {
  const start = new Date(Date.UTC(year, month - 1, day));
  const real = start.getUTCMonth() === month - 1 && start.getUTCDate() === day;
  return real ? start.getTime() / 1000 : undefined;
}

/** Seconds since midnight; undefined where there is no such time. */
export function timeOfDayS(hour: number, minute: number, second: number): number | undefined {
  const minutesS = minutesOfDayS(hour, minute);
  return minutesS === undefined || !isSecond(second) ? undefined : minutesS + second;
}

/** Hours above 24 are an elapsed time. */
const minutesOfDayS = (hour: number, minute: number): number | undefined =>
  hour > 99 || minute > 59 ? undefined : hour * 3600 + minute * 60;

/** A second of 60 is a leap second. */
export const isSecond = (second: number): boolean => second < 61;

function secondOf(text: string): number | undefined {
  const second = toNumber(text);
  return isSecond(second) ? second : undefined;
}

function zoneOffsetS(zone: string | undefined): number {
  if (zone === undefined || /^(z|utc)$/i.test(zone)) return 0;
  const sign = zone.startsWith('-') ? -1 : 1;
  const digits = zone.slice(1).replace(':', '');
  return sign * (Number(digits.slice(0, 2)) * 3600 + Number(digits.slice(2) || '0') * 60);
}

/**
 * Adds days to times of day that run past midnight: a fall of more than half a day is a new day,
 * a smaller one is left as it is for the check of order.
 */
export class Midnight {
  private days = 0;
  private last = Number.NaN;

  next(secondsOfDay: number): number {
    if (secondsOfDay < this.last - DAY_S / 2) this.days++;
    else if (secondsOfDay > this.last + DAY_S / 2 && this.days > 0) this.days--;
    this.last = secondsOfDay;
    return secondsOfDay + this.days * DAY_S;
  }
}
