/** Numbers as cells of a table, with one decimal mark for the whole file. */

/**
 * Reads cells as numbers. The first cell with a decimal point or comma decides which of the two the file
 * uses; a cell with the other one is then no number, so that `1,234` never changes its meaning half-way.
 */
export class NumberCells {
  private mark: '.' | ',' | undefined;

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

/** `Number` without its readings that no log means: blanks as 0, `0x1F`, `Infinity`. */
function toNumber(text: string): number {
  const value = Number(text);
  if (value !== 0) return Number.isFinite(value) && !PREFIXED.test(text) ? value : Number.NaN;
  return text.includes('0') && !PREFIXED.test(text) ? 0 : Number.NaN;
}

const PREFIXED = /^\s*[-+]?0[xob]/i;
