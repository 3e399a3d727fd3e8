/** Pages in every language of the publication: each says its own, and leads to the others. */
import { beforeAll, describe, expect, it } from 'vitest';
import { inLanguage, languagesOf, languageWord } from '../../pipeline/result/in-language.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { Publication } from '../../pipeline/result/result.ts';
import { printResult } from '../../pipeline/result/words.ts';
import { demoPublication } from '../demo.ts';
import { type BuiltSite, builtSite, htmlOf } from './built-site.ts';

let site: BuiltSite;
let publication: Publication;
let tags: readonly string[];

beforeAll(async () => {
  site = await builtSite();
  publication = await demoPublication();
  tags = languagesOf(publication.house);
});

const isFurther = (path: string): boolean =>
  tags.slice(1).some(tag => path.startsWith(`${languageWord(tag)}/`));
const tagOfPage = (path: string): string =>
  tags.slice(1).find(tag => path.startsWith(`${languageWord(tag)}/`)) ?? tags[0]!;
const germanPages = (): readonly string[] => site.pages.filter(path => path.startsWith('de/'));

/** What a reader of the page's own language reads: parts in another language, code and addresses left out. */
function readIn(html: string): string {
  const head = [...html.matchAll(/<title>([^<]*)<\/title>|<meta name="description" content="([^"]*)"/g)].map(
    match => match[1] ?? match[2],
  );
  const body = html
    .slice(html.indexOf('<body'))
    .replace(/<(\w+)[^>]*\slang="(?!de)[^"]*"[^>]*>.*?<\/\1>/gs, ' ')
    .replace(/<code[^>]*>.*?<\/code>/gs, ' ');
  const labels = [...body.matchAll(/\s(?:aria-label|alt)="([^"]*)"/g)].map(match => match[1]);
  return [...head, body.replace(/<[^>]+>/g, ' | '), ...labels].join(' | ');
}

describe('the language of a page', () => {
  it('is its own, and the pages are the same in each', () => {
    const bare = (path: string): string => (isFurther(path) ? path.slice(3) : path);
    for (const path of site.pages) {
      expect(/<html lang="([^"]*)"/.exec(htmlOf(site, path))?.[1], path).toBe(tagOfPage(path));
    }
    const main = site.pages.filter(path => !isFurther(path) && path !== '404.html');
    expect(germanPages().length).toBeGreaterThan(50);
    for (const path of germanPages()) expect(main, path).toContain(bare(path));
  });

  it('is told to search engines for every page, each naming all of them and itself', () => {
    const alternates = (path: string): Map<string, string> =>
      new Map(
        [...htmlOf(site, path).matchAll(/<link rel="alternate" hreflang="([^"]*)" href="([^"]*)"/g)].map(
          match => [match[1]!, match[2]!],
        ),
      );
    const address = (path: string): string =>
      new URL(path, `${new URL(publication.house.site).origin}${site.base}`).href;
    const both = germanPages().map(path => path.slice(3));
    for (const path of both) {
      const named = alternates(path);
      expect([...named.keys()], path).toEqual([...tags, 'x-default']);
      expect(named.get('en-GB'), path).toBe(address(path));
      expect(named.get('de-DE'), path).toBe(address(`de/${path}`));
      expect(named.get('x-default'), path).toBe(named.get('en-GB'));
      expect(alternates(`de/${path}`), path).toEqual(named);
      expect(htmlOf(site, `de/${path}`), path).toContain(
        `<link rel="canonical" href="${address(`de/${path}`)}"`,
      );
    }
  });

  it('can be changed by a plain link on every page that has another', () => {
    for (const path of germanPages()) {
      const link = /<a href="([^"]*)" lang="en-GB" hreflang="en-GB">\s*English/.exec(htmlOf(site, path));
      expect(link?.[1], path).toBe(`${site.base}${path.slice(3)}`);
      expect(htmlOf(site, path.slice(3)), path).toMatch(/hreflang="de-DE">\s*Deutsch/);
    }
  });
});

describe('German pages', () => {
  it('hold no English outside parts that say they are', () => {
    // Words that are no German ones; names of files and of sources are left aside.
    const english = /\b(the|and|with|which|from|attempts?|kept|speed|readings?|each|every|between)\b/;
    for (const path of germanPages()) {
      const found = readIn(htmlOf(site, path))
        .split('|')
        .map(text => text.replace(/\b[\w/-]+\.(csv|gpx|nmea|md|yaml)\b|\b\d+-[\w-]+/g, ''))
        .filter(text => english.test(text));
      expect(found, path).toEqual([]);
    }
  });

  it('write decimals with a comma', () => {
    const german = inLanguage(publication, 'de-DE');
    for (const test of german.tests) {
      const html = htmlOf(site, `de/tests/${test.id}/`);
      const result = pickResult(test, german.house, { measure: '0-100-kmh' })!;
      const { text } = printResult(result, german.house);
      expect(text).toMatch(/^\d+,\d+\u00a0s$/);
      expect(html, test.id).toContain(text);
      // A number with a point and a unit behind it would be an English one.
      expect(readIn(html).match(/\d\.\d+\u00a0(s|m|km\/h|m\/s²|°C)\b/g), test.id).toBeNull();
    }
  });

  it('show pictures and tables of their own', () => {
    for (const { id } of publication.tests) {
      const pictures = [...htmlOf(site, `de/tests/${id}/`).matchAll(/<img src="([^"]*)"/g)].map(
        match => match[1]!,
      );
      expect(pictures.length, id).toBeGreaterThan(1);
      for (const picture of pictures) expect(picture, id).toContain(`press/${id}/de/`);
    }
  });
});
