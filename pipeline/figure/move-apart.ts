/** Labels that would stand on each other, moved apart. */

/**
 * Places as near as possible to those wanted (least squares) with at least `gap` between neighbours, in the
 * order wanted, inside `from` to `to` as far as they fit; where they do not all fit they start at `from`.
 * The result is in the order of the input. Pool-adjacent-violators on places less their running gap.
 */
export function moveApart(
  wanted: readonly number[],
  gap: number,
  from: number,
  to: number,
): readonly number[] {
  const order = wanted.map((_, index) => index).sort((a, b) => wanted[a]! - wanted[b]! || a - b);
  const pools: { sum: number; count: number }[] = [];
  for (const [rank, index] of order.entries()) {
    pools.push({ sum: wanted[index]! - rank * gap, count: 1 });
    while (pools.length > 1) {
      const last = pools.at(-1)!;
      const before = pools.at(-2)!;
      if (before.sum / before.count <= last.sum / last.count) break;
      pools.splice(-2, 2, { sum: before.sum + last.sum, count: before.count + last.count });
    }
  }
  const highest = Math.max(from, to - (wanted.length - 1) * gap);
  const places = new Array<number>(wanted.length);
  let rank = 0;
  for (const { sum, count } of pools) {
    const place = Math.min(highest, Math.max(from, sum / count));
    for (let nth = 0; nth < count; nth += 1) {
      places[order[rank]!] = place + rank * gap;
      rank += 1;
    }
  }
  return places;
}
