/** How far one set of repeats lies from another, without assuming any shape: Hodges and Lehmann 1963. */
import { medianOf } from './repeats.ts';

/** Ways to draw n1 of n1 + n2 ranks by their U, 0 to n1 n2 (Mann and Whitney 1947, their recurrence). */
function waysByU(n1: number, n2: number): Float64Array {
  const ways = Array.from({ length: n1 + 1 }, () => new Float64Array(n1 * n2 + 1));
  for (const row of ways) row[0] = 1;
  for (let n = 1; n <= n2; n++) {
    for (let m = 1; m <= n1; m++) {
      const fewer = ways[m - 1]!;
      const row = ways[m]!;
      for (let u = m * n; u >= n; u--) row[u] = row[u]! + fewer[u - n]!;
    }
  }
  return ways[n1]!;
}

/** How many of the smallest, and of the largest, differences may be left out; and what the rest then covers. */
function leftOut(n1: number, n2: number, coverage: number): { count: number; coverage: number } {
  const ways = waysByU(n1, n2);
  const all = ways.reduce((sum, each) => sum + each, 0);
  let below = 0;
  let count = 0;
  // A hair is forgiven, so that a coverage asked for exactly is not missed by rounding.
  while (1 - (2 * (below + ways[count]!)) / all >= coverage - 1e-12) {
    below += ways[count]!;
    count += 1;
  }
  return { count, coverage: 1 - (2 * below) / all };
}

export interface ShiftInterval {
  readonly low: number;
  readonly high: number;
  /** Actual coverage, at least the one asked for. */
  readonly coverage: number;
}

export interface Shift {
  /** Median of all differences b − a (Hodges and Lehmann, Ann. Math. Stat. 34, 1963). */
  readonly middle: number;
  /** Absent where so few values have no interval of this coverage: at 0.95, three against three. */
  readonly interval?: ShiftInterval;
  /** Pairings of a value of each in which b is the larger, and the smaller; the rest are equal. */
  readonly larger: number;
  readonly smaller: number;
}

/**
 * The shift of b from a with its exact interval: Mann and Whitney's test turned round, from the (k + 1)-th
 * smallest to the (k + 1)-th largest of all differences b − a, where k is the largest U it rejects. Holds every
 * shift the two-sided test at 1 − coverage would not reject; equal values only widen its coverage.
 * Work grows as n1² n2²: meant for attempts, not for thousands.
 * @throws RangeError where a set is empty or holds a value that is not finite.
 */
export function shiftBetween(a: readonly number[], b: readonly number[], coverage = 0.95): Shift {
  if (a.length === 0 || b.length === 0) throw new RangeError('Nothing to compare with');
  if (![...a, ...b].every(Number.isFinite)) throw new RangeError('Only finite values can be compared');
  const differences = b.flatMap(y => a.map(x => y - x)).sort((x, y) => x - y);
  const { count, coverage: actual } = leftOut(a.length, b.length, coverage);
  return {
    middle: medianOf(differences),
    ...(count === 0
      ? {}
      : {
          interval: {
            low: differences[count - 1]!,
            high: differences[differences.length - count]!,
            coverage: actual,
          },
        }),
    larger: differences.filter(difference => difference > 0).length,
    smaller: differences.filter(difference => difference < 0).length,
  };
}
