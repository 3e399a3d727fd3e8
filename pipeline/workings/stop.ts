/** The end of a stop: the last readings, and what is left from the last moving one to rest. */
import type { Stop } from '../measurement/stop.ts';
import type { Trace } from '../trace/trace.ts';
import { type FitWorkings, fitWorkings } from './fit.ts';
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

/** Readings drawn before and after rest, s; at low rates never fewer than stand in the table. */
const DRAWN_BEFORE_S = 0.8;
const DRAWN_AFTER_S = 0.3;

/** Coming to rest, once for every figure of a stop. */
export interface RestWorkings {
  readonly readings: readonly Reading[];
  /** As published, s of the log; its standard uncertainty. */
  readonly atS: number;
  readonly standardS: number;
  readonly fit: FitWorkings;
}

export function restWorkings(trace: Trace, { atS, sdS, lastMovingIndex, onset }: Stop): RestWorkings {
  const { timeS } = trace;
  let first = lastMovingIndex - BEFORE;
  while (first > 0 && atS - timeS[first - 1]! <= DRAWN_BEFORE_S) first--;
  let last = lastMovingIndex + AFTER;
  while (last + 1 < timeS.length && timeS[last + 1]! - atS <= DRAWN_AFTER_S) last++;
  const readings = readingsBetween(trace, first, last);
  return { readings, atS, standardS: sdS, fit: fitWorkings(trace, onset, readings) };
}
