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
const MINUTES = /^(\d{1,3}):(\d{2}(?:[.,]\d+)?)$/;
const DIGITS = /^(\d{2})(\d{2})(\d{2}(?:[.,]\d+)?)$/;

const toNumber = (text: string): number => Number(text.replace(/[,:]/, '.'));

/**
 * An ISO 8601 date and time (`T` or a blank between them; `/` or `.` for the hyphens), or `HH:MM:SS.fff`
 * (also with AM or PM, or after a date in another order, which is then left aside), or `MM:SS.fff`.
 * Undefined where the text is none of these or names no real time.
 */
export function readClock(text: string): ClockReading | undefined {
  const written = text.trim();
  const iso = ISO.exec(written);
  if (iso) {
    const day = dayStartS(Number(iso[1]), Number(iso[2]), Number(iso[3]));
    const inDay = timeOfDayS(Number(iso[4]), Number(iso[5]), toNumber(iso[6] ?? '0'));
    if (day === undefined || inDay === undefined) return undefined;
    const zone = iso[7];
    return { seconds: day + inDay - zoneS(zone), kind: zone === undefined ? 'local' : 'utc' };
  }
  const day = TIME_OF_DAY.exec(written);
  if (day) {
    const half = day[4]?.toUpperCase();
    const hour = half === undefined ? Number(day[1]) : (Number(day[1]) % 12) + (half === 'PM' ? 12 : 0);
    const seconds = timeOfDayS(hour, Number(day[2]), toNumber(day[3]!));
    return seconds === undefined ? undefined : { seconds, kind: 'time-of-day' };
  }
  const minutes = MINUTES.exec(written);
  if (minutes) {
    const seconds = timeOfDayS(0, 0, toNumber(minutes[2]!));
    if (seconds === undefined) return undefined;
    return { seconds: Number(minutes[1]) * 60 + seconds, kind: 'elapsed' };
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
  // A second of 60 is a leap second; hours above 24 are an elapsed time.
  if (hour > 99 || minute > 59 || !(second < 61)) return undefined;
  return hour * 3600 + minute * 60 + second;
}

function zoneS(zone: string | undefined): number {
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
