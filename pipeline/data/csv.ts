/** Rows of open data as comma-separated values (RFC 4180): a head, then one row a line, UTF-8. */
import { textToCsv } from '../table/csv.ts';
import type { DataCell, DataRow, DataTable } from './table.ts';

/**
 * Numbers are written in full, so that reading them gives the same double; a text that a spreadsheet would take for a
 * formula gets an apostrophe before it, a number never does.
 */
export function dataToCsv({ columns }: DataTable, rows: Iterable<DataRow>): string {
  const lines = [columns.map(({ name }) => name).join(',')];
  for (const row of rows) lines.push(row.map(cellToCsv).join(','));
  lines.push('');
  return lines.join('\r\n');
}

function cellToCsv(cell: DataCell): string {
  if (cell === undefined) return '';
  return typeof cell === 'string' ? textToCsv(cell) : String(cell);
}
