/** A table as HTML that stands alone: caption, heads with scope, notes in its foot. */
import type { Table, TableCell } from './table.ts';

const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, sign => ENTITIES[sign] ?? sign);

/** Numbers stand right, one digit under the other; the page gives `end` tabular digits. */
const END = ' class="end"';

/** A complete `<table>`; every text is escaped, nothing is rounded or reworded. */
export function tableToHtml(table: Table): string {
  const heads = table.columns.map(({ label, unit, align }) => {
    const text =
      unit === undefined
        ? escapeHtml(label)
        : `${escapeHtml(label)} <span class="unit">${escapeHtml(unit)}</span>`;
    return `<th scope="col"${align === 'end' ? END : ''}>${text}</th>`;
  });
  const rows = table.rows.map(
    row => `<tr>${row.map((cell, index) => cellToHtml(cell, table, index)).join('')}</tr>`,
  );
  const notes = table.notes.map(
    note => `<tr><td colspan="${table.columns.length}">${escapeHtml(note)}</td></tr>`,
  );
  return [
    `<table><caption>${escapeHtml(table.caption)}</caption>`,
    `<thead><tr>${heads.join('')}</tr></thead>`,
    `<tbody>${rows.join('')}</tbody>`,
    notes.length === 0 ? '' : `<tfoot>${notes.join('')}</tfoot>`,
    '</table>',
  ].join('');
}

function cellToHtml(cell: TableCell, table: Table, index: number): string {
  const align = (cell.align ?? table.columns[index]?.align) === 'end' ? END : '';
  const text = escapeHtml(cell.text);
  return cell.header === true ? `<th scope="row"${align}>${text}</th>` : `<td${align}>${text}</td>`;
}
