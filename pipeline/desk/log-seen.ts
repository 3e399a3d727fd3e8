/** A log as the desk shows it: recognised, its columns told in plain words, and what has to be asked. */
import { bytesToEncoded } from '../log/bytes.ts';
import { type Columns, chooseColumns } from '../log/columns.ts';
import { Lines } from '../log/lines.ts';
import type { DeclaredColumns, Log } from '../log/log.ts';
import { QUANTITIES } from '../log/quantities.ts';
import { findTable, rowToCells } from '../log/table.ts';
import { type Problem, ProblemError, printable } from '../problem.ts';
import type { AssembleTools } from '../result/assemble.ts';
import { logToStart, type RoadDay } from '../result/match-clock.ts';

export interface ColumnAsked {
  readonly as: 'time' | 'speed';
  readonly choices: readonly {
    readonly name: string;
    readonly unit?: string;
    readonly examples: readonly string[];
  }[];
}

export interface LogSeen {
  readonly file: string;
  /** Of its bytes and of what is said of its columns: what its trace is read from. */
  readonly version?: string;
  readonly format?: string;
  readonly samples?: number;
  readonly rateHz?: number;
  readonly beginsS?: number;
  readonly durationS?: number;
  readonly clock?: string;
  readonly clockOfDayS?: number;
  readonly columns?: readonly { readonly name: string; readonly as: string; readonly unit?: string }[];
  readonly asks?: readonly ColumnAsked[];
  readonly warnings?: readonly string[];
  /** Why it could not be read, where nothing can be asked that would mend it. */
  readonly problems?: readonly Problem[];
}

/** Problems that knowing a column would mend, and which column it is. */
const ASKED_FOR: Readonly<Record<string, 'time' | 'speed'>> = {
  'log-no-speed-column': 'speed',
  'log-speed-unit-unknown': 'speed',
  'log-no-time-column': 'time',
  'log-time-unit-unknown': 'time',
  'log-time-unreadable': 'time',
};
const UNITS = { speed: ['km/h', 'm/s', 'mph', 'kn'], time: ['s', 'ms'] } as const;
interface Noted {
  readonly file: string;
  readonly startsAtS?: number | undefined;
  readonly columns?: DeclaredColumns | undefined;
}

/** Never throws on what a log holds. */
export function seeLog(
  { file, startsAtS, columns }: Noted,
  bytes: Uint8Array,
  day: RoadDay,
  tools: Pick<AssembleTools, 'readLog' | 'sha256'>,
): LogSeen {
  let log: Log;
  try {
    log = tools.readLog(file, bytes, columns === undefined ? {} : { columns });
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    const asks = error.problems.flatMap(problem => {
      const as = ASKED_FOR[problem.id];
      return as === undefined ? [] : [questionOf(as, file, bytes)];
    });
    return asks.length > 0 ? { file, asks } : { file, problems: error.problems };
  }
  const { timeS, warnings, format, clock } = log;
  const durationS = timeS.at(-1) ?? 0;
  const { startsS } = logToStart(log, day, startsAtS);
  return {
    file,
    version: `${tools.sha256(bytes)} ${JSON.stringify(columns ?? {})}`,
    format,
    samples: timeS.length,
    rateHz: durationS > 0 ? (timeS.length - 1) / durationS : 0,
    beginsS: 0,
    durationS,
    ...(clock?.kind === 'utc' ? { clock: new Date(clock.startMs).toISOString() } : {}),
    ...(startsS === undefined ? {} : { clockOfDayS: startsS }),
    ...(format === 'csv' ? { columns: columnsTold(file, bytes, columns ?? {}) } : {}),
    warnings: warnings.map(({ text }) => printable(text)),
  };
}

function columnsTold(
  file: string,
  bytes: Uint8Array,
  declared: DeclaredColumns,
): NonNullable<LogSeen['columns']> {
  const { time, speed, channels }: Columns = chooseColumns(
    file,
    findTable(file, bytesToEncoded(file, bytes), declared),
    declared,
  );
  const told = (as: string, { name, unit }: Columns['time']) => ({
    name,
    as,
    ...(unit === undefined ? {} : { unit: unit.symbol }),
  });
  const wordOf = (channel: string) =>
    QUANTITIES.find(quantity => quantity.channel === channel)?.word ?? channel;
  return [
    told('time', time),
    told('speed', speed),
    ...channels.map(column => told(wordOf(column.channel), column)),
  ];
}

/** How many rows decide whether a column holds numbers. */
const EXAMPLES = 3;
const LOOKED_AT = 60;

/** Every column that holds numbers, in every unit it may have. */
function questionOf(as: 'time' | 'speed', file: string, bytes: Uint8Array): ColumnAsked {
  const { header, rows, shown } = likelyTable(new Lines(file, bytesToEncoded(file, bytes)));
  const choices = header.flatMap((name, column) => {
    const cellsOf = (of: readonly string[][]): readonly string[] =>
      of.map(cells => cells[column]?.trim() ?? '').filter(cell => cell !== '');
    const examples = cellsOf(rows);
    const isNumber = examples.length > 0 && examples.every(cell => /^[-+]?\d+([.,]\d+)?$/.test(cell));
    const isClock = as === 'time' && examples.length > 0 && examples.every(cell => /\d:\d\d/.test(cell));
    if (name.trim() === '') return [];
    const choice = { name: printable(name.trim()), examples: cellsOf(shown).map(printable) };
    if (isClock) return [choice];
    return isNumber ? UNITS[as].map(unit => ({ ...choice, unit })) : [];
  });
  return { as, choices };
}

/** Rows from all over the log: at its very beginning a car most often stands, and every column looks alike. */
function spread(lines: Lines, first: number, delimiter: string): string[][] {
  const at = [0.25, 0.5, 0.75].map(share => first + Math.floor((lines.count - first) * share));
  return at
    .filter(line => line < lines.count && lines.at(line).trim() !== '')
    .map(line => rowToCells(lines.at(line), delimiter));
}

/** The first line that has as many cells as the rows of numbers below it. */
function likelyTable(lines: Lines): {
  readonly header: readonly string[];
  readonly rows: readonly string[][];
  /** To be looked at by a person. */
  readonly shown: readonly string[][];
} {
  for (let i = 0; i < Math.min(lines.count, LOOKED_AT); i++) {
    for (const delimiter of ['\t', ';', ',']) {
      const header = rowToCells(lines.at(i), delimiter);
      if (header.length < 2 || header.every(cell => /^\s*[-+]?[\d.,:]+\s*$/.test(cell))) continue;
      const rows: string[][] = [];
      for (let row = i + 1; row < lines.count && rows.length < EXAMPLES; row++) {
        if (lines.at(row).trim() !== '') rows.push(rowToCells(lines.at(row), delimiter));
      }
      if (
        rows.length > 0 &&
        rows.every(cells => cells.length >= header.length - 1 && cells.some(cell => /\d/.test(cell)))
      ) {
        return { header, rows, shown: [rows[0]!, ...spread(lines, i + 1, delimiter)] };
      }
    }
  }
  return { header: [], rows: [], shown: [] };
}
