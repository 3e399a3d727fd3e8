/** A table as HTML that stands alone: caption, heads with scope, notes in its foot. */
import { escapeHtml } from '../escape-html.ts';
import { catalogue, type Spoken } from '../language.ts';
import type { Table, TableCell } from './table.ts';

const WORDS = catalogue({
  en: {
    table: (label: string) => `${label}, table`,
    otherAttempt: (text: string) => `${text}, the other attempt`,
  },
  de: {
    table: label => `${label}, Tabelle`,
    otherAttempt: text => `${text}, der andere Versuch`,
  },
});

/** Numbers stand right, one digit under the other; the page gives `end` tabular digits. */
const END = ' class="end"';

/**
 * A complete `<table>`; every text is escaped, nothing is rounded or reworded. Caption and notes have a span each: a
 * page keeps it as wide as the screen where the table is wider.
 */
export function tableToHtml(table: Table, spoken: Spoken): string {
  const rows = table.rows.map(
    row => `<tr>${row.map((cell, index) => cellToHtml(cell, table, index, spoken)).join('')}</tr>`,
  );
  const notes = table.notes.map(
    note => `<tr><td colspan="${table.columns.length}"><span>${escapeHtml(note)}</span></td></tr>`,
  );
  return [
    `<table><caption><span>${escapeHtml(table.caption)}</span></caption>`,
    `<thead><tr>${table.columns.map(columnToHtml).join('')}</tr></thead>`,
    `<tbody>${rows.join('')}</tbody>`,
    notes.length === 0 ? '' : `<tfoot>${notes.join('')}</tfoot>`,
    '</table>',
  ].join('');
}

/** A table of `tableToHtml` in a region that can be reached and scrolled by keyboard; `label` names it. */
export function scrollRegion(label: string, tableHtml: string, spoken: Spoken): string {
  return `<div class="table-scroll" tabindex="0" role="region" aria-label="${escapeHtml(WORDS(spoken).table(label))}">${tableHtml}</div>`;
}

function columnToHtml({ label, unit, align }: Table['columns'][number]): string {
  // An empty heading would be announced as one.
  if (label === '') return '<td></td>';
  const suffix = unit === undefined ? '' : ` <span class="unit">${escapeHtml(unit)}</span>`;
  return `<th scope="col"${align === 'end' ? END : ''}>${escapeHtml(label)}${suffix}</th>`;
}

function cellToHtml(cell: TableCell, table: Table, index: number, spoken: Spoken): string {
  const align = (cell.align ?? table.columns[index]?.align) === 'end' ? END : '';
  const text = linked(escapeHtml(cell.text), cell.workings ?? [], spoken);
  const lang = cell.lang === undefined ? '' : ` lang="${escapeHtml(cell.lang)}"`;
  return cell.header === true
    ? `<th scope="row"${align}${lang}>${text}</th>`
    : `<td${align}${lang}>${text}</td>`;
}

/** A number leads to its workings; that of a median between two attempts to both. */
function linked(text: string, [first, second]: readonly string[], spoken: Spoken): string {
  if (first === undefined) return text;
  const also =
    second === undefined
      ? ''
      : ` <a class="also" href="${escapeHtml(second)}" aria-label="${WORDS(spoken).otherAttempt(text)}">b</a>`;
  return `<a class="workings-link" href="${escapeHtml(first)}">${text}</a>${also}`;
}

/**
 * The same HTML with its links to pages, which begin at the site's root, made addresses from where it will stand.
 * A text holds no such link: its quotation marks are escaped.
 */
export function withAddresses(html: string, address: (path: string) => string): string {
  return html.replace(/ href="(\/[^"]*)"/g, (_, path: string) => ` href="${escapeHtml(address(path))}"`);
}
