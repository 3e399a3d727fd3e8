import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { MeasureId, Publication, Statistic } from '../../pipeline/result/result.ts';
import { printResult } from '../../pipeline/result/words.ts';
import type { StartRule } from '../../pipeline/run/run.ts';
import { demoPublication } from '../demo.ts';
import { breaches } from './axe.ts';
import { type BuiltSite, builtSite, isWorkings } from './built-site.ts';
import { launchBrowser } from './chromium.ts';
import { followLinks } from './links.ts';
import { type StaticServer, serveFolder } from './static-server.ts';

const WIDTHS = [360, 1280] as const;

let site: BuiltSite;
let server: StaticServer;
let browser: Browser;
let publication: Publication;

beforeAll(async () => {
  site = await builtSite();
  server = await serveFolder(site.folder, site.base);
  browser = await launchBrowser();
  publication = await demoPublication();
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
});

interface Visit {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Console errors, exceptions, requests that failed. */
  readonly faults: string[];
}

/** Opens a page and waits for everything on it, pictures below the fold too. */
async function visit(
  address: string,
  width: number,
  { script = true, expectedStatus = 200 }: { script?: boolean; expectedStatus?: number } = {},
): Promise<Visit> {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    locale: 'en-GB',
    javaScriptEnabled: script,
  });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('console', message => {
    const isOwnStatus = message.location().url === address && expectedStatus !== 200;
    if (['error', 'warning'].includes(message.type()) && !isOwnStatus) faults.push(message.text());
  });
  page.on('pageerror', error => faults.push(String(error)));
  page.on('requestfailed', request => faults.push(`${request.url()} ${request.failure()?.errorText ?? ''}`));
  page.on('response', response => {
    if (response.status() >= 400 && response.url() !== address) {
      faults.push(`${response.status()} ${response.url()}`);
    }
  });
  const response = await page.goto(address, { waitUntil: 'load' });
  expect(response?.status()).toBe(expectedStatus);
  await page.evaluate(async () => {
    for (const image of document.images) image.loading = 'eager';
    await document.fonts.ready;
    await Promise.all([...document.images].map(image => image.decode()));
  });
  return { page, context, faults };
}

const htmlOf = (path: string): string =>
  readFileSync(join(site.folder, path.endsWith('.html') ? path : `${path}index.html`), 'utf8');
/** Pages where a script lets readers choose among what stands there. */
const isChooser = (path: string): boolean => /^(?:[a-z]{2}\/)?(tests|compare|search)\/$/.test(path);
const bringsScript = (path: string): boolean => htmlOf(path).includes('<script type="module"');

/** The page of one test, not the list of all. */
const isTest = (path: string): boolean => /^(?:[a-z]{2}\/)?tests\/[^/]+\/$/.test(path);

const statusOf = (path: string): number => (path === '404.html' ? 404 : 200);
/** The page of what is not there is seen at an address that is not there. */
const addressOf = (path: string): string => server.address + (path === '404.html' ? 'not/there/' : path);

interface Picture {
  readonly source: string;
  readonly decoded: boolean;
  readonly alt: number;
  /** Ratio of its sides as drawn, to the ratio it was made with. */
  readonly ratio: number;
}

/** What one visit of a page tells. */
interface Seen {
  readonly path: string;
  readonly width: number;
  readonly name: string;
  readonly faults: readonly string[];
  /** How far the page goes beyond its right edge, px. */
  readonly beyond: number;
  readonly pictures: readonly Picture[];
  /** What breaks a rule of axe with everything open. */
  readonly violations: readonly string[];
  /** What a screen reader finds. */
  readonly read: string;
}

let walked: Promise<readonly Seen[]> | undefined;
/** Every page is opened once at each width; the tests below each look at a part of what was seen. */
function everyPage(): Promise<readonly Seen[]> {
  walked ??= walk();
  return walked;
}

async function walk(): Promise<readonly Seen[]> {
  const seen: Seen[] = [];
  for (const width of WIDTHS) for (const path of site.visited) seen.push(await see(path, width));
  return seen;
}

async function see(path: string, width: number): Promise<Seen> {
  const { page, context, faults } = await visit(addressOf(path), width, { expectedStatus: statusOf(path) });
  try {
    const read = await page.locator('body').ariaSnapshot();
    const { beyond, pictures } = await page.evaluate(() => ({
      beyond: document.documentElement.scrollWidth - document.documentElement.clientWidth,
      pictures: [...document.images].map(image => ({
        source: image.currentSrc,
        decoded: image.complete && image.naturalWidth > 0,
        alt: image.alt.length,
        ratio: (image.clientWidth * image.naturalHeight) / (image.clientHeight * image.naturalWidth),
      })),
    }));
    await page.evaluate(() => {
      for (const details of document.querySelectorAll('details')) details.open = true;
    });
    return {
      path,
      width,
      name: `${path} at ${width} px`,
      faults: [...faults],
      beyond,
      pictures,
      violations: await breaches(page),
      read,
    };
  } finally {
    await context.close();
  }
}

describe('every page, narrow and wide', () => {
  it('is there: front, tests, cars, roads, methodology, comparisons, search, data, and one for what is not', () => {
    const kinds = new Set(site.pages.map(path => path.split('/')[0]));
    expect([...kinds].sort()).toEqual([
      '',
      '404.html',
      'cars',
      'compare',
      'data',
      'de',
      'methodology',
      'roads',
      'search',
      'tests',
    ]);
  });

  it('loads without a console message or a failed request', async () => {
    const seen = await everyPage();
    expect(seen.length).toBe(site.visited.length * WIDTHS.length);
    for (const { name, faults } of seen) expect(faults, name).toEqual([]);
  }, 600_000);

  it('does not scroll sideways', async () => {
    for (const { name, beyond } of await everyPage()) expect(beyond, name).toBe(0);
  });

  it('shows every picture, described and drawn at the size it announced', async () => {
    for (const { name, path, width, pictures } of await everyPage()) {
      for (const { source, decoded, alt, ratio } of pictures) {
        expect(decoded, `${name}: ${source}`).toBe(true);
        expect(alt, `${name}: ${source}`).toBeGreaterThan(20);
        expect(Math.abs(ratio - 1), `${name}: ${source}`).toBeLessThan(0.02);
      }
      // Workings draw their plot in the page itself.
      if (isTest(path)) expect(pictures.length, name).toBeGreaterThan(0);
      const narrow = pictures.filter(({ source }) => source.endsWith('-narrow.svg')).length;
      expect(narrow, name).toBe(width === 360 ? pictures.length : 0);
    }
  });

  it('passes axe, with the numbers behind figures open', async () => {
    for (const { name, violations } of await everyPage()) expect(violations, name).toEqual([]);
  });

  it('does not shift while it loads', async () => {
    for (const path of site.visited.filter(page => page === '' || page.startsWith('tests/'))) {
      const context = await browser.newContext({ viewport: { width: 360, height: 740 }, locale: 'en-GB' });
      const page = await context.newPage();
      await page.addInitScript(() => {
        Object.assign(window, { shifted: 0 });
        new PerformanceObserver(list => {
          for (const entry of list.getEntries()) {
            (window as unknown as { shifted: number }).shifted += (
              entry as unknown as { value: number }
            ).value;
          }
        }).observe({ type: 'layout-shift', buffered: true });
      });
      await page.goto(server.address + path, { waitUntil: 'networkidle' });
      for (let step = 0; step < 12; step += 1) await page.mouse.wheel(0, 1200);
      await page.waitForLoadState('networkidle');
      // 0.1 is the limit of a good page (web.dev, Cumulative Layout Shift); fonts may move a line's end.
      expect(
        await page.evaluate(() => (window as unknown as { shifted: number }).shifted),
        path,
      ).toBeLessThan(0.02);
      await context.close();
    }
  });
});

describe('links', () => {
  it('within the site lead to pages, files and places that exist', async () => {
    const { broken, followed } = await followLinks(site, server);
    expect(broken).toEqual([]);
    expect(followed).toBeGreaterThan(200);
  });
});

describe('without a script', () => {
  it('reads the same, pictures and numbers included', async () => {
    const withScript = (await everyPage()).filter(({ width }) => width === 1280);
    // What a script adds to a chooser is a way to choose among what stands there without it: archive.test.ts.
    for (const { path, read } of withScript) {
      if (path === '404.html' || isChooser(path)) continue;
      const { page, context, faults } = await visit(server.address + path, 1280, { script: false });
      expect(await page.locator('body').ariaSnapshot(), path).toBe(read);
      expect(faults, path).toEqual([]);
      await context.close();
    }
  }, 400_000);

  it('carries none inline, and a policy that runs a file of its own at most', () => {
    for (const path of site.pages) {
      const html = htmlOf(path);
      // Linked data is read by programs; no browser runs it.
      const run = html.replace(/<script type="application\/ld\+json">[^<]*<\/script>/g, '');
      const own = run.replace(/<script type="module" src="\/[^"<>]*"><\/script>/g, '');
      expect(own, path).not.toMatch(/<script\b|\son[a-z]+\s*=|\sstyle\s*=|javascript:/i);
      const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/i.exec(html)?.[1] ?? '';
      expect(policy, path).toContain("default-src 'none'");
      expect(policy, path).not.toContain('unsafe-inline');
      expect(policy, path).not.toContain("'unsafe-eval'");
      expect(policy.includes("script-src 'self'"), path).toBe(bringsScript(path));
      expect(policy.includes("'wasm-unsafe-eval'"), path).toBe(/(^|\/)search\/$/.test(path));
    }
  });
});

describe('by keyboard', () => {
  it('the first stop skips to the content, and every table that scrolls can be reached', async () => {
    const path = site.pages.find(page => isTest(page) && page.startsWith('tests/'))!;
    const { page, context } = await visit(server.address + path, 360);
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Skip to the content');
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('content');
    const unreachable = await page.evaluate(() =>
      [...document.querySelectorAll<HTMLElement>('main *')]
        .filter(element => element.scrollWidth > element.clientWidth + 1)
        .filter(element => ['auto', 'scroll'].includes(getComputedStyle(element).overflowX))
        .filter(element => element.tabIndex < 0 || element.getAttribute('aria-label') === null)
        .map(element => element.outerHTML.slice(0, 120)),
    );
    expect(unreachable).toEqual([]);
    await context.close();
  });
});

describe('a table wider than the page', () => {
  it('is shaded at the edge beyond which it goes on, and nowhere else', async () => {
    const path = site.pages.find(page => isTest(page) && page.startsWith('tests/'))!;
    const { page, context } = await visit(server.address + path, 360);
    const wide = await page.evaluateHandle(() =>
      [...document.querySelectorAll<HTMLElement>('.table-scroll')].find(
        element => element.clientWidth > 0 && element.scrollWidth > element.clientWidth + 40,
      ),
    );
    const table = wide.asElement()!;
    // One pixel inside each edge, level with the caption's first line, where nothing is printed.
    const edges = async () => {
      const { data, info } = await sharp(await table.screenshot())
        .greyscale()
        .raw()
        .toBuffer({ resolveWithObject: true });
      const at = (x: number): number => data[2 * info.width + x]!;
      return [at(1), at(info.width - 2)];
    };
    const paper = 240;
    const [left, right] = await edges();
    expect([left! > paper, right! > paper]).toEqual([true, false]);
    await table.evaluate(element => element.scrollTo({ left: element.scrollWidth, behavior: 'instant' }));
    const [leftAtEnd, rightAtEnd] = await edges();
    expect([leftAtEnd! > paper, rightAtEnd! > paper]).toEqual([false, true]);
    await context.close();
  });
});

describe('numbers on a page', () => {
  it('in prose are those that are picked from the attempts', async () => {
    let compared = 0;
    for (const test of publication.tests) {
      const { page, context } = await visit(`${server.address}tests/${test.id}/`, 1280);
      const shown = await page
        .locator('.prose .number')
        .evaluateAll(links => links.map(link => link.querySelector('.value')?.textContent ?? ''));
      // Read from the article by hand, so that the article's own reader is not asked about itself.
      const asked = [...test.articleMarkdown.matchAll(/:(number|difference|count|condition)\{([^}]*)\}/g)];
      expect(shown, test.id).toHaveLength(asked.length);
      for (const [index, [, directive, attributes]] of asked.entries()) {
        if (directive !== 'number') continue;
        const of = (name: string): string | undefined =>
          new RegExp(`(?:^|\\s)${name}=("?)([^"\\s]+)\\1`).exec(attributes!)?.[2];
        const from = publication.tests.find(({ id }) => id === of('test')) ?? test;
        const launch = of('launch');
        const direction = of('direction');
        const attempt = of('attempt');
        const statistic = of('take') as Statistic | undefined;
        const startRule = of('start') as StartRule | undefined;
        const result = pickResult(from, publication.house, {
          measure: of('of') as MeasureId,
          ...(statistic === undefined ? {} : { statistic }),
          ...(startRule === undefined ? {} : { startRule }),
          ...(launch === undefined ? {} : { launch }),
          ...(direction === undefined ? {} : { direction }),
          ...(attempt === undefined ? {} : { attempt }),
        });
        expect(shown[index], `${test.id}: ${attributes}`).toBe(printResult(result!, publication.house).text);
        compared += 1;
      }
      await context.close();
    }
    expect(compared).toBeGreaterThan(10);
  });

  it('state start rule and count wherever a test is announced', async () => {
    for (const path of ['', ...publication.tests.map(({ id }) => `tests/${id}/`)]) {
      const { page, context } = await visit(server.address + path, 1280);
      const announced = await page.locator('.lead-figure .how, .contents .figure').allInnerTexts();
      expect(announced.length, path).toBeGreaterThan(0);
      for (const text of announced) {
        expect(text, path).toMatch(/clock (from|after)|no start rule/);
        expect(text, path).toMatch(/best of \d+|one attempt/);
      }
      await context.close();
    }
  });

  it('lead to their notes and back', async () => {
    const { page, context } = await visit(`${server.address}tests/${publication.tests[0]!.id}/`, 360);
    const first = page.locator('.prose .number').first();
    await first.click();
    expect(new URL(page.url()).hash).toBe('#number-1');
    await page.locator('#number-1 .back').first().click();
    expect(new URL(page.url()).hash).toBe('#said-1');
    await context.close();
  });
});

describe('the methodology', () => {
  it('is one click from each of its questions, and a number’s note one click from its rule', async () => {
    const { page, context } = await visit(`${server.address}methodology/`, 360);
    // Every question is jumped to, not scrolled to.
    await page.emulateMedia({ reducedMotion: 'reduce' });
    const questions = page.locator('.contents-list .question');
    expect(await questions.count()).toBeGreaterThan(5);
    for (const question of await questions.all()) {
      const asked = await question.textContent();
      await question.click();
      const id = new URL(page.url()).hash.slice(1);
      expect(await page.locator(`[id="${id}"] > h2`).textContent()).toBe(asked);
    }
    await page.goto(`${server.address}tests/${publication.tests[0]!.id}/`);
    const rule = page.locator('.number-notes .rule').first();
    const named = (await rule.textContent())?.replace(/^Rule: /, '');
    await rule.click();
    const place = new URL(page.url());
    expect(place.pathname.endsWith('/methodology/')).toBe(true);
    expect((await page.locator(`${place.hash} > h3`).textContent())?.toLowerCase()).toBe(named);
    await context.close();
  });

  it('shows the threshold’s clock beside the published ones, for every test', async () => {
    const { page, context } = await visit(`${server.address}methodology/`, 1280);
    expect(await page.locator('#threshold tbody tr').count()).toBe(publication.tests.length);
    await context.close();
  });
});

describe('on paper', () => {
  it('fits A4 and leaves out what only a screen can do', async () => {
    for (const path of site.visited.filter(page => isTest(page) || isWorkings(page))) {
      // 170 mm between the margins, at 96 px an inch.
      const { page, context } = await visit(server.address + path, Math.round((170 / 25.4) * 96));
      await page.emulateMedia({ media: 'print' });
      const beyond = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(beyond, path).toBe(0);
      expect(await page.locator('nav').first().isVisible(), path).toBe(false);
      expect(await page.locator('.caution').first().isVisible(), path).toBe(true);
      if (!isWorkings(path))
        expect(await page.locator('#number-1 .back').first().isVisible(), path).toBe(true);
      await context.close();
    }
  });
});
