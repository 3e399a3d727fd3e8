/** Reader of tables in text: comma, semicolon or tab, decimal point or comma, any preamble. */
import { ProblemError } from '../problem.ts';
import { badCell, cutOff, logTooFewSamples, negativeSpeed, noSpeed, unevenRows } from '../problems/log.ts';
import { bytesToEncoded } from './bytes.ts';
import { Cells } from './cells.ts';
import { readClock } from './clock-text.ts';
import { type Columns, chooseColumns } from './columns.ts';
import type { Log, LogClock, LogReader, LogWarning, ReadOptions } from './log.ts';
import { NumberCells } from './number-cell.ts';
import { inOrder, placeInTime, Samples } from './samples.ts';
import { decimalsOf, recordedStep } from './step.ts';
import { findTable, rowToCells, type Table } from './table.ts';
import { Tally } from './tally.ts';
import { type TimeReader, timeReader, toClock } from './time-column.ts';

/** Rows looked at to find out how times are written. */
const ROWS_LOOKED_AT = 500;

export const csv: LogReader = {
  format: 'csv',
  describes:
    'Table with a header row: comma, semicolon or tab, decimal point or comma, units in the names or declared',
  recognises: () => true,
  read: readCsv,
};

/**
 * One sample a row that holds both a time and a speed; rows without a speed are none. Speeds that are no
 * number are left out and told; rows with a broken shape are used only where time and speed are surely whole.
 */
function readCsv(file: string, bytes: Uint8Array, options: ReadOptions): Log {
  const declared = options.columns ?? {};
  const table = findTable(file, bytesToEncoded(file, bytes), declared);
  const columns = chooseColumns(file, table, declared);
  const numbers = new NumberCells();
  const time = timeReader(file, table.headerLine, columns.time, firstTimes(table, columns), numbers);
  const { samples, decimals, warnings } = readRows(table, columns, time, numbers);
  const ordered = inOrder(file, samples);
  const told = [...columns.warnings, ...time.warnings, ...warnings, ...ordered.warnings];
  if (ordered.timeS.length < 2) {
    throw new ProblemError(logTooFewSamples(file, ordered.timeS.length, [...warnings, ...ordered.warnings]));
  }
  const { factor } = columns.speed.unit;
  const step = recordedStep(ordered.speedMps, decimals);
  const clock = clockOf(table, columns, time.clockAt(ordered.startS), ordered.line[0]!);
  return {
    file,
    format: 'csv',
    timeS: ordered.timeS,
    speedMps: ordered.speedMps.map(speed => speed * factor),
    speedSource: 'recorded',
    line: ordered.line,
    ...(step === undefined ? {} : { speedStepMps: step * factor }),
    ...(clock ? { clock } : {}),
    channels: ordered.channels,
    warnings: placeInTime(told, ordered),
  };
}

function firstTimes(table: Table, columns: Columns): string[] {
  const cells: string[] = [];
  for (let i = table.firstRow; i < table.lines.count && cells.length < ROWS_LOOKED_AT; i++) {
    const cell = rowToCells(table.lines.at(i), table.delimiter)[columns.time.index]?.trim();
    if (cell) cells.push(cell);
  }
  return cells;
}

/** Samples with the speed still in its recorded unit, so that the recorder's step can be seen. */
function readRows(table: Table, columns: Columns, time: TimeReader, numbers: NumberCells) {
  const { lines, header } = table;
  const cells = new Cells(lines, table.delimiter);
  const { channels } = columns;
  const rows = lines.count - table.firstRow - (table.lastLineEnded ? 1 : 0);
  const samples = new Samples(
    channels.map(({ channel }) => channel),
    rows,
  );
  const kept = channels.map(({ index, factor, channel }) => ({
    index,
    factor,
    column: samples.channels.get(channel)!,
  }));
  const timeIndex = columns.time.index;
  const speedIndex = columns.speed.index;
  const furthest = Math.max(timeIndex, speedIndex);
  const uneven = new Tally();
  const badTime = new Tally();
  const badSpeed = new Tally();
  const unknown = new Tally();
  const negative = new Tally();
  const warnings: LogWarning[] = [];
  const examples = { time: '', speed: '' };
  let decimals = 0;
  // Where the cell furthest right of those needed stood in the last row used: how it is usually written.
  let usualText = lines.text;
  let usualStart = 0;
  let usualEnd = 0;

  const last = lines.count - 1;
  for (let i = table.firstRow; i <= last; i++) {
    if (!cells.split(i, header.length)) continue;
    const line = i + 1;
    if (i === last && !table.lastLineEnded) {
      const usual = decimalsOf(usualText.slice(usualStart, usualEnd));
      if (cells.count < header.length || lostDigits(cells, furthest, usual)) {
        warnings.push(cutOff(line));
        continue;
      }
    }
    if (cells.count !== header.length) {
      uneven.add(line);
      if (cells.count > header.length || furthest >= cells.count - 1) continue;
    }
    if (cells.isBlank(speedIndex)) continue;
    const seconds = time.readAt(cells.text, cells.startOf(timeIndex), cells.endOf(timeIndex));
    if (Number.isNaN(seconds)) {
      if (badTime.count === 0) examples.time = cells.at(timeIndex);
      badTime.add(line);
      continue;
    }
    const speed = numbers.readAt(cells.text, cells.startOf(speedIndex), cells.endOf(speedIndex));
    if (Number.isNaN(speed)) {
      if (badSpeed.count === 0) examples.speed = cells.at(speedIndex);
      badSpeed.add(line);
      continue;
    }
    // Common practice, no source: −1 exactly is how position services write "no speed".
    if (speed === -1) {
      unknown.add(line);
      continue;
    }
    if (speed < 0) negative.add(line);
    decimals = Math.max(decimals, numbers.decimals);
    usualText = cells.text;
    usualStart = cells.startOf(furthest);
    usualEnd = cells.endOf(furthest);
    samples.time.push(seconds);
    samples.speed.push(Math.abs(speed));
    samples.line.push(line);
    for (const { index, factor, column } of kept) {
      const read =
        index < cells.count
          ? numbers.readAt(cells.text, cells.startOf(index), cells.endOf(index))
          : Number.NaN;
      column.push(read * factor);
    }
  }
  if (uneven.count > 0) warnings.push(unevenRows(uneven));
  if (badTime.count > 0) warnings.push(badCell(columns.time.name, examples.time.trim(), badTime));
  if (badSpeed.count > 0) warnings.push(badCell(columns.speed.name, examples.speed.trim(), badSpeed));
  if (unknown.count > 0) warnings.push(noSpeed('−1', unknown));
  if (negative.count > 0) warnings.push(negativeSpeed(negative));
  return { samples, decimals, warnings };
}

/** A number that ends the file may be cut: fewer decimals than in the row before are the sign. */
function lostDigits(cells: Cells, index: number, decimalsBefore: number): boolean {
  return index === cells.count - 1 && decimalsOf(cells.at(index)) < decimalsBefore;
}

/**
 * The wall clock at the first sample: that of the time column, on the date of a column beside it where the
 * time says it is UTC, or else of another column that holds a clock.
 */
function clockOf(
  table: Table,
  columns: Columns,
  own: LogClock | undefined,
  line: number,
): LogClock | undefined {
  if (own?.kind === 'utc') return own;
  const cells = rowToCells(table.lines.at(line - 1), table.delimiter);
  const beside = columns.clocks.map(({ index }) => cells[index]?.trim() ?? '');
  if (own) {
    const date = /\b(utc|gmt)\b/i.test(table.header[columns.time.index]!.words) && beside.find(isDate);
    const midnight = date ? readClock(`${date}T00:00Z`) : undefined;
    return midnight ? { kind: 'utc', startMs: midnight.seconds * 1000 + own.startMs } : own;
  }
  for (const cell of beside) {
    const reading = readClock(cell);
    const clock = reading && toClock(reading);
    if (clock) return clock;
  }
  return undefined;
}

const isDate = (cell: string): boolean => /^\d{4}-\d{2}-\d{2}$/.test(cell);
