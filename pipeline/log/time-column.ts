/** How the time column of a table is written: a number of seconds, or a clock. */
import { ProblemError } from '../problem.ts';
import { logTimeUnitUnknown, logTimeUnreadable, timeUnitInferred } from '../problems/log.ts';
import type { EncodedText } from './bytes.ts';
import { ClockCells } from './clock-cells.ts';
import { type ClockReading, DAY_S, Midnight, readClock, readClockDigits } from './clock-text.ts';
import type { TableColumn } from './columns.ts';
import type { LogClock, LogWarning } from './log.ts';
import { NumberCells } from './number-cell.ts';
import { unitOf } from './written-unit.ts';

/** Numbers of seconds from here to there are instants since 1970: 2000-01-01 to 2100-01-01. */
const EPOCH_FROM_S = 946_684_800;
const EPOCH_TO_S = 4_102_444_800;

export interface TimeReader {
  /** Seconds on the column's own clock from the text between `start` and `end`, past midnight; NaN where it cannot be read. */
  readAt(text: EncodedText, start: number, end: number): number;
  /** The wall clock for a time that `readAt` gave; undefined where the column only counts. */
  clockAt(seconds: number): LogClock | undefined;
  readonly warnings: readonly LogWarning[];
}

/**
 * Finds out how times are written from the column's unit and its first cells.
 * @param cells the column's first filled cells, at least one, in order
 * @throws ProblemError where nothing can be read, or the unit of a plain number is not certain.
 */
export function timeReader(
  file: string,
  line: number,
  column: TableColumn,
  cells: readonly string[],
  numbers: NumberCells,
): TimeReader {
  if (column.unit?.symbol === 'hhmmss') return digitsReader();
  const first = cells.find(cell => readClock(cell) !== undefined || plainNumber(cell) !== undefined);
  if (first === undefined) {
    throw new ProblemError(logTimeUnreadable(file, line, column.name, cells[0] ?? ''));
  }
  const reading = readClock(first);
  if (reading) return clockReader(reading.kind, /elapsed/i.test(column.name));
  if (column.unit) return numberReader(column.unit.factor, numbers, []);
  const symbol = inferUnit(cells.map(cell => plainNumber(cell) ?? Number.NaN).filter(Number.isFinite));
  if (symbol === undefined) throw new ProblemError(logTimeUnitUnknown(file, line, column.name, first));
  return numberReader(unitOf(symbol)!.factor, numbers, [timeUnitInferred(line, column.name, symbol)]);
}

function plainNumber(cell: string): number | undefined {
  // A reader of its own: looking ahead must not decide the file's decimal mark.
  const value = new NumberCells().read(cell);
  return Number.isNaN(value) ? undefined : value;
}

function numberReader(factor: number, numbers: NumberCells, warnings: readonly LogWarning[]): TimeReader {
  // Dividing by 1000 is exact to the last bit where multiplying by 0.001 is not.
  const perSecond = Math.round(1 / factor);
  const toSeconds = (value: number): number => (factor < 1 ? value / perSecond : value * factor);
  return {
    readAt: (text, start, end) => toSeconds(numbers.readAt(text, start, end)),
    clockAt: seconds =>
      seconds >= EPOCH_FROM_S && seconds < EPOCH_TO_S
        ? { kind: 'utc', startMs: Math.round(seconds * 1000) }
        : undefined,
    warnings,
  };
}

function clockReader(kind: ClockReading['kind'], elapsed: boolean): TimeReader {
  const midnight = new Midnight();
  const cells = new ClockCells(kind);
  return {
    readAt: (text, start, end) => {
      const seconds = cells.readAt(text, start, end);
      return kind === 'time-of-day' && !Number.isNaN(seconds) ? midnight.next(seconds) : seconds;
    },
    clockAt: seconds => (elapsed ? undefined : toClock({ kind, seconds })),
    warnings: [],
  };
}

function digitsReader(): TimeReader {
  const midnight = new Midnight();
  const read = (cell: string): number => {
    const seconds = readClockDigits(cell);
    return seconds === undefined ? Number.NaN : midnight.next(seconds);
  };
  return {
    readAt: (text, start, end) => read(text.slice(start, end)),
    clockAt: seconds => toClock({ kind: 'time-of-day', seconds }),
    warnings: [],
  };
}

/** The wall clock of one reading; undefined for an elapsed time. */
export function toClock({ kind, seconds }: ClockReading): LogClock | undefined {
  if (kind === 'elapsed') return undefined;
  if (kind === 'utc') return { kind, startMs: Math.round(seconds * 1000) };
  return { kind: 'time-of-day', startMs: Math.round((((seconds % DAY_S) + DAY_S) % DAY_S) * 1000) };
}

/**
 * The one unit that fits plain numbers, or undefined: instants since 1970 by their size; seconds where they
 * have fractions and step by at most 2; milliseconds where they step by 10 to 1000. Whole numbers stepping
 * by 1 could be either, and digits that never show a minute of 60 could be a clock's.
 */
function inferUnit(values: readonly number[]): string | undefined {
  const largest = Math.max(...values);
  for (const [symbol, perSecond] of [
    ['s', 1],
    ['ms', 1e3],
    ['us', 1e6],
    ['ns', 1e9],
  ] as const) {
    if (largest >= EPOCH_FROM_S * perSecond && largest < EPOCH_TO_S * perSecond) return symbol;
  }
  const steps = values
    .slice(1)
    .map((value, i) => value - values[i]!)
    .filter(step => step > 0)
    .sort((a, b) => a - b);
  const step = steps[steps.length >> 1];
  if (step === undefined) return undefined;
  const couldBeClock =
    largest >= 10_000 && values.every(value => value % 100 < 61 && (value / 100) % 100 < 60);
  if (couldBeClock) return undefined;
  if (step >= 10 && step <= 1000) return 'ms';
  const fractions = values.some(value => !Number.isInteger(value));
  return fractions && step <= 2 ? 's' : undefined;
}
