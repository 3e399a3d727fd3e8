/** Tables on a page: each in a region of its own, so that a wide one scrolls and the page does not. */
import { escapeHtml } from './escape-html.ts';

/**
 * A `<table>` of `tableToHtml` in a region that can be reached and scrolled by keyboard; `label` names it.
 * Caption and notes get a span each: the page keeps it as wide as the screen where the table is wider.
 * A column without a name gets a plain cell at its head: an empty heading would be announced as one.
 */
export function scrollRegion(label: string, tableHtml: string): string {
  const spanned = tableHtml
    .replaceAll(/<th scope="col"[^>]*><\/th>/g, '<td></td>')
    .replace(/<caption>(.*?)<\/caption>/s, '<caption><span>$1</span></caption>')
    .replace(/<tfoot>.*<\/tfoot>/s, foot =>
      foot.replace(/(<td[^>]*>)(.*?)<\/td>/gs, '$1<span>$2</span></td>'),
    );
  return `<div class="table-scroll" tabindex="0" role="region" aria-label="${escapeHtml(label)}, table">${spanned}</div>`;
}
