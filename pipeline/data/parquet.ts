/** Rows of open data as Apache Parquet: one file a table for the whole archive, typed, packed column by column. */
import { type BasicType, parquetWriteBuffer } from 'hyparquet-writer';
import type { DataCell, DataRow, DataTable, DataType } from './table.ts';

/** Dates stay texts as in the CSV, year-month-day, which every reader sorts and casts. */
const TYPES: Readonly<Record<DataType, BasicType>> = {
  string: 'STRING',
  number: 'DOUBLE',
  integer: 'INT32',
  boolean: 'BOOLEAN',
  date: 'STRING',
};

/** Units and what each column holds are told in the file's own key-value metadata, in `language`. */
export function dataToParquet(table: DataTable, rows: Iterable<DataRow>, language: string): Uint8Array {
  const { columns } = table;
  const cells: (DataCell | null)[][] = columns.map(() => []);
  for (const row of rows) for (const [index, cell] of row.entries()) cells[index]!.push(cell ?? null);
  const described = columns.map(({ name, unit, about }) => ({
    name,
    ...(unit === undefined ? {} : { unit }),
    description: about(language),
  }));
  const bytes = parquetWriteBuffer({
    columnData: columns.map(({ name, type, optional }, index) => ({
      name,
      data: cells[index]!,
      type: TYPES[type],
      nullable: optional === true,
    })),
    kvMetadata: [
      { key: 'description', value: table.about(language) },
      { key: 'columns', value: JSON.stringify(described) },
    ],
  });
  return new Uint8Array(bytes);
}
