/** The addresses of every page for search engines, as sitemaps.org describes them. */
import { escapeHtml } from '../escape-html.ts';

/** Addresses that one file may hold, by the protocol. */
const MOST_ADDRESSES = 50_000;
const NAMESPACE = 'http://www.sitemaps.org/schemas/sitemap/0.9';
/** Stands for every address that leads nowhere. */
const NO_PAGE = '404.html';

/** Whether a file of the site is a page: the press folder's HTML are pieces for other systems. */
export const isPage = (path: string): boolean => path.endsWith('.html') && !path.startsWith('press/');

/**
 * Files by path: an index and the lists it names.
 * @param pages paths of files in the site, of which the HTML pages count
 * @param site the publication's address, such as `https://example.org/tests/`
 */
export function siteMap(pages: Iterable<string>, site: string): ReadonlyMap<string, string> {
  const base = new URL(site.endsWith('/') ? site : `${site}/`);
  const addresses = [...pages]
    .filter(path => isPage(path) && path !== NO_PAGE)
    .map(path => new URL(path.replace(/index\.html$/, ''), base).href)
    .sort();
  const lists = new Map<string, string>();
  for (let from = 0; from < addresses.length; from += MOST_ADDRESSES) {
    const urls = addresses.slice(from, from + MOST_ADDRESSES);
    lists.set(`sitemap-${lists.size}.xml`, xml('urlset', 'url', urls));
  }
  const index = xml(
    'sitemapindex',
    'sitemap',
    [...lists.keys()].map(name => new URL(name, base).href),
  );
  return new Map([['sitemap-index.xml', index], ...lists]);
}

const xml = (root: string, item: string, addresses: readonly string[]): string =>
  [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<${root} xmlns="${NAMESPACE}">`,
    ...addresses.map(address => `<${item}><loc>${escapeHtml(address)}</loc></${item}>`),
    `</${root}>`,
    '',
  ].join('\n');
