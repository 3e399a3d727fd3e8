/** A table as comma-separated values (RFC 4180): a head, then its rows. */
import type { Table } from './table.ts';

const MINUS = '\u2212';
const NO_BREAK_SPACE = '\u00a0';

/**
 * Texts as printed, except that signs for readers become plain: a true minus a hyphen-minus, a no-break
 * space a space. UTF-8, CRLF at every line's end, quotes where RFC 4180 asks for them.
 *
 * A text that a spreadsheet would take for a formula gets an apostrophe before it; numbers stay numbers.
 */
export function tableToCsv(table: Table): string {
  const head = table.columns.map(({ label, unit }) => (unit === undefined ? label : `${label} (${unit})`));
  return [head, ...table.rows.map(row => row.map(({ text }) => text))]
    .map(line => `${line.map(cellToCsv).join(',')}\r\n`)
    .join('');
}

const NUMBER = /^-?[\d.,\s]+$/;
/** First signs of a formula to spreadsheets, those of full width included (OWASP, CSV Injection; from memory). */
const FORMULA = /^[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20]/;

function cellToCsv(text: string): string {
  return textToCsv(text.replaceAll(MINUS, '-').replaceAll(NO_BREAK_SPACE, ' '));
}

/** One text as a cell: what a spreadsheet would take for a formula gets an apostrophe, quotes where they are needed. */
export function textToCsv(text: string): string {
  const harmless = FORMULA.test(text) && !NUMBER.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
