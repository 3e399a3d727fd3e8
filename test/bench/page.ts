/** When a reader sees the largest part of a test's page: a real browser with a quarter of the machine's pace, on loopback. */
import type { Browser } from 'playwright-core';
import { siteIn } from '../browser/built-site.ts';
import { serveFolder } from '../browser/static-server.ts';
import type { Timing } from './side-by-side.ts';

const SLOWER = 4;
const RUNS = 5;
const WIDTHS = [1280, 360] as const;

/**
 * Largest contentful paint (W3C, Largest Contentful Paint) of a test's page, nothing kept from before: the median of
 * five, for a wide and a narrow screen, beside that of the same page at the machine's own pace.
 */
export async function largestPaints(folder: string, browser: Browser): Promise<readonly Timing[]> {
  const { base, pages } = siteIn(folder);
  const page = pages.find(path => /^tests\/[^/]+\/$/.test(path));
  if (page === undefined) throw new Error(`${folder} holds no page of a test: run \`npm run build\`.`);
  const server = await serveFolder(folder, base);
  try {
    const timings: { name: string; ms: number }[] = [];
    for (const slower of [1, SLOWER]) {
      for (const width of WIDTHS) {
        const found: number[] = [];
        for (let run = 0; run < RUNS; run += 1)
          found.push(await largestPaint(browser, server.address + page, width, slower));
        found.sort((a, b) => a - b);
        timings.push({
          name: `${width} px wide, ${slower === 1 ? 'own pace' : `${slower} times slower`}`,
          ms: found[(RUNS - 1) / 2]!,
        });
      }
    }
    return timings.map(({ name, ms }) => ({ name, ms, ratioToFirst: ms / timings[0]!.ms }));
  } finally {
    await server.close();
  }
}

async function largestPaint(
  browser: Browser,
  address: string,
  width: number,
  slower: number,
): Promise<number> {
  const context = await browser.newContext({ viewport: { width, height: 800 } });
  try {
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: slower });
    await page.goto(address, { waitUntil: 'networkidle' });
    return await page.evaluate(
      () =>
        new Promise<number>(told => {
          new PerformanceObserver(list => told(list.getEntries().at(-1)!.startTime)).observe({
            type: 'largest-contentful-paint',
            buffered: true,
          });
        }),
    );
  } finally {
    await context.close();
  }
}
