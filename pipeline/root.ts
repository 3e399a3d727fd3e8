/** Where a function that rises passes nothing. */

const ROUNDS = 60;

/**
 * The root between `low`, where `value` is 0 or less, and `high`, where it is 0 or more: Newton's step where it stays
 * between them, half way where it does not (Press et al., Numerical Recipes, 9.4; from memory).
 * @param slope of `value`
 * @param near a step shorter than this ends it, in the unit of x
 */
export function risingRoot(
  value: (x: number) => number,
  slope: (x: number) => number,
  low: number,
  high: number,
  near: number,
): number {
  let from = low;
  let to = high;
  let x = high;
  for (let round = 0; round < ROUNDS; round++) {
    const at = value(x);
    if (at === 0) return x;
    if (at < 0) from = x;
    else to = x;
    const newton = x - at / slope(x);
    const next = newton > from && newton < to ? newton : (from + to) / 2;
    if (Math.abs(next - x) < near) return next;
    x = next;
  }
  return x;
}
