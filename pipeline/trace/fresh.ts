/**
 * Which rows of a log carry a fresh reading.
 *
 * On-board diagnostics write eight to eleven rows a second but a new speed only about once a second, and
 * repeat it in between. Taking every row for a reading would find steps the car never drove.
 */
import { medianOf } from './least-squares.ts';

/** A change of speed this many recorder steps wide cannot be the last digit flickering. */
const CLEAR_CHANGE_STEPS = 1.5;
/** With fewer clear changes than this nothing is concluded. */
const CLEAR_CHANGES_NEEDED = 12;

export interface Freshness {
  /** Rows to keep, in order. */
  readonly keep: Uint32Array;
  /** Time from one fresh reading to the next, s; absent where every row is fresh. */
  readonly heldS?: number;
}

/**
 * Looks at the rows just before each clear change of speed while moving: if the reading typically stood
 * for more than one row although the car was changing speed, rows repeat readings.
 * Cruising and whole-km/h recorders do not trigger it, because their changes are single steps.
 */
export function freshRows(
  timeS: Float64Array,
  speedMps: Float64Array,
  stepMps: number | undefined,
): Freshness {
  const n = timeS.length;
  const clear = stepMps === undefined ? Number.MIN_VALUE : CLEAR_CHANGE_STEPS * stepMps;
  const repeats: number[] = [];
  const intervals: number[] = [];
  let stretchBegin = 0;
  let afterClearChange = false;
  for (let i = 1; i < n; i++) {
    if (speedMps[i] === speedMps[i - 1]) continue;
    const changed = Math.abs(speedMps[i]! - speedMps[i - 1]!) >= clear;
    // Only between two clear changes is the car known to be changing speed all along.
    if (changed && afterClearChange && speedMps[i - 1]! > 0) {
      repeats.push(i - stretchBegin);
      intervals.push(timeS[i]! - timeS[stretchBegin]!);
    }
    afterClearChange = changed;
    stretchBegin = i;
  }
  if (repeats.length < CLEAR_CHANGES_NEEDED || medianOf(repeats) <= 1.5) {
    return { keep: Uint32Array.from({ length: n }, (_, i) => i) };
  }
  const heldS = medianOf(intervals);
  return { keep: onePerRefresh(timeS, speedMps, heldS), heldS };
}

/** The first row of every new reading, and one row each refresh while the reading stays the same. */
function onePerRefresh(timeS: Float64Array, speedMps: Float64Array, heldS: number): Uint32Array {
  const keep: number[] = [0];
  for (let i = 1; i < timeS.length; i++) {
    const last = keep[keep.length - 1]!;
    const isNew = speedMps[i] !== speedMps[i - 1];
    if (isNew || timeS[i]! - timeS[last]! >= 0.95 * heldS) keep.push(i);
  }
  return Uint32Array.from(keep);
}
