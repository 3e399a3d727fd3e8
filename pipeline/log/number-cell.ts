/** Numbers as cells of a table, with one decimal mark for the whole file. */
import type { EncodedText } from './bytes.ts';
import { decimalAt, finiteNumber, type Seen } from './decimal.ts';
import { decimalsOf } from './step.ts';

/**
 * Reads cells as numbers. The first cell with a decimal point or comma decides which of the two the file
 * uses; a cell with the other one is then no number, so that `1,234` never changes its meaning half-way.
 */
export class NumberCells {
  private mark: '.' | ',' | undefined;
  private readonly seen: Seen = { mark: 0, decimals: 0 };

  /** Digits behind the decimal mark of the number that {@link readAt} gave last. */
  get decimals(): number {
    return this.seen.decimals;
  }

  /** The same as `read` of the text between `start` and `end`, without cutting it out where it is a plain number. */
  readAt(text: EncodedText, start: number, end: number): number {
    const value = decimalAt(text.bytes, start, end, this.seen);
    if (Number.isNaN(value)) {
      const cell = text.slice(start, end);
      this.seen.decimals = decimalsOf(cell);
      return this.read(cell);
    }
    if (this.seen.mark === 0) return value;
    const mark = this.seen.mark === COMMA ? ',' : '.';
    this.mark ??= mark;
    return this.mark === mark ? value : Number.NaN;
  }

  /** The number, or NaN where the cell is empty, a word, or written with the other decimal mark. */
  read(cell: string): number {
    const comma = cell.indexOf(',');
    if (comma < 0) {
      if (cell.includes('.')) {
        this.mark ??= '.';
        if (this.mark === ',') return Number.NaN;
      }
      return toNumber(cell);
    }
    if (cell.includes('.') || cell.indexOf(',', comma + 1) >= 0) return Number.NaN;
    this.mark ??= ',';
    return this.mark === ',' ? toNumber(cell.replace(',', '.')) : Number.NaN;
  }
}

const COMMA = ','.charCodeAt(0);

/** `Number` without its readings that no log means: blanks as 0, `0x1F`, `Infinity`. */
function toNumber(text: string): number {
  const value = finiteNumber(text);
  if (value !== 0) return PREFIXED.test(text) ? Number.NaN : value;
  return text.includes('0') && !PREFIXED.test(text) ? 0 : Number.NaN;
}

const PREFIXED = /^\s*[-+]?0[xob]/i;
