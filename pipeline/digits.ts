/** Rounded digits as a language writes them, and a number held to its unit. */
import { type Spoken, tagOf } from './language.ts';

const NO_BREAK_SPACE = '\u00a0';
const MINUS = '\u2212';

/**
 * Digits already rounded, in a language's own decimal sign and grouping, with a true minus sign.
 * Four-digit numbers stay whole; grouping begins at five, unless the number is a place to be looked up.
 * @throws Error for anything but digits with a point and an ASCII minus sign: no page prints what is no number
 */
export function localiseDigits(
  rounded: string,
  spoken: Spoken,
  { grouped = true }: { readonly grouped?: boolean } = {},
): string {
  if (!Number.isFinite(Number(rounded))) throw new Error(`'${rounded}' is no rounded number.`);
  const decimals = rounded.split('.')[1]?.length ?? 0;
  const format = formatOf(tagOf(spoken), decimals, grouped);
  return format.format(rounded as Intl.StringNumericLiteral).replace('-', MINUS);
}

/** Making one takes as long as a thousand numbers that are written with it. */
const formats = new Map<string, Intl.NumberFormat>();

function formatOf(tag: string, decimals: number, grouped: boolean): Intl.NumberFormat {
  const key = `${tag} ${decimals} ${grouped}`;
  let format = formats.get(key);
  if (format === undefined) {
    format = new Intl.NumberFormat(tag, {
      minimumFractionDigits: decimals,
      maximumFractionDigits: decimals,
      useGrouping: grouped ? 'min2' : false,
      numberingSystem: 'latn',
    });
    formats.set(key, format);
  }
  return format;
}

/** A number and its unit, held together; an angle's degree sign stands close (ISO 80000-1, 7.1.4). */
export function withUnit(digits: string, symbol: string): string {
  if (symbol === '') return digits;
  return symbol === '°' ? digits + symbol : digits + NO_BREAK_SPACE + symbol;
}
