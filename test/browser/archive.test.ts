/** Finding, comparing and searching tests in a real browser, and the same pages without their scripts. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { breaches } from './axe.ts';
import { type BuiltSite, builtSite } from './built-site.ts';
import { launchBrowser } from './chromium.ts';
import { type StaticServer, serveFolder } from './static-server.ts';
import { beyondEdge } from './visit.ts';

let site: BuiltSite;
let server: StaticServer;
let browser: Browser;
let ids: readonly string[];

beforeAll(async () => {
  site = await builtSite();
  server = await serveFolder(site.folder, site.base);
  browser = await launchBrowser();
  ids = site.pages.flatMap(page => /^tests\/([^/]+)\/$/.exec(page)?.[1] ?? []);
});
afterAll(async () => {
  await browser?.close();
  await server?.close();
});

/** Opens a page, does something there, and holds it to no fault and nothing beyond the edge. */
async function at(
  path: string,
  act: (page: Page) => Promise<void>,
  { width = 1280, script = true, still = false } = {},
): Promise<void> {
  const context = await browser.newContext({
    viewport: { width, height: 900 },
    locale: 'en-GB',
    javaScriptEnabled: script,
    reducedMotion: still ? 'reduce' : 'no-preference',
  });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('console', message => {
    if (['error', 'warning'].includes(message.type())) faults.push(message.text());
  });
  page.on('pageerror', error => faults.push(String(error)));
  try {
    await page.goto(server.address + path, { waitUntil: 'networkidle' });
    await act(page);
    expect(faults).toEqual([]);
    expect(await beyondEdge(page)).toBe(0);
  } finally {
    await context.close();
  }
}

const titles = (page: Page): Promise<string[]> =>
  page.locator('.all-tests tbody tr:visible th a').allInnerTexts();

/** Where a reader chooses, types or opens something. */
const used = (): readonly string[] => [
  `tests/${ids[0]}/`,
  'tests/',
  `compare/?tests=${ids.slice(0, 2).join(',')}`,
  'search/?q=rain',
];

/** Everything folded open and everything fetched, so that all of a page's controls are there. */
async function unfold(page: Page): Promise<void> {
  const own = page.locator('details.own');
  const brings = (await own.count()) > 0;
  if (brings) {
    await own.evaluate(details => {
      (details as HTMLDetailsElement).open = true;
    });
    await page.locator('[data-out="key"] table').waitFor();
  }
  await page.evaluate(() => {
    for (const details of document.querySelectorAll('details')) details.open = true;
  });
  if (brings) await page.locator('[data-out="unrounded"] tr').first().waitFor();
  await page.waitForLoadState('networkidle');
}

describe('pages that are worked with', () => {
  const CONTROLS = 'a[href], button, input, select, summary, [tabindex="0"]';

  interface Used {
    readonly path: string;
    readonly width: number;
    /** Controls to be seen. */
    readonly controls: number;
    /** Elements whose text is cut off once letters are twice the size. */
    readonly cut: readonly string[];
    /** How far the page goes beyond its right edge at most, px. */
    readonly beyond: number;
  }
  let looked: Promise<readonly Used[]> | undefined;
  /** Each page is opened once at each width, as it is and then with letters twice the size. */
  const enlarged = (): Promise<readonly Used[]> => {
    looked ??= enlarge();
    return looked;
  };
  async function enlarge(): Promise<readonly Used[]> {
    const seen: Used[] = [];
    for (const path of used()) {
      for (const width of [640, 1280]) {
        await at(
          path,
          async page => {
            await unfold(page);
            const controls = await page.locator(CONTROLS).filter({ visible: true }).count();
            const found = await page.evaluate(() => {
              const root = document.documentElement;
              const asItIs = root.scrollWidth - root.clientWidth;
              root.style.fontSize = `${2 * Number.parseFloat(getComputedStyle(root).fontSize)}px`;
              const clips = (overflow: string): boolean => ['hidden', 'clip'].includes(overflow);
              const cut = [...document.querySelectorAll<HTMLElement>('body *')]
                .filter(element => !element.matches('.unseen, .skip, .unseen *'))
                .filter(element => {
                  const { overflowX, overflowY } = getComputedStyle(element);
                  return (
                    (clips(overflowX) && element.scrollWidth > element.clientWidth + 1) ||
                    (clips(overflowY) && element.scrollHeight > element.clientHeight + 1)
                  );
                })
                .map(element => element.outerHTML.slice(0, 100));
              return { cut, beyond: Math.max(asItIs, root.scrollWidth - root.clientWidth) };
            });
            seen.push({ path, width, controls, ...found });
          },
          { width },
        );
      }
    }
    return seen;
  }

  it('at 200 % lay out as at half the width: nothing scrolls sideways, no control is lost or covered', async () => {
    // A browser's zoom of 200 % in a window of 1280 px is a layout of 640 CSS px (WCAG 2.2, 1.4.10 and its note).
    for (const path of used()) {
      const [half, whole] = (await enlarged()).filter(one => one.path === path);
      expect(half!.controls, path).toBeGreaterThan(3);
      expect(half!.controls, path).toBe(whole!.controls);
    }
  });

  it('stand letters of twice the size: no text is cut off, nothing scrolls sideways', async () => {
    for (const { path, width, cut, beyond } of await enlarged())
      expect({ cut, beyond }, `${path} at ${width} px`).toEqual({ cut: [], beyond: 0 });
  });

  it('move nothing where a reader asks for less motion', async () => {
    for (const path of ['', ...used()]) {
      await at(
        path,
        async page => {
          await unfold(page);
          const moving = await page.evaluate(() => {
            const seconds = (list: string): number => Math.max(...list.split(',').map(Number.parseFloat));
            return [document.documentElement, ...document.querySelectorAll('*')].flatMap(element =>
              [undefined, '::before', '::after'].flatMap(part => {
                const style = getComputedStyle(element, part);
                const moves =
                  seconds(style.transitionDuration) > 0 ||
                  (style.animationName !== 'none' && seconds(style.animationDuration) > 0) ||
                  style.scrollBehavior === 'smooth';
                return moves ? [`${element.tagName} ${part ?? ''}`] : [];
              }),
            );
          });
          expect(moving, path).toEqual([]);
        },
        { still: true },
      );
    }
  });

  it('are reached by Tab alone, every control, in the order of the page and with a mark to be seen', async () => {
    for (const path of used()) {
      await at(path, async page => {
        await unfold(page);
        // Of radio buttons one stop stands for the group; the arrows do the rest.
        const wanted = await page.evaluate(selector => {
          const stops = [...document.querySelectorAll<HTMLElement>(selector)].filter(
            element =>
              element.checkVisibility({ visibilityProperty: true }) &&
              element.tabIndex >= 0 &&
              !(element as HTMLInputElement).disabled &&
              !(element instanceof HTMLInputElement && element.type === 'radio' && !element.checked),
          );
          for (const [index, element] of stops.entries()) element.dataset.stop = String(index);
          return stops.length;
        }, CONTROLS);
        const reached: number[] = [];
        const unmarked: string[] = [];
        for (let step = 0; step < wanted; step += 1) {
          await page.keyboard.press('Tab');
          const { stop, marked, html } = await page.evaluate(() => {
            const element = document.activeElement as HTMLElement;
            const { outlineStyle, outlineWidth } = getComputedStyle(element);
            return {
              stop: Number(element.dataset.stop ?? -1),
              marked: outlineStyle !== 'none' && Number.parseFloat(outlineWidth) > 0,
              html: element.outerHTML.slice(0, 100),
            };
          });
          reached.push(stop);
          if (!marked) unmarked.push(html);
        }
        expect(reached, path).toEqual(Array.from({ length: wanted }, (_, index) => index));
        expect(unmarked, path).toEqual([]);
      });
    }
  });
});

describe('the table of all tests', () => {
  it('stands whole without a script, and shows nothing that needs one', async () => {
    await at(
      'tests/',
      async page => {
        expect(await titles(page)).toHaveLength(ids.length);
        expect(await page.locator('form:visible, .choose:visible').count()).toBe(0);
      },
      { script: false },
    );
  });

  it.each([360, 1280])('is searched, filtered, sorted and chosen from by keyboard at %d px', async width => {
    await at(
      'tests/',
      async page => {
        await page.locator('#find-text').focus();
        await page.keyboard.type('sorrel RAIN');
        expect(await titles(page)).toHaveLength(1);
        expect(new URL(page.url()).searchParams.get('q')).toBe('sorrel RAIN');
        await page.keyboard.press('Control+A');
        await page.keyboard.press('Delete');
        expect(await titles(page)).toHaveLength(ids.length);
        // From the text to the kind, the drive and the surface, one stop each.
        for (const name of ['kind', 'drive', 'surface']) {
          await page.keyboard.press('Tab');
          expect(await page.evaluate(() => document.activeElement?.getAttribute('name'))).toBe(name);
        }
        await page.keyboard.type('wet');
        expect(await titles(page)).toHaveLength(1);
        await page.locator('#find-surface').selectOption('');
        const head = page.locator('.all-tests th[data-sorts=number] button').first();
        const column = await head.evaluate(
          button => (button.parentElement as HTMLTableCellElement).cellIndex,
        );
        for (const direction of ['ascending', 'descending']) {
          await head.focus();
          await page.keyboard.press('Enter');
          expect(await page.locator('.all-tests th[aria-sort]').getAttribute('aria-sort')).toBe(direction);
          const values = await page
            .locator(`.all-tests tbody td:nth-of-type(${column})`)
            .evaluateAll(cells => cells.map(cell => Number((cell as HTMLElement).dataset.value)));
          const sorted = [...values].sort((a, b) => (direction === 'ascending' ? a - b : b - a));
          expect(values).toEqual(sorted);
          expect(new Set(values).size).toBeGreaterThan(1);
        }
        expect(await page.locator('.compare-chosen').getAttribute('href')).toBeNull();
        for (const box of (await page.locator('.all-tests input').all()).slice(0, 2)) {
          await box.focus();
          await page.keyboard.press('Space');
        }
        await page.locator('.compare-chosen').focus();
        await page.keyboard.press('Enter');
        await page.locator('.side-by-side table').waitFor();
        expect(await page.locator('.side-by-side thead th').count()).toBe(3);
      },
      { width },
    );
  });

  it('keeps a question in its address', async () => {
    await at('tests/?drive=electric&q=rain', async page => {
      expect(await titles(page)).toHaveLength(1);
      expect(await page.locator('#find-drive').inputValue()).toBe('electric');
    });
  });
});

describe('comparing', () => {
  it('any set has an address that shows it, with the caveat of each pair, and passes axe', async () => {
    await at(`compare/?tests=${ids.join(',')}`, async page => {
      await page.locator('.side-by-side table').waitFor();
      expect(await page.locator('.side-by-side thead th').count()).toBe(ids.length + 1);
      expect(await page.locator('.side-by-side .pairs li').count()).toBe((ids.length * (ids.length - 1)) / 2);
      expect(await breaches(page)).toEqual([]);
    });
  });

  it('every pair has a page without a script, which ranks only what its verdict ranks', async () => {
    const pairs = site.pages.filter(page => /^compare\/[^/]+\/[^/]+\/$/.test(page));
    expect(pairs).toHaveLength((ids.length * (ids.length - 1)) / 2);
    for (const path of pairs) {
      const html = readFileSync(join(site.folder, path, 'index.html'), 'utf8');
      const answer = /<dl class="answers"[^>]*>.*?<dd>(.*?)<\/dd>/s.exec(html)?.[1] ?? '';
      const notAlike = />not alike<\/td>/.test(html);
      const surfaceApart = /Surface<\/th>.*?<td>not alike/s.exec(
        html.split('</tr>').find(row => row.includes('>Surface<')) ?? '',
      );
      if (surfaceApart !== null) expect(answer, path).toMatch(/not to be ranked/);
      expect(html.includes('class="caveats"'), path).toBe(notAlike || />not known<\/td>/.test(html));
    }
  });

  it('“is this quicker than last month’s car?” is answered in two clicks, with its caveat', async () => {
    await at('', async page => {
      await page.locator('.lead h2 a').click();
      await page.locator('[aria-labelledby=beside] .pairs a').first().click();
      expect(await page.locator('.answers dd').first().textContent()).toMatch(/\d/);
      expect((await page.locator('.caveats li').allInnerTexts()).length).toBeGreaterThan(0);
    });
  });
});

describe('search', () => {
  it('finds words of articles by keyboard, under a policy without unsafe-inline', async () => {
    await at(
      'search/',
      async page => {
        await page.locator('#words').focus();
        await page.keyboard.type('steady rain');
        const hit = page.locator('.hits a').first();
        await hit.waitFor();
        expect(await hit.textContent()).toContain('rain');
        expect(new URL(page.url()).searchParams.get('q')).toBe('steady rain');
        expect(await breaches(page)).toEqual([]);
      },
      { width: 360 },
    );
  });

  it('says so where nothing is found', async () => {
    await at('search/?q=zzxqv', async page => {
      await page.locator('output', { hasText: /Nothing/ }).waitFor();
    });
  });

  it('lists every article without a script', async () => {
    await at('search/', async page => expect(await page.locator('.pairs li').count()).toBe(ids.length), {
      script: false,
    });
  });
});

describe('open data', () => {
  it('is linked and there: every file of the Data Package, from every test’s page', async () => {
    const folder = join(site.folder, 'data');
    const { resources } = JSON.parse(readFileSync(join(folder, 'datapackage.json'), 'utf8')) as {
      resources: { path: string; bytes: number }[];
    };
    const page = readFileSync(join(folder, 'index.html'), 'utf8');
    for (const { path, bytes } of resources) {
      expect(readFileSync(join(folder, path)).byteLength).toBe(bytes);
      expect(page).toContain(`data/${path}"`);
    }
    for (const id of ids) {
      const html = readFileSync(join(site.folder, 'tests', id, 'index.html'), 'utf8');
      expect(html).toContain(`data/#${id}"`);
      expect(html).toMatch(/<meta property="og:image" content="https:[^"]+-16x9\.png"/);
    }
  });

  it('the sitemap names every page but the one for what is not', () => {
    const xml = readFileSync(join(site.folder, 'sitemap-0.xml'), 'utf8');
    const named = [...xml.matchAll(/<loc>([^<]*)<\/loc>/g)].map(match => new URL(match[1]!).pathname);
    expect(named.sort()).toEqual(
      site.pages
        .filter(page => page !== '404.html')
        .map(page => site.base + page)
        .sort(),
    );
  });
});
