/**
 * What the CSV files of a test hold, for programs: CSV on the Web (W3C, Metadata Vocabulary for Tabular Data, 17
 * December 2015). The file is called `csv-metadata.json`, where readers look for it beside a CSV (section 5.3 of the
 * Model for Tabular Data).
 */
import type { House } from '../result/result.ts';
import type { DataColumn, DataTable, DataType } from './table.ts';

/** As CSV on the Web names types; `double` is that of XML Schema, which is ours to the last bit. */
const TYPES: Readonly<Record<DataType, string>> = {
  string: 'string',
  number: 'double',
  integer: 'integer',
  boolean: 'boolean',
  date: 'date',
};

export interface DescribedFile {
  /** Relative to the description. */
  readonly url: string;
  readonly table: DataTable;
}

/** @param title what the files are of, such as the title of the article */
export function csvwText(files: readonly DescribedFile[], title: string, house: House): string {
  const { language } = house;
  const metadata = {
    '@context': ['http://www.w3.org/ns/csvw', { '@language': language }],
    'dc:title': title,
    'dc:publisher': house.name,
    'dc:license': { '@id': house.licence.url },
    tables: files.map(({ url, table }) => ({
      url,
      'dc:description': table.about(language),
      tableSchema: {
        columns: table.columns.map(column => columnOf(column, table, language)),
        primaryKey: table.key,
        aboutUrl: `#${table.name}-{${table.key.join(',')}}`,
      },
    })),
  };
  return `${JSON.stringify(metadata, null, 2)}\n`;
}

function columnOf({ name, type, unit, optional, about }: DataColumn, { key }: DataTable, language: string) {
  return {
    name,
    titles: name,
    'dc:description': about(language),
    datatype: TYPES[type],
    ...(unit === undefined ? {} : { 'schema:unitText': unit }),
    // An empty start rule is a value of its own: nothing there starts from rest.
    ...(optional === true || key.includes(name) ? {} : { required: true }),
  };
}
