/** The whole archive as one Data Package (datapackage.org, version 2.0): every file with its columns, size and hash. */
import type { House } from '../result/result.ts';
import type { DataColumn, DataTable } from './table.ts';

const PROFILES = 'https://datapackage.org/profiles/2.0';
const MEDIA = {
  csv: { format: 'csv', mediatype: 'text/csv', encoding: 'utf-8', type: 'table' },
  parquet: { format: 'parquet', mediatype: 'application/vnd.apache.parquet' },
} as const;

export interface PackagedFile {
  /** Letters, digits, hyphens: `results-<test>`. */
  readonly name: string;
  /** Relative to the description. */
  readonly path: string;
  readonly title: string;
  readonly table: DataTable;
  readonly format: keyof typeof MEDIA;
  readonly bytes: number;
  readonly sha256: string;
}

/** Stands for a schema until all is written down: no text of a person holds a line's end as it is. */
const SCHEMA_LINE = /^( {6}"schema": )"(\w+)"$/gm;

export function packageText(files: readonly PackagedFile[], house: House): string {
  const { language, licence } = house;
  const name = new URL(house.site).hostname;
  const data = {
    $schema: `${PROFILES}/datapackage.json`,
    name: name.toLowerCase().replace(/[^a-z0-9.-]/g, '-'),
    title: house.name,
    ...(house.strapline === undefined ? {} : { description: house.strapline }),
    homepage: house.site,
    licenses: [{ title: licence.name, path: licence.url }],
    contributors: [{ title: house.name, path: house.site, roles: ['publisher'] }],
    resources: files.map(file => ({
      name: file.name,
      path: file.path,
      title: file.title,
      description: file.table.about(language),
      ...MEDIA[file.format],
      bytes: file.bytes,
      hash: `sha256:${file.sha256}`,
      licenses: [{ title: licence.name, path: licence.url }],
      schema: file.table.name,
    })),
  };
  // An archive has thousands of files in a few tables.
  const tables = new Map(files.map(({ table }) => [table.name as string, table]));
  const schemas = new Map([...tables].map(([name, table]) => [name, schemaText(table, language)]));
  const text = JSON.stringify(data, null, 2);
  return `${text.replace(SCHEMA_LINE, (_, key: string, name: string) => key + schemas.get(name))}\n`;
}

/** As it is written down inside of a resource. */
function schemaText(table: DataTable, language: string): string {
  const schema = {
    $schema: `${PROFILES}/tableschema.json`,
    fields: table.columns.map(column => fieldOf(column, table, language)),
    primaryKey: table.key,
    // An empty start rule is a value: nothing there starts from rest.
    missingValues: [''],
  };
  return JSON.stringify(schema, null, 2).replaceAll('\n', '\n      ');
}

function fieldOf({ name, type, unit, optional, about }: DataColumn, { key }: DataTable, language: string) {
  const described = about(language);
  return {
    name,
    type,
    description: unit === undefined ? described : `${described} (${unit})`,
    ...(unit === undefined ? {} : { unit }),
    ...(optional === true || key.includes(name) ? {} : { constraints: { required: true } }),
  };
}
