/** Holes in a log: told, never filled in. */
import { medianOf } from './least-squares.ts';
import type { Gap } from './trace.ts';

/** An interval longer than this many usual intervals is a gap … */
export const GAP_INTERVALS = 2.5;
/** … unless it is shorter than this, which at high rates costs no figure anything. */
export const GAP_SHORTEST_S = 0.12;

/** Usual interval from one reading to the next, s. */
export function medianIntervalS(timeS: Float64Array): number {
  const intervals = new Float64Array(Math.max(0, timeS.length - 1));
  for (let i = 0; i < intervals.length; i++) intervals[i] = timeS[i + 1]! - timeS[i]!;
  return medianOf(intervals);
}

/** Every gap in order of time. */
export function findGaps(timeS: Float64Array, intervalS: number): Gap[] {
  // Half a millisecond of slack: recorders round their times.
  const longest = Math.max(GAP_INTERVALS * intervalS, GAP_SHORTEST_S) + 0.0005;
  const gaps: Gap[] = [];
  for (let i = 0; i + 1 < timeS.length; i++) {
    if (timeS[i + 1]! - timeS[i]! > longest) gaps.push({ fromS: timeS[i]!, toS: timeS[i + 1]!, index: i });
  }
  return gaps;
}
