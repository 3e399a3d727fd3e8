/** The lines of a CSV file, the delimiter between its cells, and where its header stands. */
import { ProblemError } from '../problem.ts';
import {
  logColumnAbsent,
  logDecimalCommas,
  logNoHeader,
  logNoSpeedColumn,
  logNoTable,
  logNoTimeColumn,
} from '../problems/log.ts';
import type { EncodedText } from './bytes.ts';
import { Lines } from './lines.ts';
import type { DeclaredColumns } from './log.ts';
import { speedRank, timeRank } from './quantities.ts';
import { type HeaderCell, readHeaderCell, unitOf } from './written-unit.ts';

/** A preamble is looked through this far for the header. */
const PREAMBLE_LINES = 200;
/** Semicolon and tab before comma: a decimal comma also splits, and a header with either is certain. */
const DELIMITERS = ['\t', ';', ','] as const;

export interface Table {
  readonly lines: Lines;
  readonly delimiter: string;
  readonly header: readonly HeaderCell[];
  /** 1-based line of the header. */
  readonly headerLine: number;
  /** Index in `lines` of the first row of readings. */
  readonly firstRow: number;
  /** False where the last line has no line end, so that it may be cut off. */
  readonly lastLineEnded: boolean;
}

/** Cells of one row; a cell may stand in double quotes, with a doubled quote for one inside (RFC 4180). */
export function rowToCells(row: string, delimiter: string): string[] {
  if (!row.includes('"')) return row.split(delimiter);
  const cells: string[] = [];
  let cell = '';
  let inQuotes = false;
  for (let i = 0; i < row.length; i++) {
    const character = row[i]!;
    if (character === '"') {
      if (inQuotes && row[i + 1] === '"') cell += row[++i];
      else inQuotes = !inQuotes;
    } else if (character === delimiter && !inQuotes) {
      cells.push(cell);
      cell = '';
    } else cell += character;
  }
  cells.push(cell);
  return cells;
}

/**
 * Finds the header: the first line whose cells name a time and a speed (or hold the declared names) with
 * rows of numbers below it. A row of units under the header is read with it.
 * @throws ProblemError naming what is missing.
 */
export function findTable(file: string, text: EncodedText, declared: DeclaredColumns): Table {
  const lines = new Lines(file, text);
  const lastLineEnded = lines.at(lines.count - 1) === '';
  for (let i = 0; i < Math.min(lines.count, PREAMBLE_LINES); i++) {
    const line = lines.at(i);
    for (const delimiter of DELIMITERS) {
      if (!line.includes(delimiter)) continue;
      const header = toHeader(line, delimiter);
      if (!names(header, 'time', declared) || !names(header, 'speed', declared)) continue;
      const below = withUnitRow(lines, i + 1, delimiter, header);
      if (!hasNumbers(lines, below.firstRow, delimiter, header.length)) continue;
      return {
        lines,
        delimiter,
        header: below.header,
        headerLine: i + 1,
        firstRow: below.firstRow,
        lastLineEnded,
      };
    }
  }
  throw new ProblemError(whyNoTable(file, lines, declared));
}

function toHeader(line: string, delimiter: string): HeaderCell[] {
  const cells = rowToCells(line, delimiter).map(readHeaderCell);
  while (cells.at(-1)?.text === '') cells.pop();
  return cells;
}

function names(
  header: readonly HeaderCell[],
  quantity: 'time' | 'speed',
  declared: DeclaredColumns,
): boolean {
  const name = declared[quantity]?.name.trim().toLowerCase();
  if (name !== undefined) return header.some(cell => cell.text.toLowerCase() === name);
  const rank = quantity === 'time' ? timeRank : speedRank;
  return header.some(cell => rank(cell) !== undefined);
}

function withUnitRow(lines: Lines, start: number, delimiter: string, header: HeaderCell[]) {
  const row = nextFilled(lines, start);
  const units = rowToCells(lines.at(row), delimiter).map(cell => {
    const bare = cell.trim().replace(/^[[({]|[\])}]$/g, '');
    return { bare, unit: unitOf(bare) };
  });
  const isUnits = units.some(({ unit }) => unit) && units.every(({ bare, unit }) => unit || !/\d/.test(bare));
  if (!isUnits) return { header, firstRow: start };
  return {
    header: header.map((cell, i) => {
      const unit = cell.unit ?? units[i]?.unit;
      return unit ? { ...cell, unit } : cell;
    }),
    firstRow: row + 1,
  };
}

function nextFilled(lines: Lines, start: number): number {
  let row = start;
  while (row < lines.count && lines.at(row).trim() === '') row++;
  return row;
}

/** True where at least half of the next few rows have a number in some cell and no more cells than the header. */
function hasNumbers(lines: Lines, start: number, delimiter: string, cellCount: number): boolean {
  let seen = 0;
  let fitting = 0;
  for (let row = nextFilled(lines, start); seen < 5 && row < lines.count; row = nextFilled(lines, row + 1)) {
    const cells = rowToCells(lines.at(row), delimiter);
    while (cells.length > cellCount && cells.at(-1)!.trim() === '') cells.pop();
    seen++;
    if (cells.length > 1 && cells.length <= cellCount && cells.some(startsWithNumber)) fitting++;
  }
  return fitting > 0 && fitting >= seen / 2;
}

const startsWithNumber = (cell: string): boolean => /^\s*[-+]?[.,]?\d/.test(cell);

/** The nearest thing to a table that the file holds, so that the message can say what is missing in it. */
function whyNoTable(file: string, lines: Lines, declared: DeclaredColumns) {
  for (let i = 0; i < Math.min(lines.count, PREAMBLE_LINES); i++) {
    const line = lines.at(i);
    const delimiter = DELIMITERS.find(candidate => line.includes(candidate));
    if (delimiter === undefined) continue;
    const header = toHeader(line, delimiter);
    const columns = header.map(cell => cell.text);
    const row = nextFilled(lines, i + 1);
    const cellCount = rowToCells(lines.at(row), delimiter).length;
    if (cellCount > header.length && names(header, 'time', declared) && names(header, 'speed', declared)) {
      return logDecimalCommas(file, row + 1, header.length, cellCount);
    }
    if (!hasNumbers(lines, i + 1, delimiter, header.length)) continue;
    if (columns.filter(startsWithNumber).length > columns.length / 2) return logNoHeader(file, i + 1, line);
    // Words with a comma among them are a sentence, unless the columns stand in the rows below as well.
    for (const [word, none] of [
      ['time', logNoTimeColumn],
      ['speed', logNoSpeedColumn],
    ] as const) {
      if (names(header, word, declared)) continue;
      const name = declared[word]?.name;
      return name === undefined
        ? none(file, i + 1, columns)
        : logColumnAbsent(file, i + 1, word, name, columns);
    }
  }
  return logNoTable(file);
}
