import { readdirSync, readFileSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type BuiltSite, builtSite } from './built-site.ts';
import { launchBrowser } from './chromium.ts';

let site: BuiltSite;
let browser: Browser;
let server: Server;
let folder: string;

/** Serves one figure's folder with its piece of HTML inside the page of another system. */
beforeAll(async () => {
  site = await builtSite();
  browser = await launchBrowser();
  const figures = join(site.folder, 'press/quillet-sorrel-dry/figures');
  folder = join(figures, readdirSync(figures).sort()[0]!);
  server = createServer((request, response) => {
    const name = decodeURIComponent(request.url!.slice(1));
    if (name === '') {
      const snippet = readFileSync(join(folder, htmlName()), 'utf8');
      response.setHeader('content-type', 'text/html; charset=utf-8');
      response.end(`<!doctype html><html lang="en"><title>Elsewhere</title><body>${snippet}</body></html>`);
      return;
    }
    response.setHeader('content-type', name.endsWith('.png') ? 'image/png' : 'application/octet-stream');
    response.end(readFileSync(join(folder, name)));
  });
  await new Promise<void>(done => server.listen(0, '127.0.0.1', done));
});

afterAll(async () => {
  await browser?.close();
  server?.close();
});

const htmlName = (): string => readdirSync(folder).find(name => name.endsWith('.html'))!;

describe('the piece of HTML of a figure', () => {
  it.each([
    [1280, 1, 'wide.png'],
    [1280, 2, 'wide-2x.png'],
    [360, 1, 'narrow.png'],
    [360, 3, 'narrow-2x.png'],
  ] as const)(
    'at %i px and %i device pixels to the px shows %s with its words',
    async (width, dpr, ending) => {
      const context = await browser.newContext({ viewport: { width, height: 900 }, deviceScaleFactor: dpr });
      const page = await context.newPage();
      await page.goto(`http://127.0.0.1:${(server.address() as AddressInfo).port}/`, { waitUntil: 'load' });
      const shown = await page.evaluate(async () => {
        const image = document.querySelector('figure img') as HTMLImageElement;
        image.loading = 'eager';
        await image.decode();
        const { width, height } = image.getBoundingClientRect();
        return {
          source: image.currentSrc,
          natural: [image.naturalWidth, image.naturalHeight],
          drawn: [width, height],
          alt: image.alt,
          caption: document.querySelector('figcaption')?.textContent ?? '',
        };
      });
      expect(shown.source.endsWith(ending), shown.source).toBe(true);
      // Laid out in the picture's own px, whatever the screen: no jump, no blur.
      expect(shown.drawn).toEqual(shown.natural);
      expect(shown.drawn[0]).toBe(ending.startsWith('wide') ? 760 : 360);
      const { files } = JSON.parse(readFileSync(join(folder, '../../manifest.json'), 'utf8')) as {
        files: { path: string; alt_text?: string; caption?: string }[];
      };
      const listed = files.find(({ path }) => path.endsWith(htmlName()))!;
      expect(shown.alt).toBe(listed.alt_text);
      expect(shown.caption).toBe(listed.caption);
      await context.close();
    },
  );
});
