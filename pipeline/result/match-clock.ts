/** The clock of a log, put on the clock at the road. */
import { DAY_S } from '../content/calendar.ts';
import type { Log } from '../log/log.ts';
import { clockDifferenceS, MATCH_TOLERANCE_S } from './match.ts';

/** The day of a test at the road. */
export interface RoadDay {
  /** Midnight of the test's date, as if the road were in UTC, ms. */
  readonly dateMs: number;
  /** How far the clock at the road is ahead of UTC, s. */
  readonly zoneS: number;
  /** The readings of the conditions, seconds since midnight of the first one's day, in order. */
  readonly readingsS: readonly number[];
}

export interface LogStart {
  /** First sample of the log, seconds since midnight of the test's day at the road; absent without a clock. */
  readonly startsS?: number;
  /** Days from the test's date to the log's, where they are so far apart that only the hour was used. */
  readonly daysOff?: number;
  /** `starts_at` was written but differs from the log's own clock, which was used. */
  readonly startsAtUnused?: true;
}

/**
 * When a log begins. A log that carries an instant is believed. NMEA sentences without a date carry hours of
 * UTC (NMEA 0183, field "UTC of position"); any other hours without a zone are taken as the clock at the
 * road, unless `startsAtS` says otherwise. Hours without a date fall on the day the readings make likely.
 */
export function logToStart(
  log: Pick<Log, 'clock' | 'format'>,
  day: RoadDay,
  startsAtS: number | undefined,
): LogStart {
  const clock = log.clock;
  const unused = (startsS: number): Pick<LogStart, 'startsAtUnused'> =>
    startsAtS !== undefined && Math.abs(clockDifferenceS(startsAtS, startsS)) > MATCH_TOLERANCE_S
      ? { startsAtUnused: true }
      : {};
  if (clock === undefined) return startsAtS === undefined ? {} : { startsS: onLikelyDay(startsAtS, day) };
  if (clock.kind === 'time-of-day') {
    const isUtc = log.format === 'nmea';
    if (!isUtc && startsAtS !== undefined) return { startsS: onLikelyDay(startsAtS, day) };
    const startsS = onLikelyDay(clock.startMs / 1000 + (isUtc ? day.zoneS : 0), day);
    return { startsS, ...unused(startsS) };
  }
  const startsS = (clock.startMs - day.dateMs) / 1000 + day.zoneS;
  // A log switched on the evening before, or after midnight, still belongs to the test's day.
  if (startsS >= -DAY_S / 4 && startsS < DAY_S * 1.5) return { startsS, ...unused(startsS) };
  const likelyS = onLikelyDay(startsS, day);
  return { startsS: likelyS, daysOff: Math.floor(startsS / DAY_S), ...unused(likelyS) };
}

/** An hour on the first day, or on the second where the readings go past midnight and are nearer there. */
function onLikelyDay(hourS: number, { readingsS }: RoadDay): number {
  const firstDayS = ((hourS % DAY_S) + DAY_S) % DAY_S;
  const first = readingsS[0];
  const last = readingsS.at(-1);
  if (first === undefined || last === undefined || last < DAY_S) return firstDayS;
  const outside = (s: number) => Math.max(first - s, s - last, 0);
  return outside(firstDayS + DAY_S) < outside(firstDayS) ? firstDayS + DAY_S : firstDayS;
}
