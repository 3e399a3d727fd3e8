/** Looking for a reading among those of a stretch; indices are inclusive. */

/** Index of the first value of `begin` … `end` that is at least `limit`; undefined if there is none. */
export function firstAtLeast(
  values: Float64Array,
  begin: number,
  end: number,
  limit: number,
): number | undefined {
  for (let i = begin; i <= end; i++) if (values[i]! >= limit) return i;
  return undefined;
}

/** Index of the greatest value of `begin` … `end`, the last of equal ones. */
export function highestIn(values: Float64Array, begin: number, end: number): number {
  let best = begin;
  for (let i = begin + 1; i <= end; i++) if (values[i]! >= values[best]!) best = i;
  return best;
}

/** Index of the first of the rising `values` that is at least `limit`; their number if there is none. */
export function indexAtOrAfter(values: Float64Array, limit: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle]! < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}
