/** Which mutants are tried, and how far the share found among them can be from that of all. */
import { randomFromSeed } from '../simulate/random.ts';

/**
 * A sample drawn from every group in proportion to its size, by the largest remainders, in the order of the list.
 * @returns the whole list where `size` is not smaller
 */
export function stratified<T>(
  list: readonly T[],
  groupOf: (one: T) => string,
  size: number,
  seed: number,
): readonly T[] {
  if (size >= list.length) return list;
  const random = randomFromSeed(seed);
  const groups = [...Map.groupBy(list, groupOf).values()];
  const shares = groups.map(group => (group.length / list.length) * size);
  const counts = shares.map(Math.floor);
  const rest = size - counts.reduce((sum, count) => sum + count, 0);
  const byRemainder = shares.map((share, index) => ({ index, remainder: share % 1 }));
  byRemainder.sort((a, b) => b.remainder - a.remainder || a.index - b.index);
  for (const { index } of byRemainder.slice(0, rest)) counts[index]! += 1;

  const chosen = new Set<T>();
  for (const [index, group] of groups.entries()) {
    const left = [...group];
    for (let drawn = 0; drawn < counts[index]!; drawn += 1) {
      chosen.add(left.splice(random.whole(0, left.length - 1), 1)[0]!);
    }
  }
  return list.filter(one => chosen.has(one));
}

/** The same in another order (R. Durstenfeld, Communications of the ACM 7 (1964) 420). */
export function shuffled<T>(list: readonly T[], seed: number): readonly T[] {
  const random = randomFromSeed(seed);
  const order = [...list];
  for (let i = order.length - 1; i > 0; i--) {
    const other = random.whole(0, i);
    [order[i], order[other]] = [order[other]!, order[i]!];
  }
  return order;
}

/**
 * Score interval of a share at 95 % (E. B. Wilson, Journal of the American Statistical Association 22 (1927) 209).
 * @param found of `of`, at least 1
 */
export function shareInterval(found: number, of: number): readonly [low: number, high: number] {
  const z = 1.959964;
  const share = found / of;
  const middle = share + (z * z) / (2 * of);
  const half = z * Math.sqrt((share * (1 - share)) / of + (z * z) / (4 * of * of));
  const scale = 1 + (z * z) / of;
  return [(middle - half) / scale, (middle + half) / scale];
}
