/** Tables on a page: each in a region of its own, so that a wide one scrolls and the page does not. */
import { escapeHtml } from './escape-html.ts';

/**
 * A `<table>` of `tableToHtml` in a region that can be reached and scrolled by keyboard; `label` names it.
 * Caption and notes get a span each: the page keeps it as wide as the screen where the table is wider.
 */
export function scrollRegion(label: string, tableHtml: string): string {
  const spanned = tableHtml
    .replace(/<caption>(.*?)<\/caption>/s, '<caption><span>$1</span></caption>')
    .replace(/<tfoot>.*<\/tfoot>/s, foot =>
      foot.replace(/(<td[^>]*>)(.*?)<\/td>/gs, '$1<span>$2</span></td>'),
    );
  return `<div class="table-scroll" tabindex="0" role="region" aria-label="${escapeHtml(label)}">${spanned}</div>`;
}
