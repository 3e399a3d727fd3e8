/** Which column of a table is the time, the speed and each channel. */
import { ProblemError } from '../problem.ts';
import {
  logColumnAbsent,
  logNoSpeedColumn,
  logNoTimeColumn,
  logQuantityUnknown,
  logSpeedUnitUnknown,
  logUnitUnknown,
  speedColumnByUnit,
  twoSpeedColumns,
} from '../problems/log.ts';
import type { DeclaredColumns, LogWarning } from './log.ts';
import { QUANTITIES, QUANTITY_WORDS, SPEED_BY_UNIT, speedRank, timeRank } from './quantities.ts';
import type { ChannelName } from './samples.ts';
import { rowToCells, type Table } from './table.ts';
import { type Dimension, type HeaderCell, unitOf, unitSymbols, type WrittenUnit } from './written-unit.ts';

export interface TableColumn {
  /** Name as written in the header. */
  readonly name: string;
  readonly index: number;
  readonly unit?: WrittenUnit;
}

export interface Columns {
  readonly time: TableColumn;
  /** Other columns that may hold a clock, the likeliest first. */
  readonly clocks: readonly TableColumn[];
  readonly speed: TableColumn & { readonly unit: WrittenUnit };
  readonly channels: readonly (TableColumn & { readonly channel: ChannelName; readonly factor: number })[];
  readonly warnings: readonly LogWarning[];
}

/**
 * Columns by the declared names first, then by the words and units of the header.
 * @throws ProblemError where a declaration does not fit the header, or no unit of the speed is known.
 */
export function chooseColumns(file: string, table: Table, declared: DeclaredColumns): Columns {
  const taken = new Map<string, TableColumn>();
  for (const [word, { name, unit }] of Object.entries(declared)) {
    if (!QUANTITY_WORDS.includes(word))
      throw new ProblemError(logQuantityUnknown(file, word, QUANTITY_WORDS));
    taken.set(word, declaredColumn(file, table, word, name, unit));
  }
  const columns = table.header.map(toColumn);
  const free = (index: number) => ![...taken.values()].some(column => column.index === index);
  const ranked = (rank: (cell: HeaderCell) => number | undefined) =>
    columns
      .map(column => ({ column, rank: rank(table.header[column.index]!) }))
      .filter(
        (one): one is { column: TableColumn; rank: number } =>
          one.rank !== undefined && free(one.column.index),
      )
      .sort((a, b) => a.rank - b.rank || a.column.index - b.column.index);

  const times = ranked(timeRank);
  const names = columns.map(column => column.name);
  const time = taken.get('time') ?? times[0]?.column;
  if (!time) throw new ProblemError(logNoTimeColumn(file, table.headerLine, names));
  taken.set('time', time);
  const speeds = ranked(speedRank);
  if (!taken.has('speed') && speeds.length === 0) {
    throw new ProblemError(logNoSpeedColumn(file, table.headerLine, names));
  }
  const { speed, warnings } = chooseSpeed(file, table, taken.get('speed'), speeds);
  taken.set('speed', speed);

  const channels = [];
  for (const { word, channel, dimension, names, unitNeeded } of QUANTITIES) {
    const column =
      taken.get(word) ??
      columns.find(({ index, unit }) => {
        const fits = unit ? unit.dimension === dimension : !unitNeeded;
        const named = names.test(table.header[index]!.words) || (unit?.dimension === 'engine-speed' && fits);
        return free(index) && fits && named;
      });
    if (!column) continue;
    taken.set(word, column);
    channels.push({ ...column, channel, factor: column.unit?.factor ?? 1 });
  }
  const clocks = times.map(one => one.column).filter(column => column.index !== time.index);
  return { time, clocks, speed, channels, warnings };
}

const toColumn = (cell: HeaderCell, index: number): TableColumn => ({
  name: cell.text,
  index,
  ...(cell.unit ? { unit: cell.unit } : {}),
});

function declaredColumn(
  file: string,
  table: Table,
  word: string,
  name: string,
  unitText: string | undefined,
): TableColumn {
  const wanted = name.trim().toLowerCase();
  const index = table.header.findIndex(cell => cell.text.toLowerCase() === wanted);
  if (index < 0) {
    const columns = table.header.map(cell => cell.text);
    throw new ProblemError(logColumnAbsent(file, table.headerLine, word, name, columns));
  }
  const column = toColumn(table.header[index]!, index);
  if (unitText === undefined) return column;
  const unit = unitOf(unitText);
  const dimension = dimensionOf(word);
  if (unit?.dimension !== dimension) {
    throw new ProblemError(logUnitUnknown(file, table.headerLine, word, unitText, unitSymbols(dimension)));
  }
  return { ...column, unit };
}

function dimensionOf(word: string): Dimension {
  if (word === 'time' || word === 'speed') return word;
  return QUANTITIES.find(quantity => quantity.word === word)?.dimension ?? 'none';
}

function chooseSpeed(
  file: string,
  table: Table,
  declared: TableColumn | undefined,
  candidates: readonly { column: TableColumn; rank: number }[],
): Pick<Columns, 'speed' | 'warnings'> {
  const line = table.headerLine;
  const known = declared ? [{ column: declared, rank: 0 }] : candidates.filter(({ column }) => column.unit);
  const best = known[0];
  if (!best?.column.unit) {
    const column = declared ?? candidates[0]!.column;
    const others = declared ? [] : candidates.slice(1).map(one => one.column.name);
    const sample = rowToCells(table.lines.at(table.firstRow), table.delimiter)[column.index]?.trim();
    throw new ProblemError(logSpeedUnitUnknown(file, line, column.name, sample || undefined, others));
  }
  const speed = { ...best.column, unit: best.column.unit };
  const others = declared ? [] : candidates.filter(one => one !== best && one.rank < SPEED_BY_UNIT);
  return {
    speed,
    warnings: [
      ...(others.length > 0
        ? [
            twoSpeedColumns(
              line,
              speed.name,
              others.map(one => one.column.name),
            ),
          ]
        : []),
      ...(best.rank === SPEED_BY_UNIT ? [speedColumnByUnit(line, speed.name)] : []),
    ],
  };
}
