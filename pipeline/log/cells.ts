/** The cells of one row after another, told by where they stand in the text. */
import { EncodedText } from './bytes.ts';
import type { Lines } from './lines.ts';
import { rowToCells } from './table.ts';

const ENCODER = new TextEncoder();
const BLANK = 32;
const QUOTE = '"'.charCodeAt(0);

/**
 * Goes over rows and remembers where their cells begin and end; cutting each out as a string of its own would be
 * most of the work of reading a large log. A row with quotes in it is split into strings all the same.
 */
export class Cells {
  /** Cells of the row, blank ones beyond the header's left out. */
  count = 0;
  /** The text that the places stand in: the file's, or the joined cells of a row with quotes. */
  text: EncodedText;
  private starts = new Uint32Array(64);
  private ends = new Uint32Array(64);
  private readonly lines: Lines;
  private readonly delimiter: string;
  private readonly code: number;

  constructor(lines: Lines, delimiter: string) {
    this.lines = lines;
    this.text = lines.text;
    this.delimiter = delimiter;
    this.code = delimiter.charCodeAt(0);
  }

  /** Splits line `index` (from 0) and leaves out blank cells beyond `most`. False where the line is blank. */
  split(index: number, most: number): boolean {
    const { lines, code } = this;
    const { text } = lines;
    const { bytes } = text;
    const end = lines.endOf(index);
    this.text = text;
    this.count = 0;
    let start = lines.startOf(index);
    let isQuoted = false;
    for (let i = start; i < end; i++) {
      const at = bytes[i]!;
      if (at === code) {
        this.add(start, i);
        start = i + 1;
      } else if (at === QUOTE) {
        this.splitQuoted(lines.at(index));
        isQuoted = true;
        start = end + 1;
        break;
      }
    }
    if (start <= end) this.add(start, end);
    // With tabs between them a row of blank cells is a blank line too.
    if (!isQuoted && (this.count === 1 || this.delimiter === '\t') && this.allBlank()) return false;
    while (this.count > most && this.isBlank(this.count - 1)) this.count--;
    return true;
  }

  startOf(cell: number): number {
    return this.starts[cell]!;
  }

  endOf(cell: number): number {
    return this.ends[cell]!;
  }

  /** The cell's text; empty where the row has no such cell. */
  at(cell: number): string {
    return cell < this.count ? this.text.slice(this.starts[cell]!, this.ends[cell]!) : '';
  }

  isBlank(cell: number): boolean {
    const start = this.starts[cell]!;
    if (start === this.ends[cell]) return true;
    const first = this.text.bytes[start]!;
    // Beyond ASCII there are blanks too.
    return (first <= BLANK || first >= 128) && this.at(cell).trim() === '';
  }

  private allBlank(): boolean {
    for (let cell = 0; cell < this.count; cell++) if (!this.isBlank(cell)) return false;
    return true;
  }

  private splitQuoted(row: string): void {
    const cells = rowToCells(row, this.delimiter).map(cell => ENCODER.encode(cell));
    const bytes = new Uint8Array(cells.reduce((sum, { length }) => sum + length, 0));
    this.text = new EncodedText(bytes, 'utf-8');
    this.count = 0;
    let at = 0;
    for (const cell of cells) {
      bytes.set(cell, at);
      this.add(at, at + cell.length);
      at += cell.length;
    }
  }

  private add(start: number, end: number): void {
    if (this.count === this.starts.length) {
      const [starts, ends] = [new Uint32Array(2 * this.count), new Uint32Array(2 * this.count)];
      starts.set(this.starts);
      ends.set(this.ends);
      this.starts = starts;
      this.ends = ends;
    }
    this.starts[this.count] = start;
    this.ends[this.count] = end;
    this.count++;
  }
}
