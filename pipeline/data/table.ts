/** Tables of open data: what a column is called, of which type and unit, and the rows under it. */
import type { Spoken } from '../language.ts';

export type DataType = 'string' | 'number' | 'integer' | 'boolean' | 'date';

/** An empty cell is a thing not known or not asked. */
export type DataCell = string | number | boolean | undefined;

export interface DataColumn<Name extends string = string> {
  readonly name: Name;
  readonly type: DataType;
  /** UCUM code of the unit, such as `s` or `m/s`; absent where there is none. */
  readonly unit?: string;
  /** False only where every row has a value. */
  readonly optional?: boolean;
  readonly about: (spoken: Spoken) => string;
}

export interface DataTable {
  readonly name: DataTableName;
  readonly columns: readonly DataColumn[];
  /** Column names that tell one row from every other of the archive. */
  readonly key: readonly string[];
  readonly about: (spoken: Spoken) => string;
}

export type DataTableName = 'tests' | 'attempts' | 'results' | 'traces';

export type DataRow = readonly DataCell[];
