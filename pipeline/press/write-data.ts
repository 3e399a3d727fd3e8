/** Open data of the whole publication as files under `data/`: CSV a test, Parquet for all of them, and what describes them. */
import { codeDigest } from '../cache/code-digest.ts';
import { bytesDigest, digestOf } from '../cache/digest.ts';
import { type KeptFile, keptWork, workOnce } from '../cache/kept.ts';
import { measuringCode } from '../cache/measured-logs.ts';
import { NO_STORE, type Store } from '../cache/store.ts';
import { dataToCsv } from '../data/csv.ts';
import { csvwText } from '../data/csvw.ts';
import { type PackagedFile, packageText } from '../data/package.ts';
import { dataToParquet } from '../data/parquet.ts';
import { DATA_ROWS, everyRow } from '../data/rows.ts';
import type { DataRow, DataTable, DataTableName } from '../data/table.ts';
import { DATA_TABLES, TABLES_OF_A_TEST, TESTS } from '../data/tables.ts';
import type { House, Publication, TestResult } from '../result/result.ts';
import { type Output, storeOnly } from './output.ts';
import type { Later } from './place-later.ts';
import { testDigest } from './test-key.ts';

/** Names a reader of the site's data finds again: they are part of addresses and never change. */
export const DATA_FOLDER = 'data';
export const DATA_PACKAGE = 'datapackage.json';
export const CSV_METADATA = 'csv-metadata.json';
/** Where the pages find the description of the data package, from the project's root. */
export const DATA_PACKAGE_FOR_PAGES = '.evenground/datapackage.json';

/** One file of the package as it is kept: its table by name. */
type PackagedByName = Omit<PackagedFile, 'table'> & { readonly table: DataTableName };

/** What one test adds to the package. */
interface KeptData {
  readonly files: readonly PackagedByName[];
  /** Its row among the tests; null for an empty cell. */
  readonly row: KeptRow;
  /** Those of its attempts, of which a note may change: the table of all is packed again without looking at the tests. */
  readonly attempts: readonly KeptRow[];
}

/** Null for an empty cell, which JSON does not hold. */
type KeptRow = readonly (DataRow[number] | null)[];
const toKeep = (row: DataRow): KeptRow => row.map(cell => cell ?? null);
const fromKept = (row: KeptRow): DataRow => row.map(cell => cell ?? undefined);

const CODE = 'pipeline/press/write-data.ts';

/**
 * The same bytes for the same publication; what a test's files were made from before is taken from `store`.
 * @param later takes what puts a test's kept files in their places; at once where absent
 * @returns the data package's description
 */
export async function writeData(
  publication: Publication,
  output: Output,
  store: Store = NO_STORE,
  later?: Later,
): Promise<Uint8Array> {
  const { house, tests } = publication;
  const { write } = output;
  const ofTests = await writeTestsData(publication, () => true, output, store, later);
  const rows = ofTests.map(({ row }) => fromKept(row));
  const tableOfTests = dataToCsv(TESTS, rows);
  await write(`${DATA_FOLDER}/tests.csv`, tableOfTests);
  await write(
    `${DATA_FOLDER}/${CSV_METADATA}`,
    csvwText([{ url: 'tests.csv', table: TESTS }], house.name, house),
  );
  const whole: PackagedByName[] = [];
  for (const one of wholeTables(tests)) whole.push(await tableOnce(one, ofTests, publication, output, store));
  const files = [...ofTests.flatMap(({ files }) => files), ...whole].map(file => ({
    ...file,
    table: DATA_TABLES[file.table],
  }));
  const first = packaged('tests.csv', TESTS, tableOfTests, house.name);
  const description = Buffer.from(packageText([first, ...files], house), 'utf8');
  await write(`${DATA_FOLDER}/${DATA_PACKAGE}`, description);
  return description;
}

/** The files of each test, of those asked for by id. */
export async function writeTestsData(
  { house, tests }: Publication,
  only: (testId: string) => boolean,
  output: Output,
  store: Store = NO_STORE,
  later?: Later,
): Promise<readonly KeptData[]> {
  const surroundings = surroundingsOf(house);
  const made: KeptData[] = [];
  for (const test of tests.filter(({ id }) => only(id))) {
    const key = digestOf(['open data', surroundings, testDigest(test)]);
    const kept = keptWork<KeptData>(store, key);
    const put = (): Promise<KeptData> =>
      workOnce<KeptData, KeptFile>(
        store,
        key,
        output.adopt,
        () => writeTestData(test, house, surroundings, output, store),
        kept,
      );
    if (kept === undefined || later === undefined) made.push(await put());
    else {
      later.add(put);
      made.push(kept.value);
    }
  }
  return made;
}

const surroundingsOf = (house: House): string => digestOf([codeDigest(CODE), house]);

interface WholeTable {
  readonly path: string;
  readonly table: DataTable;
  readonly of: readonly TestResult[];
}

/** What a table is made from: the same rows as the files of the tests, by which it is known. */
function tableFrom(
  { path, table, of }: WholeTable,
  ofTests: readonly KeptData[],
  house: House,
): readonly unknown[] {
  const own = new Set(of.map(({ id }) => id));
  const from = ofTests.flatMap(({ files, row }) =>
    own.has(String(row[0])) ? [row, files.find(file => file.table === table.name)?.sha256] : [],
  );
  return ['parquet', surroundingsOf(house), table.name, path, from];
}

/** A table put in its place, by its content where it is known: it is large, and need not be read then. */
async function tableOnce(
  one: WholeTable,
  ofTests: readonly KeptData[],
  publication: Publication,
  output: Output,
  store: Store,
): Promise<PackagedByName> {
  const { house } = publication;
  const key = digestOf(tableFrom(one, ofTests, house));
  return await workOnce<PackagedByName, KeptFile>(store, key, output.adopt, async () => {
    const path = `${DATA_FOLDER}/${one.path}`;
    const bytes = tableBytes(one, ofTests, publication);
    await output.write(path, bytes);
    const { name } = one.table;
    return {
      value: { ...packaged(one.path, one.table, bytes, house.name), table: name },
      files: [{ path, sha256: output.files.get(path)! }],
    };
  });
}

function tableBytes(
  { table, of }: WholeTable,
  ofTests: readonly KeptData[],
  publication: Publication,
): Uint8Array {
  const rows =
    table.name === 'attempts'
      ? ofTests.flatMap(({ attempts }) => attempts.map(fromKept))
      : everyRow(table.name, { ...publication, tests: of });
  return dataToParquet(table, rows, publication.house.language);
}

/** Paths of the tables of the whole archive that are not kept as they are now. */
export async function tablesToPack(publication: Publication, store: Store): Promise<readonly string[]> {
  const ofTests = await writeTestsData(publication, () => true, storeOnly(store), store);
  return wholeTables(publication.tests).flatMap(one =>
    store.holds(digestOf(tableFrom(one, ofTests, publication.house))) ? [] : [one.path],
  );
}

/** Makes such tables into the store. */
export async function packTables(
  publication: Publication,
  store: Store,
  paths: ReadonlySet<string>,
): Promise<void> {
  const wanted = wholeTables(publication.tests).filter(({ path }) => paths.has(path));
  // Of a long archive, a year is a small part.
  const ids = new Set(wanted.flatMap(({ of }) => of.map(({ id }) => id)));
  const ofTests = await writeTestsData(publication, id => ids.has(id), storeOnly(store), store);
  for (const one of wanted) await tableOnce(one, ofTests, publication, storeOnly(store), store);
}

/**
 * The tables of the whole archive: one file each, but for the readings, which are many, one for each year, so that
 * neither making nor loading one grows with the archive.
 */
function wholeTables(tests: readonly TestResult[]): readonly WholeTable[] {
  const years = Map.groupBy(tests, ({ content }) => content.date.slice(0, 4));
  return Object.values(DATA_TABLES).flatMap(table =>
    table.name === 'traces'
      ? [...years]
          .sort(([a], [b]) => (a < b ? -1 : 1))
          .map(([year, of]) => ({ path: `${table.name}-${year}.parquet`, table, of }))
      : [{ path: `${table.name}.parquet`, table, of: tests }],
  );
}

/** The files of one test. */
async function writeTestData(
  test: TestResult,
  house: House,
  surroundings: string,
  output: Output,
  store: Store,
) {
  const own = TABLES_OF_A_TEST.map(name => ({ url: `${name}.csv`, table: DATA_TABLES[name] }));
  const files: PackagedByName[] = [];
  for (const { table } of own)
    files.push(await testTableOnce(table, test, house, surroundings, output, store));
  const metadata = `${DATA_FOLDER}/${test.id}/${CSV_METADATA}`;
  await output.write(metadata, csvwText(own, test.content.title, house));
  const paths = [...files.map(({ path }) => `${DATA_FOLDER}/${path}`), metadata];
  const [row = []] = DATA_ROWS.tests(test, house);
  return {
    value: { files, row: toKeep(row), attempts: [...DATA_ROWS.attempts(test, house)].map(toKeep) },
    files: paths.map(path => ({ path, sha256: output.files.get(path)! })),
  };
}

/** A table of one test; its readings, which are most of it, are known by what they hang on. */
async function testTableOnce(
  table: DataTable,
  test: TestResult,
  house: House,
  surroundings: string,
  output: Output,
  store: Store,
): Promise<PackagedByName> {
  const path = `${test.id}/${table.name}.csv`;
  const make = async () => {
    const content = dataToCsv(table, DATA_ROWS[table.name](test, house));
    await output.write(`${DATA_FOLDER}/${path}`, content);
    const file = packaged(path, table, content, test.content.title, test.id);
    const value: PackagedByName = { ...file, table: table.name };
    return { value, files: [{ path: `${DATA_FOLDER}/${path}`, sha256: file.sha256 }] };
  };
  if (table.name !== 'traces') return (await make()).value;
  return await workOnce<PackagedByName, KeptFile>(
    store,
    digestOf(['readings', path, surroundings, ...readingsFrom(test)]),
    output.adopt,
    make,
  );
}

/** All that the readings of a test and their attempts follow from: what is written of a single attempt is not in them. */
export const readingsFrom = ({ content, logSha256, attempts }: TestResult): readonly unknown[] => [
  measuringCode(),
  { ...content, attempts: [] },
  logSha256,
  attempts.map(({ id, log, measurement: { run } }) => [id, log, run.beginIndex, run.endIndex]),
];

function packaged(
  path: string,
  table: DataTable,
  content: string | Uint8Array,
  title: string,
  testId?: string,
): PackagedFile {
  const format = path.endsWith('.csv') ? 'csv' : 'parquet';
  const stem = path.slice(path.lastIndexOf('/') + 1).replace(/\.[^.]*$/, '');
  return {
    name: [testId, stem, ...(format === 'csv' ? [] : [format])].filter(Boolean).join('-'),
    path,
    title,
    table,
    format,
    bytes: Buffer.byteLength(content),
    sha256: bytesDigest(content),
  };
}
