/** The lines of a text, found once and cut out only when asked for. */
import { ProblemError } from '../problem.ts';
import { logLineTooLong } from '../problems/log.ts';
import type { EncodedText } from './bytes.ts';

/** Longest line read, in bytes. */
export const MAX_LINE = 1e6;

const LF = 10;
const CR = 13;

/** Lines without their ends, which may be LF, CRLF or CR. A text that ends with a line end has an empty last line. */
export class Lines {
  readonly text: EncodedText;
  readonly count: number;
  private readonly starts: Uint32Array;

  /** @throws ProblemError where a line is longer than {@link MAX_LINE}. */
  constructor(file: string, text: EncodedText) {
    const { bytes } = text;
    const lineEnd = bytes.includes(LF) ? LF : CR;
    let starts = new Uint32Array(1024);
    let count = 0;
    for (let start = 0; start <= bytes.length; count++) {
      // One more than the lines: where the next would begin.
      if (count + 2 > starts.length) {
        const larger = new Uint32Array(starts.length * 2);
        larger.set(starts);
        starts = larger;
      }
      starts[count] = start;
      const found = bytes.indexOf(lineEnd, start);
      const end = found < 0 ? bytes.length : found;
      if (end - start > MAX_LINE) throw new ProblemError(logLineTooLong(file, count + 1, MAX_LINE));
      start = end + 1;
    }
    starts[count] = bytes.length + 1;
    this.text = text;
    this.count = count;
    this.starts = starts;
  }

  /** Where line `index` (from 0) begins in the text. */
  startOf(index: number): number {
    return this.starts[index]!;
  }

  /** Where it ends, its line end left out. */
  endOf(index: number): number {
    const end = this.starts[index + 1]! - 1;
    return end > this.starts[index]! && this.text.bytes[end - 1] === CR ? end - 1 : end;
  }

  /** The line itself; empty beyond the last one. */
  at(index: number): string {
    return index < this.count ? this.text.slice(this.startOf(index), this.endOf(index)) : '';
  }
}
