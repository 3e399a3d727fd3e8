/** What a person may type after `evenground measure`. */
import { parseArgs } from 'node:util';
import type { DeclaredColumn, DeclaredColumns, LogFormat, ReadOptions } from '../log/log.ts';
import { QUANTITY_WORDS } from '../log/quantities.ts';
import { READERS } from '../log/readers.ts';
import { ProblemError } from '../problem.ts';
import {
  usageColumn,
  usageColumnKind,
  usageColumnTwice,
  usageFormat,
  usageNoLog,
  usageOptionValue,
  usageStdinTwice,
  usageUnknownOption,
} from '../problems/command.ts';

/** Everything that is accepted, in one line. */
export const MEASURE_ACCEPTS =
  'LOG … (or -), --json, --format csv|nmea|gpx, --column time=NAME[:unit], --column speed=NAME[:unit], --conditions FILE, --help';

export interface MeasureArguments {
  readonly logs: readonly string[];
  readonly json: boolean;
  readonly help: boolean;
  /** YAML with car, air, wind and road, to restate the runs by. */
  readonly conditions?: string;
  readonly reading: ReadOptions;
}

/** @throws ProblemError with one problem where the command is not called as it should be. */
export function parseMeasureArguments(args: readonly string[]): MeasureArguments {
  const { values, positionals } = parsed(args);
  const help = values.help === true;
  // An empty name is a variable that was not set; read as a path it would be the folder one stands in.
  const named = positionals.length > 0 && positionals.every(name => name.trim() !== '');
  if (!help && !named) throw new ProblemError(usageNoLog(MEASURE_ACCEPTS));
  if (positionals.filter(name => name === '-').length > 1) throw new ProblemError(usageStdinTwice());
  const columns = (values.column ?? []).map(declaredColumn);
  for (const [k, [kind]] of columns.entries()) {
    if (columns.findIndex(([other]) => other === kind) !== k) throw new ProblemError(usageColumnTwice(kind));
  }
  return {
    logs: positionals,
    json: values.json === true,
    help,
    ...(values.conditions === undefined ? {} : { conditions: values.conditions }),
    reading: {
      ...(values.format === undefined ? {} : { format: knownFormat(values.format) }),
      ...(columns.length === 0 ? {} : { columns: Object.fromEntries(columns) satisfies DeclaredColumns }),
    },
  };
}

function parsed(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        json: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
        format: { type: 'string' },
        conditions: { type: 'string' },
        column: { type: 'string', multiple: true },
      },
    });
  } catch (error) {
    // Node's own sentence is for programmers; the option it names is in quotes.
    const { code, message } = error as { code?: string; message: string };
    const option = /'([^']*)'/.exec(message)?.[1] ?? message;
    throw new ProblemError(
      code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION'
        ? usageUnknownOption(option, MEASURE_ACCEPTS)
        : usageOptionValue(option, MEASURE_ACCEPTS),
    );
  }
}

function knownFormat(text: string): LogFormat {
  if (!Object.hasOwn(READERS, text)) throw new ProblemError(usageFormat(text, Object.keys(READERS)));
  return text as LogFormat;
}

/** `time=NAME:unit`. A name may hold colons and equal signs itself: the first `=` and the last `:` divide. */
function declaredColumn(text: string): [kind: string, column: DeclaredColumn] {
  const [, kind, rest] = /^([^=]+)=(.+)$/s.exec(text) ?? [];
  if (kind === undefined || rest === undefined) throw new ProblemError(usageColumn(text));
  if (!QUANTITY_WORDS.includes(kind)) throw new ProblemError(usageColumnKind(kind, QUANTITY_WORDS));
  const [, name, unit] = /^(.+):([^:]*)$/s.exec(rest) ?? [undefined, rest, undefined];
  if (name === undefined || unit === '') throw new ProblemError(usageColumn(text));
  return [kind, unit === undefined ? { name } : { name, unit }];
}
