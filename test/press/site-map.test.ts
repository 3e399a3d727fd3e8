import { describe, expect, it } from 'vitest';
import { isPage, siteMap } from '../../pipeline/press/site-map.ts';

const addressesIn = (xml: string): readonly string[] =>
  [...xml.matchAll(/<loc>([^<]*)<\/loc>/g)].map(([, address]) => address!);

describe('the list of pages for search engines (sitemaps.org)', () => {
  it('names pages by their addresses under whatever base, and nothing else', () => {
    const files = siteMap(
      [
        'index.html',
        '404.html',
        'tests/a/index.html',
        'press/a/article.html',
        'look.css',
        "de/roads/o'b/index.html",
      ],
      'https://example.org/road-tests',
    );
    expect([...files.keys()]).toEqual(['sitemap-index.xml', 'sitemap-0.xml']);
    expect(addressesIn(files.get('sitemap-index.xml')!)).toEqual([
      'https://example.org/road-tests/sitemap-0.xml',
    ]);
    expect(addressesIn(files.get('sitemap-0.xml')!)).toEqual([
      'https://example.org/road-tests/',
      'https://example.org/road-tests/de/roads/o&#39;b/',
      'https://example.org/road-tests/tests/a/',
    ]);
  });

  it('counts as pages what readers open, and no piece of the press folder', () => {
    expect(['index.html', 'de/index.html', 'press/a/article.html', 'look.css'].filter(isPage)).toEqual([
      'index.html',
      'de/index.html',
    ]);
  });

  it('holds 50,000 addresses a file at most, as the protocol asks', () => {
    const pages = Array.from({ length: 50_001 }, (_, index) => `tests/${index}/index.html`);
    const files = siteMap(pages, 'https://example.org/');
    const lists = [...files]
      .filter(([path]) => path !== 'sitemap-index.xml')
      .map(([, xml]) => addressesIn(xml));
    expect(lists.map(list => list.length)).toEqual([50_000, 1]);
    expect(new Set(lists.flat()).size).toBe(50_001);
    expect(addressesIn(files.get('sitemap-index.xml')!).length).toBe(2);
  });
});
