/** A page of the built site opened as a reader would, with everything on it there. */
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { expect } from 'vitest';

export interface Visit {
  readonly page: Page;
  readonly context: BrowserContext;
  /** Console errors, exceptions, requests that failed. */
  readonly faults: string[];
}

/** Opens a page and waits for everything on it, pictures below the fold too. */
export async function visit(
  browser: Browser,
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

/** How far a page goes beyond its right edge, px: a reader would have to scroll sideways. */
export const beyondEdge = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** The page of one test, not the list of all. */
export const isTest = (path: string): boolean => /^(?:[a-z]{2}\/)?tests\/[^/]+\/$/.test(path);
