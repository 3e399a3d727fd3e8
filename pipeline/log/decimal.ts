/** Decimal numbers read from where they stand in the bytes of a text, without cutting them out first. */

/** What {@link decimalAt} gives where the text needs a slower reading, or is no number. */
export const UNDECIDED = Number.NaN;

const ZERO = 48;
const POINT = 46;
const COMMA = 44;
const MINUS = 45;
const PLUS = 43;

/** Powers of ten that a double holds exactly. */
const POWERS = Array.from({ length: 23 }, (_, exponent) => Number(`1e${exponent}`));
/** Whole numbers of so many digits are exact, so that one division rounds once, as `Number` does (Clinger 1990). */
const MOST_DIGITS = 15;

/** What {@link decimalAt} saw of the last number it gave; 0 where there was no decimal mark. */
export interface Seen {
  /** Character code of the decimal mark. */
  mark: number;
  /** Digits behind it. */
  decimals: number;
}

/** `Number` of a text; `NaN` also where it is larger than a double holds, as a spoiled exponent makes it. */
export function finiteNumber(text: string): number {
  const value = Number(text);
  return Number.isFinite(value) ? value : Number.NaN;
}

/**
 * The number between `start` and `end`: an optional sign, digits, and digits behind one point or comma. Equal to
 * `Number` of the same text (with a point) to the last bit.
 * @returns {@link UNDECIDED} for anything else: blanks, exponents, words, more digits than are surely exact
 */
export function decimalAt(bytes: Uint8Array, start: number, end: number, seen: Seen): number {
  let i = start;
  const first = bytes[start]!;
  if (first === MINUS || first === PLUS) i++;
  let whole = 0;
  let digits = 0;
  let markAt = -1;
  let mark = 0;
  for (; i < end; i++) {
    const code = bytes[i]!;
    const digit = code - ZERO;
    if (digit >= 0 && digit <= 9) {
      whole = whole * 10 + digit;
      digits++;
    } else if ((code === POINT || code === COMMA) && markAt < 0) {
      markAt = i;
      mark = code;
    } else return UNDECIDED;
  }
  if (digits === 0 || digits > MOST_DIGITS) return UNDECIDED;
  const decimals = markAt < 0 ? 0 : end - markAt - 1;
  seen.mark = mark;
  seen.decimals = decimals;
  const value = decimals === 0 ? whole : whole / POWERS[decimals]!;
  // No log means a negative zero by "-0.0".
  return first === MINUS && value !== 0 ? -value : value;
}
