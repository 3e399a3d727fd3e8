import { createHash } from 'node:crypto';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { DuckDBConnection } from '@duckdb/node-api';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import Papa from 'papaparse';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { NO_STORE } from '../../pipeline/cache/store.ts';
import { DATA_TABLES, TABLES_OF_A_TEST } from '../../pipeline/data/tables.ts';
import { LANGUAGES } from '../../pipeline/language.ts';
import { openOutput } from '../../pipeline/press/output.ts';
import { resultsToJson } from '../../pipeline/press/results-data.ts';
import { writeData } from '../../pipeline/press/write-data.ts';
import type { Publication } from '../../pipeline/result/result.ts';
import { coastDownTable } from '../../pipeline/table/coast-downs.ts';
import { demoPublication } from '../demo.ts';

let folder: string;
let publication: Publication;
let duckdb: DuckDBConnection;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'open-data-'));
  publication = await demoPublication();
  await writeData(publication, openOutput(folder, NO_STORE));
  duckdb = await DuckDBConnection.create();
}, 120_000);
afterAll(async () => {
  duckdb?.closeSync();
  await rm(folder, { recursive: true, force: true });
});

const file = (path: string): string => join(folder, 'data', path);
const text = (path: string): Promise<string> => readFile(file(path), 'utf8');
const json = async (path: string): Promise<unknown> => JSON.parse(await text(path));
/** Rows of a query as DuckDB gives them, counts as numbers. */
async function ask(sql: string): Promise<readonly (readonly unknown[])[]> {
  const rows = await (await duckdb.runAndReadAll(sql)).getRowsJS();
  return rows.map(row => row.map(cell => (typeof cell === 'bigint' ? Number(cell) : cell)));
}
/** The readings are one file a year, which a reader takes together. */
const parquet = (table: string): string =>
  `read_parquet('${file(`${table === 'traces' ? 'traces-*' : table}.parquet`)}')`;

interface Resource {
  readonly name: string;
  readonly path: string;
  readonly format: string;
  readonly bytes: number;
  readonly hash: string;
  readonly schema: {
    readonly fields: readonly {
      readonly name: string;
      readonly type: string;
      readonly constraints?: { readonly required?: boolean };
    }[];
    readonly primaryKey: readonly string[];
  };
}
const resources = async (): Promise<readonly Resource[]> =>
  ((await json('datapackage.json')) as { resources: Resource[] }).resources;

describe('the Parquet files, read by DuckDB', () => {
  it('hold every figure of results.json, bit for bit, and no other', async () => {
    const rows = await ask(
      `SELECT test, attempt, measure, start_rule, value, uncertainty FROM ${parquet('results')}`,
    );
    const read = new Map(
      rows.map(([test, attempt, measure, rule, ...numbers]) => {
        return [[test, attempt, measure, rule].join(' '), numbers];
      }),
    );
    let compared = 0;
    for (const test of publication.tests) {
      const results = JSON.parse(resultsToJson(test, publication)) as {
        attempts: { id: string; figures: Record<string, string | number>[] }[];
      };
      for (const { id, figures } of results.attempts) {
        for (const { measure, start_rule = '', ...numbers } of figures) {
          const named = (kind: string) =>
            Object.entries(numbers).find(([name]) => name.startsWith(kind))?.[1] ?? null;
          expect(read.get([test.id, id, measure, start_rule].join(' '))).toEqual([
            named('value_'),
            named('uncertainty_'),
          ]);
          compared += 1;
        }
      }
    }
    expect(compared).toBeGreaterThan(500);
    expect(rows).toHaveLength(compared);
  });

  it('hold what coasting gave, as results.json and the table of the page have it', async () => {
    const rows = await ask(
      `SELECT test, coast_downs, coasting_air_density, coasting_drag_area, coasting_drag_area_uncertainty, coasting_rolling_resistance, coasting_rolling_resistance_uncertainty FROM ${parquet('tests')}`,
    );
    let coasted = 0;
    for (const test of publication.tests) {
      const [, ...cells] = rows.find(([id]) => id === test.id)!;
      const { coasting } = JSON.parse(resultsToJson(test, publication)) as {
        coasting?: Record<string, number> & { coast_downs: readonly unknown[] };
      };
      if (coasting === undefined) {
        expect(test.coastDowns, test.id).toBeUndefined();
        expect(cells, test.id).toEqual([null, null, null, null, null, null]);
        continue;
      }
      expect(cells).toEqual([
        coasting.coast_downs.length,
        coasting.air_density_kgm3,
        coasting.drag_area_m2,
        coasting.drag_area_uncertainty_m2,
        coasting.rolling_resistance,
        coasting.rolling_resistance_uncertainty,
      ]);
      const [dragArea] = coastDownTable(test, publication.house)!.rows;
      const printed = dragArea!
        .slice(1, 3)
        .map(({ text: cell }) => Number.parseFloat(cell.replace('± ', '')));
      expect(coasting.drag_area_m2).toBeCloseTo(printed[0]!, 2);
      // Rounded to its own places, up where that matters.
      expect(Math.abs(coasting.drag_area_uncertainty_m2! - printed[1]!)).toBeLessThan(0.01);
      coasted += 1;
    }
    expect(coasted).toBe(1);
  });

  it('hold every reading of every trace, with the sums of speed and distance', async () => {
    const rows = await ask(
      `SELECT test, log, count(*), sum(speed), max(distance) FROM ${parquet('traces')} GROUP BY ALL`,
    );
    const traces = publication.tests.flatMap(({ id, attempts }) =>
      [...new Map(attempts.map(({ log, trace }) => [log, trace]))].map(([log, trace]) => ({
        id,
        log,
        trace,
      })),
    );
    expect(rows).toHaveLength(traces.length);
    for (const { id, log, trace } of traces) {
      const [, , count, speed, distance] = rows.find(row => row[0] === id && row[1] === log)!;
      expect(count).toBe(trace.speedMps.length);
      expect(speed).toBeCloseTo(
        trace.speedMps.reduce((sum, v) => sum + v, 0),
        6,
      );
      expect(distance).toBe(trace.distanceM.at(-1));
    }
  });

  it('are the same as the CSV files, cell by cell', async () => {
    for (const table of ['tests', 'attempts', 'results', 'traces'] as const) {
      const paths =
        table === 'tests' ? ['tests.csv'] : publication.tests.map(({ id }) => `${id}/${table}.csv`);
      const csv = `read_csv([${paths.map(path => `'${file(path)}'`).join(', ')}], delim = ',', quote = '"', escape = '"', header = true, all_varchar = true, nullstr = '')`;
      const columns = DATA_TABLES[table].columns;
      const same = columns.map(({ name, type }) => {
        const read = type === 'number' ? `CAST(c.${name} AS DOUBLE)` : `coalesce(c.${name}, '')`;
        const kept = type === 'number' ? `p.${name}` : `coalesce(CAST(p.${name} AS VARCHAR), '')`;
        return `${read} IS NOT DISTINCT FROM ${kept}`;
      });
      const [[count, alike]] = (await ask(
        `SELECT count(*), count(*) FILTER (${same.join(' AND ')})
           FROM (SELECT *, row_number() OVER () AS row FROM ${csv}) c
           FULL JOIN (SELECT *, row_number() OVER () AS row FROM ${parquet(table)}) p USING (row)`,
      )) as [[number, number]];
      expect(count, table).toBeGreaterThan(0);
      expect(alike, table).toBe(count);
    }
  });

  it('say in themselves what each column holds', async () => {
    const [[columns]] = (await ask(
      `SELECT decode(value) FROM parquet_kv_metadata('${file('traces-2026.parquet')}') WHERE decode(key) = 'columns'`,
    )) as [[string]];
    const told = JSON.parse(columns) as { name: string; unit?: string; description: string }[];
    expect(told.find(({ name }) => name === 'speed')).toMatchObject({ unit: 'm/s' });
  });
});

describe('the Data Package', () => {
  // test/fixtures/datapackage-2.0.json: structure of datapackage.org/profiles/2.0/datapackage.json (Unlicense).
  it('fits the published profile', async () => {
    const profile = JSON.parse(await readFile('test/fixtures/datapackage-2.0.json', 'utf8')) as object;
    const ajv = new Ajv({ strict: false, allErrors: true });
    addFormats.default(ajv);
    // A hint to forms, not a constraint.
    ajv.addFormat('textarea', true);
    const validate = ajv.compile(profile);
    const descriptor = (await json('datapackage.json')) as Record<string, unknown>;
    expect([validate(descriptor), validate.errors]).toEqual([true, null]);
    // The profile is one that can fail.
    expect(validate({ ...descriptor, resources: [] })).toBe(false);
    expect(validate({ ...descriptor, licenses: [{ title: 'no name and no path' }] })).toBe(false);
  });

  it('names every file with its size and hash', async () => {
    const named = await resources();
    expect(named.length).toBe(1 + publication.tests.length * TABLES_OF_A_TEST.length + 4);
    expect(new Set(named.map(({ name }) => name)).size).toBe(named.length);
    for (const { path, bytes, hash } of named) {
      const content = await readFile(file(path));
      expect([bytes, hash], path).toEqual([
        content.byteLength,
        `sha256:${createHash('sha256').update(content).digest('hex')}`,
      ]);
    }
  });

  it('describes the columns that are there, of their types, and keys that are unique', async () => {
    for (const { path, format, schema } of await resources()) {
      if (format !== 'csv') continue;
      const { data, meta, errors } = Papa.parse<Record<string, string>>(await text(path), {
        header: true,
        skipEmptyLines: true,
      });
      expect(errors, path).toEqual([]);
      expect(meta.fields, path).toEqual(schema.fields.map(({ name }) => name));
      // datapackage.org, Table Schema: lexical forms of number, integer, boolean, date.
      const fits: Record<string, RegExp> = {
        string: /^/,
        number: /^-?(\d+(\.\d*)?|\.\d+)([eE][+-]?\d+)?$/,
        integer: /^-?\d+$/,
        boolean: /^(true|false)$/,
        date: /^\d{4}-\d{2}-\d{2}$/,
      };
      for (const { name, type, constraints } of schema.fields) {
        for (const row of data) {
          const cell = row[name]!;
          if (cell === '') expect([path, name, constraints?.required]).toEqual([path, name, undefined]);
          else if (!fits[type]!.test(cell)) expect.fail(`${path}: ${name} is '${cell}', no ${type}`);
        }
      }
      const keys = data.map(row => schema.primaryKey.map(name => row[name]).join('\n'));
      expect(new Set(keys).size, path).toBe(keys.length);
    }
  }, 300_000);
});

describe('CSV on the Web', () => {
  // W3C, Metadata Vocabulary for Tabular Data, 17 December 2015, 5.2 to 5.6: context, tables, url, columns, types.
  it('describes each test’s files with their columns in order and known types', async () => {
    const TYPES = ['string', 'double', 'integer', 'boolean', 'date'];
    for (const folderOf of ['', ...publication.tests.map(({ id }) => `${id}/`)]) {
      const metadata = (await json(`${folderOf}csv-metadata.json`)) as {
        '@context': [string, { '@language': string }];
        tables: {
          url: string;
          tableSchema: { columns: { name: string; datatype: string }[]; primaryKey: string[] };
        }[];
      };
      expect(metadata['@context'][0]).toBe('http://www.w3.org/ns/csvw');
      expect(metadata['@context'][1]['@language']).toBe(publication.house.language);
      expect(metadata.tables.map(({ url }) => url)).toEqual(
        folderOf === '' ? ['tests.csv'] : TABLES_OF_A_TEST.map(name => `${name}.csv`),
      );
      for (const { url, tableSchema } of metadata.tables) {
        const head = (await text(folderOf + url)).split('\r\n')[0]!.split(',');
        expect(tableSchema.columns.map(({ name }) => name)).toEqual(head);
        expect(tableSchema.columns.filter(({ datatype }) => !TYPES.includes(datatype))).toEqual([]);
        expect(tableSchema.primaryKey.filter(name => !head.includes(name))).toEqual([]);
      }
    }
  });
});

describe('words', () => {
  it('tell every table and column in every language', () => {
    for (const language of LANGUAGES) {
      for (const { name, columns, about } of Object.values(DATA_TABLES)) {
        expect(about(language).length, name).toBeGreaterThan(10);
        for (const column of columns) expect(column.about(language).length, column.name).toBeGreaterThan(5);
      }
    }
  });
});
