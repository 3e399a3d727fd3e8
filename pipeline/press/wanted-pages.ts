/** Which pages a build asks of the site; the rest is taken from what is kept. */
import type { SeenContent } from '../cache/kept-content.ts';

/** Names the file that holds `WantedPages`; every page is made without it. */
export const WANTED_VARIABLE = 'EVENGROUND_PAGES';

/**
 * Parts of a test's pages that hang on less than the rest, which is its own page and what lists it beside others, and
 * are kept by themselves: another test's figure changes the rest of each test beside it, and a few of their pages of two.
 */
export const WORKINGS_PART = 'workings';
/** Its page beside a test that is named second. */
export const pairPart = (secondId: string): string => `beside ${secondId}`;

export interface WantedTest {
  readonly id: string;
  /** Names of the parts that are made besides the rest. */
  readonly parts: readonly string[];
}

export interface WantedPages {
  /** The tests whose own pages are made. */
  readonly tests: readonly WantedTest[];
  /** Whether the pages that belong to no single test are made: the front page, lists, cars, roads, methodology. */
  readonly shared: boolean;
  /** SHA-256 of each file of content by its path, as the build has seen it. */
  readonly seen: SeenContent;
}

/** Whose page a file of the site is, by its path in whatever language; `part` is absent for the rest. */
export function ownerOf(path: string): { readonly test: string; readonly part?: string } | undefined {
  const [, folder, test, , below = ''] = OWN_PAGE.exec(path) ?? [];
  if (test === undefined) return undefined;
  if (folder === 'compare') {
    const [second] = below.split('/');
    return second ? { test, part: pairPart(second) } : { test };
  }
  return /^(?:workings\/|readings\.json$)/.test(below) ? { test, part: WORKINGS_PART } : { test };
}
const OWN_PAGE = /^(?:[a-z]{2,3}\/)?(tests|compare)\/([^/]+)(\.json$|\/)(.*)/;
