/** The smallest step a recorder can write, seen from the values it wrote. */

/** Decimals printed beyond this are a computation's, not a recorder's. */
const MOST_DECIMALS = 5;

/** Digits after the decimal point or comma of a number as written. */
export function decimalsOf(text: string): number {
  const written = text.trim();
  const mark = Math.max(written.lastIndexOf('.'), written.lastIndexOf(','));
  if (mark < 0) return 0;
  let end = mark + 1;
  while (end < written.length && written.charCodeAt(end) >= 48 && written.charCodeAt(end) <= 57) end++;
  return end - mark - 1;
}

/**
 * Step of recorded values in their own unit: the last printed digit, or a coarser step that every value is a
 * multiple of (whole km/h printed as `12.0`, sixty-fourths of a km/h, tenths of a mph turned into m/s).
 * Undefined where fewer than three values differ, or where the printed digits are a computation's.
 */
export function recordedStep(values: Float64Array, decimals: number): number | undefined {
  const distinct = [...new Set(values)].filter(value => value > 0).sort((a, b) => a - b);
  if (distinct.length < 3) return undefined;
  const printed = 10 ** -decimals;
  let least = distinct[0]!;
  for (let i = 1; i < distinct.length; i++) least = Math.min(least, distinct[i]! - distinct[i - 1]!);
  if (least > printed * 1.5) {
    const step = sharpen(least, distinct);
    // Many values that all lie near multiples are no chance, even where each was printed to six digits in all.
    const rounding = Math.max(printed * 0.6, step * (distinct.length > 20 ? 0.02 : 1e-6));
    const whole = distinct.every(value => Math.abs(value - Math.round(value / step) * step) <= rounding);
    // A step close to the printed digit would hold by rounding alone.
    if (whole && step > printed * 4) return Number(step.toPrecision(9));
  }
  return decimals <= MOST_DECIMALS ? printed : undefined;
}

/** A first guess of the step made exact by ever larger multiples. */
function sharpen(guess: number, ascending: readonly number[]): number {
  let step = guess;
  for (const value of ascending) {
    const multiple = Math.round(value / step);
    // Only where the multiple is beyond doubt does a larger value sharpen the step.
    if (multiple > 0 && Math.abs(value / step - multiple) < 0.2) step = value / multiple;
  }
  return step;
}
