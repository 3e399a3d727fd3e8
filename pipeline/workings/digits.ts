/** Digits of workings: more than the figures carry, so that redoing them by hand ends at the printed figure. */

import { tagOf } from '../language.ts';
import { printQuantity, type QuantityKind, withUnit } from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import type { ForReaders } from '../speed-unit.ts';

/** Decimals of each kind of quantity. */
const DECIMALS = {
  time: 4,
  speed: 3,
  distance: 3,
  acceleration: 3,
} as const satisfies Partial<Record<QuantityKind, number>>;

export type WorkedKind = keyof typeof DECIMALS;

/** Quantities of workings in one language, SI in. */
export class WorkingDigits {
  readonly language: string;
  /** Whose unit speeds are in. */
  readonly readers: ForReaders;
  constructor(readers: ForReaders) {
    this.readers = readers;
    this.language = tagOf(readers);
  }

  /** With its unit; `more` decimals beyond the usual ones. */
  of(value: number, kind: WorkedKind, more = 0): string {
    return printQuantity(value, kind, DECIMALS[kind] + more, this.readers);
  }

  /** Digits alone, for a formula whose unit stands once. */
  bare(value: number, kind: WorkedKind): string {
    return this.of(value, kind).split('\u00a0')[0]!;
  }

  /** A share of 1 in whole per cent. */
  percent(share: number): string {
    return withUnit(roundToDecimals(share * 100, 0), '%');
  }

  /** A difference with its sign; nothing is signed where it rounds to nothing. */
  signed(value: number, kind: WorkedKind): string {
    const text = this.of(value, kind);
    return value > 0 && /[1-9]/.test(text.split('\u00a0')[0]!) ? `+${text}` : text;
  }
}
