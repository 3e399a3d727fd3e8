/** Open data of the whole publication as files under `data/`: CSV a test, Parquet for all, and what describes them. */
import { createHash } from 'node:crypto';
import { dataToCsv } from '../data/csv.ts';
import { csvwText } from '../data/csvw.ts';
import { type PackagedFile, packageText } from '../data/package.ts';
import { dataToParquet } from '../data/parquet.ts';
import { DATA_ROWS, everyRow } from '../data/rows.ts';
import type { DataTable } from '../data/table.ts';
import { DATA_TABLES, TABLES_OF_A_TEST, TESTS } from '../data/tables.ts';
import type { Publication } from '../result/result.ts';
import type { WriteFile } from './write-file.ts';

/** Names a reader of the site's data finds again: they are part of addresses and never change. */
export const DATA_FOLDER = 'data';
export const DATA_PACKAGE = 'datapackage.json';
export const CSV_METADATA = 'csv-metadata.json';
/** Where the pages find the description of the data package, from the project's root. */
export const DATA_PACKAGE_FOR_PAGES = '.evenground/datapackage.json';

/** The same bytes for the same publication. @returns the text of the data package's description */
export async function writeData(publication: Publication, write: WriteFile): Promise<string> {
  const { house, tests } = publication;
  const packaged: PackagedFile[] = [];
  const add = async (
    path: string,
    table: DataTable,
    format: PackagedFile['format'],
    content: string | Uint8Array,
    of?: { readonly id: string; readonly title: string },
  ): Promise<void> => {
    const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
    await write(`${DATA_FOLDER}/${path}`, content);
    packaged.push({
      name: [of?.id, table.name, ...(format === 'csv' ? [] : [format])].filter(Boolean).join('-'),
      path,
      title: of === undefined ? house.name : of.title,
      table,
      format,
      bytes: bytes.byteLength,
      sha256: createHash('sha256').update(bytes).digest('hex'),
    });
  };

  await add('tests.csv', TESTS, 'csv', dataToCsv(TESTS, everyRow('tests', publication)));
  await write(
    `${DATA_FOLDER}/${CSV_METADATA}`,
    csvwText([{ url: 'tests.csv', table: TESTS }], house.name, house),
  );
  for (const test of tests) {
    const files = TABLES_OF_A_TEST.map(name => ({ url: `${name}.csv`, table: DATA_TABLES[name] }));
    for (const { url, table } of files) {
      const rows = DATA_ROWS[table.name](test, house);
      await add(`${test.id}/${url}`, table, 'csv', dataToCsv(table, rows), {
        id: test.id,
        title: test.content.title,
      });
    }
    await write(`${DATA_FOLDER}/${test.id}/${CSV_METADATA}`, csvwText(files, test.content.title, house));
  }
  for (const table of Object.values(DATA_TABLES)) {
    const bytes = dataToParquet(table, everyRow(table.name, publication), house.language);
    await add(`${table.name}.parquet`, table, 'parquet', bytes);
  }
  const description = packageText(packaged, house);
  await write(`${DATA_FOLDER}/${DATA_PACKAGE}`, description);
  return description;
}
