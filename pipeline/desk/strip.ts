/** A trace with so few points that a screen can show them, no peak lost. */

/** Speed of one log; the least and the greatest of each stretch, null where nothing was recorded. */
export interface Strip {
  readonly timeS: readonly number[];
  readonly minKmh: readonly (number | null)[];
  readonly maxKmh: readonly (number | null)[];
}

interface Part {
  readonly fromS: number;
  readonly toS: number;
  readonly points: number;
  /** Readings farther apart than this have a hole between them. */
  readonly gapS: number;
}

/**
 * The part of a trace as at most `points` stretches of equal length, each at the time of its first reading, with its
 * least and greatest speed; a hole longer than `gapS` becomes one null.
 */
export function traceToStrip(
  timeS: Float64Array,
  speedMps: Float64Array,
  { fromS, toS, points, gapS }: Part,
): Strip {
  const times: number[] = [];
  const least: (number | null)[] = [];
  const greatest: (number | null)[] = [];
  const stretchS = (toS - fromS) / Math.max(1, points);
  let stretch = -1;
  let before = Number.NaN;
  for (let i = firstFrom(timeS, fromS); i < timeS.length && timeS[i]! <= toS; i++) {
    const time = timeS[i]!;
    const kmh = speedMps[i]! * 3.6;
    if (time - before > gapS) {
      times.push((before + time) / 2);
      least.push(null);
      greatest.push(null);
      stretch = -1;
    }
    before = time;
    const own = stretchS > 0 ? Math.min(points - 1, Math.floor((time - fromS) / stretchS)) : 0;
    if (own !== stretch) {
      stretch = own;
      times.push(time);
      least.push(kmh);
      greatest.push(kmh);
    } else {
      least[least.length - 1] = Math.min(least.at(-1)!, kmh);
      greatest[greatest.length - 1] = Math.max(greatest.at(-1)!, kmh);
    }
  }
  return { timeS: times, minKmh: least, maxKmh: greatest };
}

/** Index of the first reading at or after a time. */
function firstFrom(timeS: Float64Array, fromS: number): number {
  let [low, high] = [0, timeS.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeS[middle]! < fromS) low = middle + 1;
    else high = middle;
  }
  return low;
}
