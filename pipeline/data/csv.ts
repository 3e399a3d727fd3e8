/** Rows of open data as comma-separated values (RFC 4180): a head, then one row a line, UTF-8. */
import { textToCsv } from '../table/csv.ts';
import type { DataCell, DataRow, DataTable } from './table.ts';

/**
 * Numbers are written in full, so that reading them gives the same double; a text that a spreadsheet would take for a
 * formula gets an apostrophe before it, a number never does.
 */
export function dataToCsv({ columns }: DataTable, rows: Iterable<DataRow>): string {
  const lines = [columns.map(({ name }) => name).join(',')];
  // Readings name their test, log and attempt in every row, a hundred thousand times over.
  const texts = new Map<string, string>();
  const cellToCsv = (cell: DataCell): string => {
    if (cell === undefined) return '';
    if (typeof cell !== 'string') return String(cell);
    const known = texts.get(cell) ?? textToCsv(cell);
    texts.set(cell, known);
    return known;
  };
  for (const row of rows) {
    let line = cellToCsv(row[0]);
    for (let i = 1; i < row.length; i += 1) line += `,${cellToCsv(row[i])}`;
    lines.push(line);
  }
  lines.push('');
  return lines.join('\r\n');
}
