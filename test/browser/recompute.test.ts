/**
 * A test worked out anew in a real browser, from what is published alone. Every number is held to the build's to the
 * last bit: a number written with all its digits reads back the same (ECMA-262, Number::toString).
 */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { unroundedFigures } from '../../pipeline/recompute/tables.ts';
import { inLanguage, languagesOf, languageWord } from '../../pipeline/result/in-language.ts';
import { MEASURES, measureIds, measureLabel } from '../../pipeline/result/measures.ts';
import { resultOfOne } from '../../pipeline/result/one-attempt.ts';
import type { House, Publication, TestResult } from '../../pipeline/result/result.ts';
import { printResult, startRuleBrief } from '../../pipeline/result/words.ts';
import { START_RULES } from '../../pipeline/run/run.ts';
import { demoPublication } from '../demo.ts';
import { breaches } from './axe.ts';
import { type BuiltSite, builtSite } from './built-site.ts';
import { launchBrowser } from './chromium.ts';
import { type StaticServer, serveFolder } from './static-server.ts';
import { beyondEdge } from './visit.ts';

/** Most script a reader loads on use, compressed, bytes. */
const SCRIPT_BUDGET = 40_000;
/** Most that a page of a test takes without script: HTML, styles, faces and all its pictures; bytes. */
const PAGE_BUDGET = 150_000;

let site: BuiltSite;
let server: StaticServer;
let browser: Browser;
let publication: Publication;
/** Where the pages of further languages begin. */
let languages: readonly string[];

beforeAll(async () => {
  site = await builtSite();
  server = await serveFolder(site.folder, site.base);
  browser = await launchBrowser();
  publication = await demoPublication();
  languages = languagesOf(publication.house)
    .slice(1)
    .map(tag => `${languageWord(tag)}/`);
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
});

interface Opened {
  readonly page: Page;
  /** Paths asked for, from the base. */
  readonly asked: string[];
  readonly faults: string[];
}

async function onTest(
  { id }: Pick<TestResult, 'id'>,
  check: (opened: Opened) => Promise<void>,
  { width = 1280, path = '' } = {},
): Promise<void> {
  const context = await browser.newContext({
    viewport: { width, height: 800 },
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  const asked: string[] = [];
  const faults: string[] = [];
  page.on('request', request => asked.push(request.url().slice(server.address.length)));
  page.on('console', message => message.type() === 'error' && faults.push(message.text()));
  page.on('pageerror', error => faults.push(String(error)));
  try {
    await page.goto(`${server.address}${path}tests/${id}/`, { waitUntil: 'load' });
    await check({ page, asked, faults });
    expect(faults, id).toEqual([]);
  } finally {
    await context.close();
  }
}

async function open(page: Page): Promise<void> {
  await page.locator('details.own > summary').press('Enter');
  await page.locator('[data-out="key"] table').waitFor();
}

const compressed = (path: string): number =>
  gzipSync(readFileSync(join(site.folder, path)), { level: 9 }).length;
/** Read once: pages link to the same workings many times over. */
const read = new Map<string, string>();
function htmlOf(path: string): string {
  const html = read.get(path) ?? readFileSync(join(site.folder, path, 'index.html'), 'utf8');
  read.set(path, html);
  return html;
}
const isScript = (path: string): boolean => path.endsWith('.js');

describe('a test worked out anew by its reader', () => {
  it('has every number of the build to the last bit, measured and restated', async () => {
    for (const test of publication.tests) {
      await onTest(test, async ({ page }) => {
        await open(page);
        await page.locator('details.unrounded > summary').click();
        await page.locator('[data-out="unrounded"] tbody tr').first().waitFor();
        const rows = await page
          .locator('[data-out="unrounded"] tbody tr')
          .evaluateAll(found => found.map(row => [...row.children].map(cell => cell.textContent ?? '')));
        const written = (value: number | undefined): string => (value === undefined ? '–' : String(value));
        const { house } = publication;
        const wanted = unroundedFigures(test).map(figure => [
          figure.attempt,
          measureLabel(figure.measure, house),
          figure.startRule === undefined ? '–' : startRuleBrief(figure.startRule, house),
          written(figure.value),
          written(figure.uncertainty),
          written(figure.restated),
          written(figure.restatedUncertainty),
          MEASURES[figure.measure].unit,
        ]);
        expect(rows, test.id).toStrictEqual(wanted);
      });
    }
  });

  it('loads a few bytes before use, and at most 40 kB of script on use', async () => {
    await onTest(publication.tests[0]!, async ({ page, asked }) => {
      await page.waitForLoadState('networkidle');
      const before = asked.filter(isScript);
      expect(asked.filter(path => path.endsWith('.json'))).toEqual([]);
      expect(before.reduce((sum, path) => sum + compressed(path), 0)).toBeLessThan(2000);
      await open(page);
      const all = [...new Set(asked.filter(isScript))];
      const bytes = all.reduce((sum, path) => sum + compressed(path), 0);
      expect(bytes).toBeLessThan(SCRIPT_BUDGET);
    });
  });

  it('says whose numbers they are, and finds the way back, by keyboard', async () => {
    await onTest(publication.tests[0]!, async ({ page }) => {
      await open(page);
      const status = page.locator('.own-body [role="status"]');
      const key = page.locator('[data-out="key"]');
      const first = await key.textContent();
      const asPublished = await status.textContent();
      const counted = page.locator('input[name="counted"]:checked').first();
      await counted.press('Space');
      expect(await status.textContent()).not.toBe(asPublished);
      expect(await page.locator('.own-body').getAttribute('class')).toContain('own-choices');
      await page.locator('input[value="one-foot-rollout"], input[name="rule"]').first().focus();
      await page.keyboard.press('ArrowDown');
      expect(await key.textContent()).not.toBe(first);
      await page.locator('.own-back button').press('Enter');
      expect(await key.textContent()).toBe(first);
      expect(await status.textContent()).toBe(asPublished);
    });
  });

  it('shows the restated figures beside the measured ones, and speeds in either unit', async () => {
    await onTest(publication.tests[0]!, async ({ page }) => {
      await open(page);
      const measured = await page.locator('[data-out="key"] tbody tr td:nth-child(2)').allInnerTexts();
      await page.locator('input[name="restated"]').press('Space');
      expect(await page.locator('[data-out="key"] tbody tr td:nth-child(2)').allInnerTexts()).toEqual(
        measured,
      );
      expect(await page.locator('[data-out="restated"] tbody tr').count()).toBeGreaterThan(0);
      expect(await page.locator('.own-plot svg').innerHTML()).toContain('km/h');
      await page.locator('input[value="mph"]').check();
      expect(await page.locator('.own-plot svg').innerHTML()).toContain('mph');
    });
  });

  it('passes every accessibility rule and does not scroll sideways, narrow, wide and in every language', async () => {
    const looks = [...['', ...languages].map(path => ({ width: 360, path })), { width: 1280, path: '' }];
    for (const look of looks) {
      await onTest(
        publication.tests[0]!,
        async ({ page }) => {
          await open(page);
          await page.locator('input[name="restated"]').press('Space');
          expect(await breaches(page)).toEqual([]);
          expect(await beyondEdge(page)).toBe(0);
        },
        look,
      );
    }
  });

  it('says so where the readings cannot be fetched, and tries again', async () => {
    await onTest(publication.tests[0]!, async ({ page, faults }) => {
      await page.route('**/readings.json', route => route.abort());
      const summary = page.locator('details.own > summary');
      await summary.press('Enter');
      await page.locator('.own-body [role="alert"]').waitFor();
      await page.unroute('**/readings.json');
      await summary.press('Enter');
      await open(page);
      faults.length = 0;
    });
  });
});

describe('every published number of a test’s page', () => {
  /** What the attempts of a test print, each figure under each rule that applies: `7.57 s`. */
  const printedFigures = (test: TestResult, house: House): ReadonlySet<string> =>
    new Set(
      test.attempts.flatMap(attempt =>
        measureIds.flatMap(measure =>
          START_RULES.flatMap(startRule => {
            const figure = MEASURES[measure].valueOf(attempt.measurement, startRule);
            if (figure === undefined) return [];
            return printResult(resultOfOne(figure, measure, startRule, attempt), house).text;
          }),
        ),
      ),
    );

  it('leads to its workings, by itself or through its note, in every language', async () => {
    for (const tag of languagesOf(publication.house)) {
      const spoken = inLanguage(publication, tag);
      const path = tag === publication.house.language ? '' : `${languageWord(tag)}/`;
      for (const test of spoken.tests) {
        const at = `${path}tests/${test.id}/`;
        await onTest(
          test,
          async ({ page }) => {
            const found = await page.evaluate(() => {
              const WORKINGS = 'a[href*="/workings/"]';
              const textOf = (element: Element | null): string => element?.textContent?.trim() ?? '';
              const notes = [...document.querySelectorAll('.prose .number')].map(
                link => document.querySelector(link.getAttribute('href')!)?.querySelector(WORKINGS) !== null,
              );
              const cells = [...document.querySelectorAll('table')].flatMap(table => {
                const units = [...table.querySelectorAll('thead tr > *')].map(head =>
                  textOf(head.querySelector('.unit')),
                );
                const columns = new Set(
                  [...table.querySelectorAll('td')]
                    .filter(cell => cell.querySelector(WORKINGS) !== null)
                    .map(cell => cell.cellIndex),
                );
                return [...table.querySelectorAll('tbody tr')].flatMap(row =>
                  [...row.querySelectorAll('td')].map(cell => ({
                    table: textOf(table.querySelector('caption')),
                    // A value with its own unit or its column’s; the ± and the mark of a second attempt stand beside it.
                    text: textOf(cell.querySelector('.workings-link') ?? cell).replace(/ \(\d+\)$/, ''),
                    unit: units[cell.cellIndex] ?? '',
                    linked: cell.querySelector(WORKINGS) !== null,
                    // Points of a curve may be alike a figure by chance: their column ends in one that leads on.
                    besideLinked: row.querySelector(WORKINGS) !== null || columns.has(cell.cellIndex),
                  })),
                );
              });
              const amounts = [...document.querySelectorAll('.lead-figure .amount')];
              const links = [...document.querySelectorAll<HTMLAnchorElement>(WORKINGS)].map(
                ({ href }) => href,
              );
              return {
                notes,
                cells,
                links,
                leads: amounts.map(amount => amount.querySelector(WORKINGS) !== null),
              };
            });
            // Read from the article by hand: counts and conditions are no figures and have no workings.
            const asked = [...test.articleMarkdown.matchAll(/:(number|difference|count|condition)\{/g)].map(
              ([, directive]) => directive === 'number' || directive === 'difference',
            );
            expect(found.notes, at).toEqual(asked);
            expect(found.leads, at).toEqual([true]);
            const figures = printedFigures(test, spoken.house);
            const isFigure = ({ text, unit }: { text: string; unit: string }): boolean =>
              figures.has(unit === '' ? text : `${text}\u00a0${unit}`);
            const without = found.cells.filter(cell => isFigure(cell) && !cell.besideLinked);
            expect(without, at).toEqual([]);
            expect(found.cells.filter(cell => cell.linked).length, at).toBeGreaterThan(40);
            expect(found.cells.filter(isFigure).length, at).toBeGreaterThan(40);
            for (const href of new Set(found.links)) {
              const { pathname, hash } = new URL(href);
              const to = pathname.slice(site.base.length);
              expect(site.pages, href).toContain(to);
              expect(to.startsWith(`${path}tests/`), href).toBe(true);
              expect(htmlOf(to), href).toContain(`id="${hash.slice(1)}"`);
            }
          },
          { path },
        );
      }
    }
  });
});

describe('the page of a test without script', () => {
  it.each([360, 1280])('takes less than 150 kB compressed at %d px, read to its end', async width => {
    for (const test of publication.tests) {
      for (const path of ['', ...languages]) {
        await onTest(
          test,
          async ({ page, asked }) => {
            // Pictures further down are fetched as a reader comes to them.
            await page.evaluate(async () => {
              for (const image of document.images) image.loading = 'eager';
              await Promise.all([...document.images].map(image => image.decode()));
              await document.fonts.ready;
            });
            await page.waitForLoadState('networkidle');
            const files = [...new Set(asked)].filter(file => !isScript(file));
            expect(files.filter(file => file.endsWith('.svg')).length, test.id).toBeGreaterThan(2);
            expect(files.filter(file => file.endsWith('.woff2')).length, test.id).toBe(5);
            const bytes = files
              .map(file => compressed(file.endsWith('/') ? `${file}index.html` : file))
              .reduce((sum, each) => sum + each, 0);
            expect(bytes, `${path}${test.id}`).toBeGreaterThan(50_000);
            expect(bytes, `${path}${test.id}`).toBeLessThan(PAGE_BUDGET);
          },
          { width, path },
        );
      }
    }
  });
});
