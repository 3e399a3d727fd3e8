import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { breaches, PAINTING, SCROLLING } from './axe.ts';
import { type BuiltSite, bringsScript, builtSite, htmlOf } from './built-site.ts';
import { launchBrowser } from './chromium.ts';
import { type StaticServer, serveFolder } from './static-server.ts';
import { isTest, visit } from './visit.ts';

const WIDTHS = [360, 1280] as const;

let site: BuiltSite;
let server: StaticServer;
let browser: Browser;

beforeAll(async () => {
  site = await builtSite();
  server = await serveFolder(site.folder, site.base);
  browser = await launchBrowser();
});

afterAll(async () => {
  await browser?.close();
  await server?.close();
});

/** Pages where a script lets readers choose among what stands there. */
const isChooser = (path: string): boolean => /^(?:[a-z]{2}\/)?(tests|compare|search)\/$/.test(path);
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
  /** What breaks a rule of axe with everything open; wide, only of the rules that could find something else there. */
  readonly violations: readonly string[];
  /** What a screen reader finds; told at the last width, of pages with a script alone. */
  readonly read?: string;
}

let walked: Promise<readonly Seen[]> | undefined;
/** Every page is opened once at each width; the tests below each look at a part of what was seen. */
function everyPage(): Promise<readonly Seen[]> {
  walked ??= walk();
  return walked;
}

async function walk(): Promise<readonly Seen[]> {
  const seen: Seen[] = [];
  for (const path of site.visited) {
    const { page, context, faults } = await visit(browser, addressOf(path), WIDTHS[0], {
      expectedStatus: statusOf(path),
    });
    let narrow: readonly Looks[] | undefined;
    for (const width of WIDTHS) {
      if (narrow !== undefined) await widen(page, width);
      const { looks, ...one } = await see(page, path, width, narrow);
      seen.push({ ...one, faults: faults.splice(0) });
      narrow = looks;
    }
    await context.close();
  }
  return seen;
}

/** As a reader turns a tablet; what is opened wide from the start stands in the tests of reading. */
async function widen(page: Page, width: number): Promise<void> {
  await page.setViewportSize({ width, height: 900 });
  await page.evaluate(async () => {
    for (const details of document.querySelectorAll('details')) details.open = false;
    // Sources of pictures are chosen anew before the next picture of the page.
    await new Promise(drawn => requestAnimationFrame(() => requestAnimationFrame(drawn)));
    await Promise.all([...document.images].map(image => image.decode()));
  });
}

/** @param narrow how the page's elements look where it is narrow, where axe has looked at everything */
async function see(
  page: Page,
  path: string,
  width: number,
  narrow?: readonly Looks[],
): Promise<Omit<Seen, 'faults'> & { readonly looks: readonly Looks[] }> {
  const isRead = width === WIDTHS.at(-1) && bringsScript(site, path);
  const read = isRead ? await page.locator('body').ariaSnapshot() : undefined;
  const { beyond, pictures } = await page.evaluate(() => ({
    beyond: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    pictures: [...document.images].map(image => ({
      source: image.currentSrc,
      decoded: image.complete && image.naturalWidth > 0,
      alt: image.alt.length,
      ratio: (image.clientWidth * image.naturalHeight) / (image.clientHeight * image.naturalWidth),
    })),
  }));
  // What a script brings when asked for is looked at where it is tested: recompute.test.ts.
  await page.evaluate(() => {
    for (const details of document.querySelectorAll<HTMLDetailsElement>('details:not(.own)'))
      details.open = true;
  });
  const looks = await looksOf(page);
  return {
    path,
    width,
    looks,
    name: `${path} at ${width} px`,
    beyond,
    pictures,
    violations:
      narrow === undefined || differ(looks, narrow)
        ? await breaches(page)
        : await breachesOf(page, looks, narrow),
    ...(read === undefined ? {} : { read }),
  };
}

/** What the contrast of an element's text depends on; undefined where it is not to be seen. */
type Looks = {
  readonly paint: string;
  readonly isLarge: boolean;
  /** Empty where the element stays in the flow: what leaves it may lie over a text. */
  readonly leaves: string;
  readonly scrolls: boolean;
} | null;

const looksOf = (page: Page): Promise<readonly Looks[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll('*')].map((element): Looks => {
      if (!element.checkVisibility({ visibilityProperty: true })) return null;
      const style = getComputedStyle(element);
      // Text of 24 px, bold of 18.66 px, may have less of it (WCAG 2.2, 1.4.3).
      const bold = Number(style.fontWeight) >= 700;
      const { color, backgroundColor, backgroundImage, opacity, filter, mixBlendMode } = style;
      const { position, float, transform, overflowX, overflowY } = style;
      const leaves = `${position} ${float} ${transform}`;
      return {
        paint: [color, backgroundColor, backgroundImage, opacity, filter, mixBlendMode].join(' '),
        isLarge: Number.parseFloat(style.fontSize) >= (bold ? 18.66 : 24),
        leaves: /^(static|relative) none none$/.test(leaves) ? '' : leaves,
        scrolls: /auto|scroll/.test(overflowX + overflowY) && element.scrollWidth > element.clientWidth,
      };
    }),
  );

/** Whether there are elements in the wide page that the narrow one does not show. */
const differ = (wide: readonly Looks[], narrow: readonly Looks[]): boolean =>
  wide.length !== narrow.length || wide.some((one, index) => one !== null && narrow[index] === null);

/** Of a page whose narrow form axe has passed: what could be found in elements that scroll or are painted otherwise. */
async function breachesOf(
  page: Page,
  wide: readonly Looks[],
  narrow: readonly Looks[],
): Promise<readonly string[]> {
  const places = [...wide.keys()].filter(index => {
    const [one, before] = [wide[index], narrow[index]];
    if (one == null || before == null) return false;
    const isStricter = before.isLarge && !one.isLarge;
    const lies = one.leaves !== '' && one.leaves !== before.leaves;
    return one.paint !== before.paint || isStricter || lies || one.scrolls;
  });
  if (places.length === 0) return [];
  await page.evaluate(marked => {
    const elements = document.querySelectorAll('*');
    for (const index of marked) elements[index]!.setAttribute('data-otherwise', '');
  }, places);
  return breaches(page, { rules: [...SCROLLING, ...PAINTING], within: '[data-otherwise]' });
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

  it('prints nothing that is no word and no number', () => {
    for (const path of site.pages) {
      expect(htmlOf(site, path).match(/>[^<]*\b(?:NaN|undefined|Infinity)\b|\[object /g), path).toBeNull();
    }
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
});

describe('without a script', () => {
  it('reads the same, pictures and numbers included', async () => {
    const withScript = (await everyPage()).filter(({ read }) => read !== undefined);
    // Where there is no script, there is no other way to read the page.
    expect(withScript.map(({ path }) => path)).toEqual(site.visited.filter(path => bringsScript(site, path)));
    expect(withScript.filter(({ path }) => isTest(path)).length).toBeGreaterThan(4);
    // What a script adds to a chooser is a way to choose among what stands there without it: archive.test.ts.
    for (const { path, read } of withScript) {
      if (isChooser(path)) continue;
      const { page, context, faults } = await visit(browser, server.address + path, 1280, { script: false });
      expect(await page.locator('body').ariaSnapshot(), path).toBe(read);
      expect(faults, path).toEqual([]);
      await context.close();
    }
  }, 400_000);
});
