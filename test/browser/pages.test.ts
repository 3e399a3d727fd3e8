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
    let narrow: readonly string[] | undefined;
    for (const width of WIDTHS) {
      const { looks, ...one } = await see(path, width, narrow);
      seen.push(one);
      narrow = looks;
    }
  }
  return seen;
}

/** @param narrow how the page's elements look where it is narrow, where axe has looked at everything */
async function see(
  path: string,
  width: number,
  narrow?: readonly string[],
): Promise<Seen & { readonly looks: readonly string[] }> {
  const { page, context, faults } = await visit(browser, addressOf(path), width, {
    expectedStatus: statusOf(path),
  });
  try {
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
    await page.evaluate(() => {
      for (const details of document.querySelectorAll('details')) details.open = true;
    });
    const looks = await looksOf(page);
    return {
      path,
      width,
      looks,
      name: `${path} at ${width} px`,
      faults: [...faults],
      beyond,
      pictures,
      violations: await breaches(page, narrow && rulesLeft(looks, narrow)),
      ...(read === undefined ? {} : { read }),
    };
  } finally {
    await context.close();
  }
}

/** Of each element in its order all that the contrast of a text depends on; nothing where it is not to be seen. */
const looksOf = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll('*')].map(element => {
      if (!element.checkVisibility({ visibilityProperty: true })) return '';
      const style = getComputedStyle(element);
      // Text of 24 px, bold of 18.66 px, may have less of it (WCAG 2.2, 1.4.3).
      const bold = Number(style.fontWeight) >= 700;
      const large = Number.parseFloat(style.fontSize) >= (bold ? 18.66 : 24);
      const { color, backgroundColor, backgroundImage, opacity, filter, mixBlendMode } = style;
      // What leaves the flow may lie over a text.
      const { position, float, transform } = style;
      return [
        ...[color, backgroundColor, backgroundImage, opacity, filter, mixBlendMode, large],
        ...[position, float, transform === 'none'],
      ].join(' ');
    }),
  );

/** Rules of axe that could find something in the wide page that they did not find in the narrow one. */
function rulesLeft(wide: readonly string[], narrow: readonly string[]): readonly string[] | undefined {
  const shown = [...wide.keys()].filter(index => wide[index] !== '');
  if (wide.length !== narrow.length || shown.some(index => narrow[index] === '')) return undefined;
  return shown.every(index => wide[index] === narrow[index]) ? SCROLLING : [...SCROLLING, ...PAINTING];
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
