/** The four tables of open data and their columns: the one list that CSV, Parquet, their descriptions and pages follow. */

import type { DataColumn, DataTable, DataTableName } from './table.ts';
import { DATA_WORDS } from './words.ts';

const column = <Name extends string>(
  table: DataTableName,
  name: Name,
  type: DataColumn['type'],
  more: { readonly unit?: string; readonly optional?: boolean } = {},
): DataColumn<Name> => ({
  name,
  type,
  ...more,
  about: spoken => {
    const words: Readonly<Record<string, string>> = DATA_WORDS(spoken)[table];
    return words[name] ?? '';
  },
});

const optional = { optional: true } as const;
const of = (unit: string) => ({ unit });
const perhaps = (unit: string) => ({ unit, optional: true });

const table = (name: DataTableName, key: readonly string[], columns: readonly DataColumn[]): DataTable => ({
  name,
  key,
  columns,
  about: spoken => DATA_WORDS(spoken).tables[name],
});

/** One row a test. */
export const TESTS = table(
  'tests',
  ['test'],
  [
    column('tests', 'test', 'string'),
    column('tests', 'title', 'string'),
    column('tests', 'date', 'date'),
    column('tests', 'published', 'date', optional),
    column('tests', 'signed_off', 'date', optional),
    column('tests', 'measured_by', 'string', optional),
    column('tests', 'car', 'string'),
    column('tests', 'car_name', 'string'),
    column('tests', 'kind', 'string'),
    column('tests', 'drive', 'string'),
    column('tests', 'driven_wheels', 'string'),
    column('tests', 'kerb_mass', 'number', of('kg')),
    column('tests', 'mass_as_tested', 'number', of('kg')),
    column('tests', 'road', 'string'),
    column('tests', 'road_name', 'string'),
    column('tests', 'headline_start_rule', 'string'),
    column('tests', 'receiver', 'string'),
    column('tests', 'attempts', 'integer'),
    column('tests', 'attempts_kept', 'integer'),
    column('tests', 'coast_downs', 'integer', optional),
    column('tests', 'coasting_air_density', 'number', perhaps('kg/m3')),
    column('tests', 'coasting_drag_area', 'number', perhaps('m2')),
    column('tests', 'coasting_drag_area_uncertainty', 'number', perhaps('m2')),
    column('tests', 'coasting_rolling_resistance', 'number', perhaps('1')),
    column('tests', 'coasting_rolling_resistance_uncertainty', 'number', perhaps('1')),
    column('tests', 'page', 'string'),
  ],
);

/** One row an attempt. */
export const ATTEMPTS = table(
  'attempts',
  ['test', 'attempt'],
  [
    column('attempts', 'test', 'string'),
    column('attempts', 'attempt', 'string'),
    column('attempts', 'at', 'string'),
    column('attempts', 'kind', 'string'),
    column('attempts', 'launch', 'string', optional),
    column('attempts', 'direction', 'string', optional),
    column('attempts', 'kept', 'boolean'),
    column('attempts', 'set_aside', 'string', optional),
    column('attempts', 'note', 'string', optional),
    column('attempts', 'log', 'string'),
    column('attempts', 'begins', 'number', of('s')),
    column('attempts', 'ends', 'number', of('s')),
    column('attempts', 'first_movement', 'number', perhaps('s')),
    column('attempts', 'rollout', 'number', perhaps('s')),
    column('attempts', 'rate', 'number', of('Hz')),
    column('attempts', 'speed_noise', 'number', of('m/s')),
    column('attempts', 'temperature', 'number', perhaps('K')),
    column('attempts', 'pressure', 'number', perhaps('Pa')),
    column('attempts', 'relative_humidity', 'number', perhaps('1')),
    column('attempts', 'air_density', 'number', perhaps('kg/m3')),
    column('attempts', 'wind', 'number', perhaps('m/s')),
    column('attempts', 'headwind', 'number', perhaps('m/s')),
    column('attempts', 'crosswind', 'number', perhaps('m/s')),
    column('attempts', 'slope', 'number', perhaps('%')),
    column('attempts', 'surface', 'string', optional),
    column('attempts', 'flags', 'string', optional),
  ],
);

/** One row a figure of an attempt; those from rest once for each start rule. */
export const RESULTS = table(
  'results',
  ['test', 'attempt', 'measure', 'start_rule'],
  [
    column('results', 'test', 'string'),
    column('results', 'attempt', 'string'),
    column('results', 'measure', 'string'),
    column('results', 'start_rule', 'string'),
    column('results', 'kept', 'boolean'),
    column('results', 'value', 'number'),
    column('results', 'uncertainty', 'number', optional),
    column('results', 'unit', 'string'),
    column('results', 'restated', 'number', optional),
    column('results', 'restated_uncertainty', 'number', optional),
  ],
);

/** One row a reading that was measured from. */
export const TRACES = table(
  'traces',
  ['test', 'log', 'line'],
  [
    column('traces', 'test', 'string'),
    column('traces', 'log', 'string'),
    column('traces', 'line', 'integer'),
    column('traces', 'attempt', 'string', optional),
    column('traces', 'time', 'number', of('s')),
    column('traces', 'speed', 'number', of('m/s')),
    column('traces', 'distance', 'number', of('m')),
  ],
);

export const DATA_TABLES: Readonly<Record<DataTableName, DataTable>> = {
  tests: TESTS,
  attempts: ATTEMPTS,
  results: RESULTS,
  traces: TRACES,
};

/** Tables that each test has files of its own of; `tests` is one for all. */
export const TABLES_OF_A_TEST = ['results', 'attempts', 'traces'] as const satisfies readonly DataTableName[];
