/**
 * What people write is never markup: a publication whose names, notes, titles and logo try to run something, built
 * in a folder of its own and opened in a real browser.
 */
import {
  appendFileSync,
  cpSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import type { Browser } from 'playwright-core';
import { SaxesParser } from 'saxes';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { bytesDigest } from '../../pipeline/cache/digest.ts';
import { buildIn, digestsUnder, programIn } from '../bench/small-project.ts';
import { ROOT, siteIn } from './built-site.ts';
import { launchBrowser } from './chromium.ts';
import { followLinks } from './links.ts';
import { type StaticServer, serveFolder } from './static-server.ts';

const TEST = 'tolvane-barrow-dry';
/** Each calls `hit`, which a page's own script would define, or leaves a trace in the page. */
const RUN = '<script>window.hit=1</script>';
const HANDLER = '"><img src=x onerror="window.hit=1">';
const END = '</script><script>window.hit=1</script>';
/** Path of its address: links must hold there too. */
const BASE = '/elsewhere/deep/';
const FORMULA = '=HYPERLINK("https://evil.example","x")';

/** Shared with the demo, which needs the same faces. */
const CACHE = join(ROOT, '.evenground/cache');

let root: string;
let dist: string;
let server: StaticServer;
let browser: Browser;
let pages: readonly string[];

const files = (ending: string): string[] =>
  (readdirSync(dist, { recursive: true }) as string[])
    .map(file => file.replaceAll('\\', '/'))
    .filter(file => file.endsWith(ending));
const text = (file: string): string => readFileSync(join(dist, file), 'utf8');

function edit(file: string, replace: (content: string) => string): void {
  const path = join(root, 'content', file);
  const before = readFileSync(path, 'utf8');
  const after = replace(before);
  expect(after, file).not.toBe(before);
  writeFileSync(path, after);
}
/** @returns what it says was made */
const build = (out: string): string => buildIn(root, '--out', out, '--cache', CACHE);
const quoted = (value: string): string => JSON.stringify(value);

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'evenground-hostile-'));
  programIn(root);
  cpSync(join(ROOT, 'content'), join(root, 'content'), {
    recursive: true,
    // A further language makes the same pages with the same templates of the same names.
    filter: from => !/content\/tests\/(?!tolvane-barrow-dry)|\.de\.\w+$/.test(from),
  });
  edit('cars/tolvane-barrow.yaml', yaml =>
    yaml
      .replace(/^name: .*$/m, `name: ${quoted(RUN)}`)
      .replace(/^short_name: .*$/m, `short_name: ${quoted('<b>x</b>&')}`)
      .replace(/^kind: .*$/m, `kind: ${quoted(`van ${HANDLER}`)}`),
  );
  edit(`tests/${TEST}/test.yaml`, yaml =>
    yaml
      .replace(/^title: .*$/m, `title: ${quoted(END)}`)
      .replace(/^byline: .*$/m, `byline: ${quoted(FORMULA)}`)
      .replace(/^attempts:\n( *- \{? ?)/m, `attempts:\n$1note: ${quoted(FORMULA + RUN)}, `)
      .replace(/^standfirst: (?:>-\n(?: {2}.*\n)+|.*\n)/m, `standfirst: ${quoted(`A ${HANDLER} ${END}`)}\n`),
  );
  // Four attempts of seven have all there is: both launches, a full stop, one set aside.
  edit(`tests/${TEST}/test.yaml`, yaml => yaml.replace(/^ {2}- \{ at: "16:(?:19|27|30)".*\n/gm, ''));
  // A second test, so that there is a pair to compare: two of its starts, in an article of one line.
  cpSync(join(root, 'content/tests', TEST), join(root, 'content/tests', `${TEST}-again`), {
    recursive: true,
  });
  edit(`tests/${TEST}-again/test.yaml`, yaml =>
    yaml
      .replace(/^ {2}- \{ at: "16:13".*\n/m, '')
      .replace(/^ {2}- \{\n {6}at: "16:16"[^}]*\}\n/m, '')
      .replace('lower_thirds: true\n', ''),
  );
  edit(`tests/${TEST}-again/article.md`, () => 'It needs :number{of=0-100-kmh}.\n');
  edit('house.yaml', yaml => yaml.replace(/^further_languages: .*\n/m, ''));
  edit('house.yaml', yaml => yaml.replace(/^strapline: .*$/m, `strapline: ${quoted(`<!-- ${RUN}`)}`));
  // What people write goes into pictures of every paper, shape and size alike.
  appendFileSync(
    join(root, 'content/house.yaml'),
    'press: { papers: [light], crops: none }\nvideo: { sizes: ["640x360"] }\n',
  );
  edit('roads/ossenby-fen.yaml', yaml => yaml.replace(/^surface: .*$/m, `surface: ${quoted(HANDLER)}`));
  edit('house.yaml', yaml => yaml.replace(/^site: .*$/m, `site: https://elsewhere.example${BASE}`));
  edit('logo.svg', svg => svg.replace('>', ` onload="window.hit=1">${'<script>window.hit=1</script>'}`));
  build('dist');
  dist = join(root, 'dist');
  pages = files('.html').filter(file => !file.startsWith('press/') && file !== '404.html');
  server = await serveFolder(dist, BASE);
  browser = await launchBrowser();
}, 600_000);

afterAll(async () => {
  await browser?.close();
  await server?.close();
  rmSync(root, { recursive: true, force: true });
});

describe('a publication that tries to run something', () => {
  it('runs nothing on any page, even where the policy is taken away', async () => {
    expect(pages.length).toBeGreaterThan(8);
    for (const bypassCSP of [false, true]) {
      const context = await browser.newContext({ bypassCSP });
      const page = await context.newPage();
      for (const file of pages) {
        // The workings repeat the same names; one page stands for the rest.
        if (file.includes('/workings/') && !file.includes('/a01/')) continue;
        await page.goto(server.address + file.replace(/index\.html$/, ''), { waitUntil: 'load' });
        const found = await page.evaluate(() => ({
          hit: (window as unknown as { hit?: number }).hit,
          handlers: [...document.querySelectorAll('*')]
            .filter(element => element.getAttributeNames().some(name => name.startsWith('on')))
            .map(element => element.outerHTML),
          inline: [...document.scripts].filter(
            script => script.src === '' && script.type !== 'application/ld+json',
          ).length,
          bold: document.querySelectorAll('b').length,
        }));
        expect(found, file).toEqual({ hit: undefined, handlers: [], inline: 0, bold: 0 });
      }
      await context.close();
    }
  }, 300_000);

  it('shows what was written as what it is', async () => {
    const page = await browser.newPage();
    await page.goto(`${server.address}tests/${TEST}/`);
    expect(await page.locator('h1').textContent()).toBe(END);
    await page.goto(`${server.address}cars/tolvane-barrow/`);
    expect(await page.locator('h1').textContent()).toBe(RUN);
    await page.close();
  });

  it('has linked data that is whole and stays in its element', async () => {
    const page = await browser.newPage();
    await page.goto(`${server.address}tests/${TEST}/`);
    const data = await page.locator('script[type="application/ld+json"]').textContent();
    const graph = JSON.parse(data!) as { '@graph': { '@type': string; name?: string; headline?: string }[] };
    expect(graph['@graph'][0]!.headline).toBe(END);
    expect(graph['@graph'][1]!.name).toBe(RUN);
    await page.close();
  });

  it('has figures that are well-formed, hold no script, handler or address, and run nothing when opened', async () => {
    const figures = files('.svg');
    expect(figures.length).toBeGreaterThan(20);
    for (const file of figures) {
      const parser = new SaxesParser();
      const bad: string[] = [];
      parser.on('error', error => bad.push(String(error)));
      parser.on('opentag', ({ name, attributes }) => {
        if (/script|foreignobject|iframe/i.test(name)) bad.push(name);
        for (const [attribute, value] of Object.entries(attributes)) {
          if (/^on/i.test(attribute) || /javascript:/i.test(String(value))) bad.push(`${name} ${attribute}`);
        }
      });
      parser.write(text(file)).close();
      expect(bad, file).toEqual([]);
    }
    const page = await browser.newPage();
    const opened = figures.filter(name => name.endsWith('-text.svg')).slice(0, 12);
    expect(opened.length).toBe(12);
    for (const file of opened) {
      await page.goto(server.address + file);
      expect(await page.evaluate(() => (window as unknown as { hit?: number }).hit), file).toBeUndefined();
    }
    await page.close();
  });

  it('has a feed whose names are text, and no markup', () => {
    const parser = new SaxesParser();
    const names = new Set<string>();
    const titles: string[] = [];
    let open = '';
    parser.on('error', error => {
      throw error;
    });
    parser.on('opentag', ({ name }) => {
      names.add(name);
      open = name;
    });
    parser.on('text', content => {
      if (open === 'title') titles.push(content);
    });
    parser.write(text('feed.xml')).close();
    expect(titles.join('')).toContain(END);
    expect([...names].filter(name => /script|img|b$/i.test(name) && name !== 'subtitle')).toEqual([]);
  });

  it('has tables in which no text is a formula', () => {
    let cells = 0;
    for (const file of files('.csv')) {
      const { data } = Papa.parse<string[]>(text(file), { skipEmptyLines: true });
      for (const cell of data.flat()) {
        cells += 1;
        if (/^[=@\t\r]/.test(cell) || (/^[+-]/.test(cell) && !/^[+-]?[\d.,\s]+(e[+-]?\d+)?$/i.test(cell)))
          expect.fail(`${file}: ${cell}`);
      }
    }
    expect(cells).toBeGreaterThan(1000);
    expect(text(`data/${TEST}/attempts.csv`)).toContain(`'${FORMULA.replaceAll('"', '""')}`);
  });

  it('has articles for other systems without anything that runs', async () => {
    const page = await browser.newPage();
    const articles = files('.html').filter(name => name.startsWith('press/'));
    expect(articles.length).toBeGreaterThan(1);
    for (const file of articles) {
      await page.setContent(text(file));
      const found = await page.evaluate(() => ({
        hit: (window as unknown as { hit?: number }).hit,
        scripts: document.scripts.length,
      }));
      expect(found, file).toEqual({ hit: undefined, scripts: 0 });
    }
    await page.close();
  });
});

describe('a publication under another path than the root', () => {
  it('has links that lead to pages, files and places that exist', async () => {
    const { broken, followed } = await followLinks(siteIn(dist, root), server);
    expect(broken).toEqual([]);
    expect(followed).toBeGreaterThan(100);
  });

  it('works a test out anew there: readings, script and links to workings are found', async () => {
    const page = await browser.newPage();
    const failed: string[] = [];
    page.on('response', response => {
      if (response.status() >= 400) failed.push(response.url());
    });
    await page.goto(`${server.address}tests/${TEST}/`);
    await page.locator('details.own > summary').click();
    const links = page.locator('[data-out="key"] a');
    await links.first().waitFor();
    for (const href of await links.evaluateAll(found => found.map(link => (link as HTMLAnchorElement).href)))
      expect(href.startsWith(`${server.address}tests/${TEST}/workings/`), href).toBe(true);
    expect(failed).toEqual([]);
    await page.close();
  });
});

describe('a publication that is built again', () => {
  const bytes = (folder: string): Readonly<Record<string, string>> => digestsUnder(join(root, folder));

  it('is left as it is where nothing has changed', () => {
    const before = bytes('dist');
    expect(build('dist')).toContain('Nothing has changed since');
    expect(bytes('dist')).toEqual(before);
  });

  it('is the same in another folder with pages made anew after an edit, and again where its files were changed or are gone', () => {
    // A figure of one test changes the pages that hang on it; of the other's the rest are taken as they are kept.
    edit(`tests/${TEST}-again/test.yaml`, yaml => yaml.replace('mass_kg: 22', 'mass_kg: 21'));
    const former = bytes('dist');
    build('dist');
    const edited = bytes('dist');
    const paths = Object.keys(edited).filter(path => edited[path] !== former[path]);
    expect(paths).toContain(`compare/${TEST}/${TEST}-again/index.html`);
    expect(paths.filter(path => path.startsWith(`tests/${TEST}/workings/`))).toEqual([]);
    // A page is kept under the digest of its bytes; without it no build has it from another.
    for (const page of pages) {
      const sha256 = bytesDigest(readFileSync(join(dist, page)));
      rmSync(join(CACHE, sha256.slice(0, 2), sha256.slice(2)));
    }
    expect(build('again')).toContain('Made in');
    const built = bytes('dist');
    expect(Object.keys(built).length).toBeGreaterThan(200);
    expect(bytes('again')).toEqual(built);
    writeFileSync(join(root, 'again/index.html'), 'changed');
    rmSync(join(root, 'again/tests'), { recursive: true });
    writeFileSync(join(root, 'again/own.txt'), 'put there by somebody');
    build('again');
    expect(bytes('again')).toEqual(built);
  });
});
