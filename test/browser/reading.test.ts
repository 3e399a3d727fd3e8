/** Pages as they are read: links, keys, numbers with their notes, paper. What holds for every page is in pages.test.ts. */
import { setTimeout as wait } from 'node:timers/promises';
import type { Browser } from 'playwright-core';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { MeasureId, Publication, Statistic } from '../../pipeline/result/result.ts';
import { printResult } from '../../pipeline/result/words.ts';
import type { StartRule } from '../../pipeline/run/run.ts';
import { demoPublication } from '../demo.ts';
import { type BuiltSite, bringsScript, builtSite, htmlOf, isWorkings } from './built-site.ts';
import { launchBrowser } from './chromium.ts';
import { followLinks } from './links.ts';
import { type StaticServer, serveFolder } from './static-server.ts';
import { beyondEdge, isTest, visit } from './visit.ts';

/** Faces and scripts over a slow line, ms. */
const LATE_MS = 1200;

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

describe('a page', () => {
  /** How much shifts while a page loads and is scrolled to its end, faces and script `lateMs` after they are asked for. */
  async function shiftOf(
    path: string,
    width: number,
    lateMs = LATE_MS,
  ): Promise<{ path: string; shifted: number; faces: number }> {
    const context = await browser.newContext({ viewport: { width, height: 740 }, locale: 'en-GB' });
    const page = await context.newPage();
    let faces = 0;
    await page.route(/\.(woff2|js)$/, async route => {
      faces += Number(route.request().resourceType() === 'font');
      await wait(lateMs);
      await route.continue();
    });
    await page.addInitScript(() => {
      Object.assign(window, { shifted: 0 });
      new PerformanceObserver(list => {
        for (const entry of list.getEntries()) {
          (window as unknown as { shifted: number }).shifted += (entry as unknown as { value: number }).value;
        }
      }).observe({ type: 'layout-shift', buffered: true });
    });
    await page.goto(server.address + path, { waitUntil: 'networkidle' });
    await page.evaluate(async () => {
      while (scrollY + innerHeight < document.documentElement.scrollHeight) {
        scrollBy({ top: 1200, behavior: 'instant' });
        await new Promise(drawn => setTimeout(drawn, 20));
      }
    });
    await page.waitForLoadState('networkidle');
    const shifted = await page.evaluate(() => (window as unknown as { shifted: number }).shifted);
    await context.close();
    return { path, shifted, faces };
  }

  it.each([
    [360, (path: string) => path === '' || path.startsWith('tests/')],
    [1280, isTest],
  ])('does not shift at %d px while it loads', async (width, isLookedAt) => {
    // All at once: mostly they wait.
    const [a, b] = publication.tests;
    const paths = [...site.visited.filter(isLookedAt), `compare/?tests=${a!.id},${b!.id}`];
    const looked = await Promise.all([
      ...paths.map(path => shiftOf(path, width)),
      shiftOf(`tests/${a!.id}/`, width, 0),
    ]);
    expect(looked.length).toBeGreaterThan(3);
    for (const one of looked) expect(one).toEqual({ path: one.path, shifted: 0, faces: 5 });
  });

  it('fits a phone in a face of its own, where ours never come', async () => {
    const context = await browser.newContext({ viewport: { width: 360, height: 740 } });
    const page = await context.newPage();
    await page.route(/\.(woff2|svg|png|webp|avif)$/, route => route.abort());
    for (const path of site.visited) {
      await page.goto(server.address + path);
      expect(await beyondEdge(page), path).toBe(0);
    }
    await context.close();
  });

  it('carries none inline, and a policy that runs a file of its own at most', () => {
    for (const path of site.pages) {
      const html = htmlOf(site, path);
      // Linked data is read by programs; no browser runs it.
      const run = html.replace(/<script type="application\/ld\+json">[^<]*<\/script>/g, '');
      const own = run.replace(/<script type="module" src="\/[^"<>]*"><\/script>/g, '');
      expect(own, path).not.toMatch(/<script\b|\son[a-z]+\s*=|\sstyle\s*=|javascript:/i);
      const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/i.exec(html)?.[1] ?? '';
      expect(policy, path).toContain("default-src 'none'");
      expect(policy, path).not.toContain('unsafe-inline');
      expect(policy, path).not.toContain("'unsafe-eval'");
      expect(policy.includes("script-src 'self'"), path).toBe(bringsScript(site, path));
      expect(policy.includes("'wasm-unsafe-eval'"), path).toBe(/(^|\/)search\/$/.test(path));
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

describe('by keyboard', () => {
  it('the first stop skips to the content, and every table that scrolls can be reached', async () => {
    const path = site.pages.find(page => isTest(page) && page.startsWith('tests/'))!;
    const { page, context } = await visit(browser, server.address + path, 360);
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
    const { page, context } = await visit(browser, server.address + path, 360);
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
      const { page, context } = await visit(browser, `${server.address}tests/${test.id}/`, 1280);
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
      const { page, context } = await visit(browser, server.address + path, 1280);
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
    const { page, context } = await visit(
      browser,
      `${server.address}tests/${publication.tests[0]!.id}/`,
      360,
    );
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
    const { page, context } = await visit(browser, `${server.address}methodology/`, 360);
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
    const { page, context } = await visit(browser, `${server.address}methodology/`, 1280);
    expect(await page.locator('#threshold tbody tr').count()).toBe(publication.tests.length);
    await context.close();
  });
});

describe('on paper', () => {
  it('fits A4 and leaves out what only a screen can do', async () => {
    for (const path of site.visited.filter(page => isTest(page) || isWorkings(page))) {
      // 170 mm between the margins, at 96 px an inch.
      const { page, context } = await visit(browser, server.address + path, Math.round((170 / 25.4) * 96));
      await page.emulateMedia({ media: 'print' });
      expect(await beyondEdge(page), path).toBe(0);
      expect(await page.locator('nav').first().isVisible(), path).toBe(false);
      expect(await page.locator('.caution').first().isVisible(), path).toBe(true);
      if (!isWorkings(path))
        expect(await page.locator('#number-1 .back').first().isVisible(), path).toBe(true);
      await context.close();
    }
  });
});
