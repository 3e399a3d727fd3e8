/** The end of a stop: the last readings, and what is left from the last moving one to rest. */
import type { Stop } from '../measurement/stop.ts';
import type { Trace } from '../trace/trace.ts';
import { type Reading, readingAt, readingsBetween } from './readings.ts';

/** Readings shown before and after the last moving one. */
const BEFORE = 4;
const AFTER = 2;

export interface StopWorkings {
  readonly readings: readonly Reading[];
  readonly lastMoving: Reading;
  /** Instant of rest, s of the log. */
  readonly atS: number;
  /** From the last moving reading to rest: half its speed times the time that is left. */
  readonly lastM: number;
}

/** `distanceAt`: distance since the speed was passed, m. */
export function stopWorkings(
  trace: Trace,
  { atS, lastM, lastMovingIndex }: Stop,
  distanceAt: (timeS: number) => number,
): StopWorkings {
  return {
    readings: readingsBetween(trace, lastMovingIndex - BEFORE, lastMovingIndex + AFTER, distanceAt),
    lastMoving: readingAt(trace, lastMovingIndex, distanceAt),
    atS,
    lastM,
  };
}
