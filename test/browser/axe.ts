/** What breaks a rule of axe on a page, in words: the rule, then the elements. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import AxeBuilder from '@axe-core/playwright';
import type { Page } from 'playwright-core';

/** Rules that may find more of the same elements at another width, where they scroll, */
export const SCROLLING = ['scrollable-region-focusable'];
/** and where they are painted otherwise. */
export const PAINTING = ['color-contrast', 'link-in-text-block'];

/** axe as the package that runs it would take it. */
const SOURCE = readFileSync(
  createRequire(createRequire(import.meta.url).resolve('@axe-core/playwright')).resolve(
    'axe-core/axe.min.js',
  ),
  'utf8',
);
/** In place of the source where the page has it. */
const NOTHING = ';';

/**
 * Every rule of axe. Frames are left out: no page of ours has one but the desk's preview, which shows a page that is
 * tested for itself. Without frames the one pass that axe makes here finds the same in a fifth of the time.
 *
 * @param only where every other rule has looked at the same elements already, and these rules at all but some
 */
export async function breaches(
  page: Page,
  only?: { readonly rules: readonly string[]; readonly within: string },
): Promise<readonly string[]> {
  await bringAxe(page);
  const builder = new AxeBuilder({ page, axeSource: NOTHING })
    .setLegacyMode()
    .exclude('iframe')
    .options({
      resultTypes: ['violations'],
      ...(only === undefined ? {} : { runOnly: { type: 'rule', values: [...only.rules] } }),
    });
  const { violations } = await (only === undefined ? builder : builder.include(only.within)).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(node => node.html).join(' ')}`);
}

/** The builder would have its source evaluated twice for each page and once for each frame, which costs as much as axe. */
async function bringAxe(page: Page): Promise<void> {
  if (await page.evaluate(() => 'axe' in window)) return;
  const session = await page.context().newCDPSession(page);
  const { exceptionDetails } = await session.send('Runtime.evaluate', { expression: SOURCE });
  if (exceptionDetails !== undefined) throw new Error(exceptionDetails.text);
  await session.detach();
}
