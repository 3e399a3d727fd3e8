/** Rows of open data as Apache Parquet: one file a table for the whole archive, typed, packed column by column. */
import { type BasicType, ByteWriter, ParquetWriter, schemaFromColumnData } from 'hyparquet-writer';
import type { DataCell, DataRow, DataTable, DataType } from './table.ts';

/** Dates stay texts as in the CSV, year-month-day, which every reader sorts and casts. */
const TYPES: Readonly<Record<DataType, BasicType>> = {
  string: 'STRING',
  number: 'DOUBLE',
  integer: 'INT32',
  boolean: 'BOOLEAN',
  date: 'STRING',
};

/** Rows packed at a time: no more of them are held in memory, however long the table. */
const ROWS_AT_ONCE = 100_000;

/** Units and what each column holds are told in the file's own key-value metadata, in `language`. */
export function dataToParquet(table: DataTable, rows: Iterable<DataRow>, language: string): Uint8Array {
  const { columns } = table;
  const described = columns.map(({ name, unit, about }) => ({
    name,
    ...(unit === undefined ? {} : { unit }),
    description: about(language),
  }));
  const schema = schemaFromColumnData({
    columnData: columns.map(({ name, type, optional }) => ({
      name,
      data: [],
      type: TYPES[type],
      nullable: optional === true,
    })),
  });
  const writer = new ByteWriter();
  const parquet = new ParquetWriter({
    writer,
    schema,
    kvMetadata: [
      { key: 'description', value: table.about(language) },
      { key: 'columns', value: JSON.stringify(described) },
    ],
  });
  let cells: (DataCell | null)[][] = columns.map(() => []);
  const pack = (): void => {
    const columnData = columns.map(({ name }, index) => ({ name, data: cells[index]! }));
    parquet.write({ columnData, rowGroupSize: ROWS_AT_ONCE });
    cells = columns.map(() => []);
  };
  for (const row of rows) {
    for (const [index, cell] of row.entries()) cells[index]!.push(cell ?? null);
    if (cells[0]!.length === ROWS_AT_ONCE) pack();
  }
  if (cells[0]!.length > 0) pack();
  parquet.finish();
  return new Uint8Array(writer.getBuffer());
}
