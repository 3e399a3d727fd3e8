/** Clocks as cells of a table, one after another: most differ from the one before in their seconds alone. */
import type { EncodedText } from './bytes.ts';
import { type ClockParts, type ClockReading, clockParts, isSecond, partsToS } from './clock-text.ts';
import { decimalAt, type Seen } from './decimal.ts';

const ZERO = 48;
const NINE = 57;
const POINT = 46;
const COMMA = 44;

/** A cell that was read, for the next to be held against. */
interface Known {
  readonly text: EncodedText;
  readonly start: number;
  /** Bytes before the seconds, and behind them. */
  readonly head: number;
  readonly tailStart: number;
  readonly tail: number;
  readonly parts: ClockParts;
}

export class ClockCells {
  private readonly kind: ClockReading['kind'];
  private known: Known | undefined;
  private readonly seen: Seen = { mark: 0, decimals: 0 };

  /** @param kind of all cells; another is no reading */
  constructor(kind: ClockReading['kind']) {
    this.kind = kind;
  }

  /** Seconds as `readClock` gives them of the text between `start` and `end`, to the last bit; NaN where it gives none. */
  readAt(text: EncodedText, start: number, end: number): number {
    const { known } = this;
    if (known !== undefined && known.text === text) {
      const second = this.secondLike(known, start, end);
      if (!Number.isNaN(second)) return partsToS(known.parts, second);
    }
    const cell = text.slice(start, end);
    const parts = clockParts(cell);
    if (parts === undefined || parts.kind !== this.kind) return Number.NaN;
    // Places in the cell are places in the bytes where every character is one of them.
    if (parts.secondAt !== undefined && cell.length === end - start) {
      const [from, to] = parts.secondAt;
      this.known = { text, start, head: from, tailStart: start + to, tail: cell.length - to, parts };
    }
    return partsToS(parts, parts.second);
  }

  /** The seconds of a cell that is otherwise the same to the byte; NaN where it is not, or they need a closer look. */
  private secondLike(
    { text, start: other, head, tailStart, tail }: Known,
    start: number,
    end: number,
  ): number {
    const { bytes } = text;
    const from = start + head;
    const to = end - tail;
    const length = to - from;
    if (length < 2) return Number.NaN;
    for (let i = 0; i < head; i++) if (bytes[start + i] !== bytes[other + i]) return Number.NaN;
    for (let i = 0; i < tail; i++) if (bytes[to + i] !== bytes[tailStart + i]) return Number.NaN;
    if (!isDigit(bytes[from]!) || !isDigit(bytes[from + 1]!)) return Number.NaN;
    const mark = bytes[from + 2]!;
    if (length > 2 && ((mark !== POINT && mark !== COMMA) || length === 3)) return Number.NaN;
    const second = decimalAt(bytes, from, to, this.seen);
    return isSecond(second) ? second : Number.NaN;
  }
}

const isDigit = (code: number): boolean => code >= ZERO && code <= NINE;
