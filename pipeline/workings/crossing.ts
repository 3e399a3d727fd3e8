/** A speed passed: the readings around it, the straight line between two of them, and what was published. */
import type { BrakesFit, Crossing } from '../measurement/crossing.ts';
import type { Trace } from '../trace/trace.ts';
import { type Reading, readingAt, readingsBetween } from './readings.ts';

/** Readings shown on either side. */
const AROUND = 3;

export interface CrossingWorkings {
  readonly targetMps: number;
  readonly readings: readonly Reading[];
  /** The readings on either side that the straight line joins. */
  readonly before: Reading;
  readonly after: Reading;
  /** Where that line passes the speed, s of the log. */
  readonly straightS: number;
  /** As published, s of the log. */
  readonly timeS: number;
  /** The parabola it was published from; absent where none was. */
  readonly parabola?: {
    readonly from: Reading;
    readonly to: Reading;
    readonly count: number;
    /** Speed over time since `originS`: m/s, m/s², m/s³. */
    readonly originS: number;
    readonly coefficients: readonly number[];
  };
  /** The brakes as they come on, where it was published from those. */
  readonly brakes?: BrakesFit & { readonly from: Reading; readonly to: Reading };
}

/** A crossing found again is the published one if it is nearer than this, s. */
const SAME_S = 1e-9;

/**
 * The workings of one crossing, published at `timeS`. At high rates noise may put the first pair of readings that straddles the speed away
 * from the crossing itself: the pair nearest to it is shown.
 */
export function crossingWorkings(
  trace: Trace,
  crossing: Crossing,
  targetMps: number,
  timeS = crossing.timeS,
): CrossingWorkings {
  const index = nearestPair(trace, crossing, targetMps);
  const before = readingAt(trace, index);
  const after = readingAt(trace, index + 1);
  const share = (targetMps - before.speedMps) / (after.speedMps - before.speedMps);
  const { fit, brakes }: Pick<Crossing, 'fit' | 'brakes'> =
    Math.abs(crossing.timeS - timeS) < SAME_S ? crossing : {};
  return {
    targetMps,
    readings: readingsBetween(trace, index - AROUND + 1, index + AROUND),
    before,
    after,
    straightS: before.timeS + share * (after.timeS - before.timeS),
    timeS,
    ...(fit === undefined
      ? {}
      : {
          parabola: {
            from: readingAt(trace, fit.firstIndex),
            to: readingAt(trace, fit.lastIndex),
            count: fit.lastIndex - fit.firstIndex + 1,
            originS: fit.originX,
            coefficients: fit.coefficients,
          },
        }),
    ...(brakes === undefined
      ? {}
      : {
          brakes: {
            ...brakes,
            from: readingAt(trace, brakes.firstIndex),
            to: readingAt(trace, brakes.lastIndex),
          },
        }),
  };
}

function nearestPair({ speedMps }: Trace, { index, slopeMps2 }: Crossing, targetMps: number): number {
  const straddles = (i: number): boolean => {
    const [a, b] = [speedMps[i], speedMps[i + 1]];
    if (a === undefined || b === undefined) return false;
    return slopeMps2 > 0 ? a < targetMps && b >= targetMps : a >= targetMps && b < targetMps;
  };
  for (let away = 0; away < speedMps.length; away++) {
    if (straddles(index - away)) return index - away;
    if (straddles(index + away)) return index + away;
  }
  return index;
}
