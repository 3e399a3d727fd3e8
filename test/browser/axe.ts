/** What breaks a rule of axe on a page, in words: the rule, then the elements. */
import AxeBuilder from '@axe-core/playwright';
import type { Page } from 'playwright-core';

/** Rules that may find more of the same elements at another width: what stands behind a text, what scrolls. */
const OF_LAYOUT = ['color-contrast', 'link-in-text-block', 'scrollable-region-focusable'];

/**
 * Every rule of axe. Frames are left out: no page of ours has one but the desk's preview, which shows a page that is
 * tested for itself. Without frames the one pass that axe makes here finds the same in a fifth of the time.
 *
 * @param layoutAlone where every other rule has looked at the same elements already
 */
export async function breaches(page: Page, layoutAlone = false): Promise<readonly string[]> {
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode()
    .exclude('iframe')
    .options({
      resultTypes: ['violations'],
      ...(layoutAlone ? { runOnly: { type: 'rule', values: OF_LAYOUT } } : {}),
    })
    .analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(node => node.html).join(' ')}`);
}
