/** Whether two sets of repeats differ beyond chance, without assuming any shape: Mann and Whitney 1947, exact. */

/**
 * Twice the mean ranks of all values together; doubled, they are whole numbers even where values are equal.
 * In the order of the values given.
 */
function doubledRanks(values: readonly number[]): readonly number[] {
  return values.map(value => {
    const below = values.filter(other => other < value).length;
    const equal = values.filter(other => other === value).length;
    return 2 * below + equal + 1;
  });
}

/** Number of ways to take `count` of these ranks, by their sum. All are equally likely where nothing differs. */
function waysBySum(
  ranks: readonly number[],
  count: number,
): readonly (readonly [sum: number, ways: number])[] {
  const ways: Map<number, number>[] = Array.from({ length: count + 1 }, () => new Map<number, number>());
  ways[0]?.set(0, 1);
  for (const rank of ranks) {
    for (let taken = count; taken > 0; taken--) {
      const from = ways[taken - 1];
      const to = ways[taken];
      if (!from || !to) continue;
      for (const [sum, number] of from) to.set(sum + rank, (to.get(sum + rank) ?? 0) + number);
    }
  }
  return [...(ways[count] ?? [])];
}

/** Probability of a sum at least as far from its middle as this one. */
function bothTails(ranks: readonly number[], count: number, sum: number): number {
  const middle = (count * ranks.reduce((total, rank) => total + rank, 0)) / ranks.length;
  let all = 0;
  let asFar = 0;
  for (const [other, ways] of waysBySum(ranks, count)) {
    all += ways;
    if (Math.abs(other - middle) >= Math.abs(sum - middle)) asFar += ways;
  }
  return asFar / all;
}

const plainRanks = (n: number): readonly number[] => Array.from({ length: n }, (_, i) => 2 * (i + 1));

/**
 * Exact two-sided p of a U statistic (the smaller of the two) for n1 against n2 values, none of them equal.
 * Counts all ways, in time of about n1 (n1 + n2)³: meant for attempts, not for thousands.
 */
export function mannWhitneyP(u: number, n1: number, n2: number): number {
  return bothTails(plainRanks(n1 + n2), n1, 2 * (u + (n1 * (n1 + 1)) / 2));
}

/** Smallest two-sided p that n1 against n2 values can ever give: 2 over the number of ways to choose. */
export function smallestPossibleP(n1: number, n2: number): number {
  return mannWhitneyP(0, n1, n2);
}

/** Largest U that is significant at `level`, two-sided; undefined where not even 0 is. */
export function criticalU(n1: number, n2: number, level = 0.05): number | undefined {
  let u = -1;
  while (u + 1 <= (n1 * n2) / 2 && mannWhitneyP(u + 1, n1, n2) <= level) u++;
  return u < 0 ? undefined : u;
}

export interface MannWhitney {
  /** The smaller of the two; a multiple of one half where values are equal. */
  readonly u: number;
  /** Two-sided, exact; equal values share their mean rank and the chances are counted for those ranks. */
  readonly p: number;
  /** False where so few values could never reach p ≤ 0.05, whatever they are: then nothing is shown. */
  readonly couldDiffer: boolean;
}

/** Compares two sets of repeats. @throws RangeError where a set is empty or holds a value that is not finite. */
export function mannWhitney(a: readonly number[], b: readonly number[]): MannWhitney {
  if (a.length === 0 || b.length === 0) throw new RangeError('Nothing to compare with');
  if (![...a, ...b].every(Number.isFinite)) throw new RangeError('Only finite values can be ranked');
  const ranks = doubledRanks([...a, ...b]);
  const sum = ranks.slice(0, a.length).reduce((total, rank) => total + rank, 0);
  const u = sum / 2 - (a.length * (a.length + 1)) / 2;
  return {
    u: Math.min(u, a.length * b.length - u),
    p: bothTails(ranks, a.length, sum),
    couldDiffer: smallestPossibleP(a.length, b.length) <= 0.05,
  };
}
