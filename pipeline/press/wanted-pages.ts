/** Which pages a build asks of the site; the rest is taken from what is kept. */
import type { SeenContent } from '../cache/kept-content.ts';

/** Names the file that holds `WantedPages`; every page is made without it. */
export const WANTED_VARIABLE = 'EVENGROUND_PAGES';

export interface WantedPages {
  /** Ids of the tests whose own pages are made. */
  readonly tests: readonly string[];
  /** Whether the pages that belong to no single test are made: the front page, lists, cars, roads, methodology. */
  readonly shared: boolean;
  /** SHA-256 of each file of content by its path, as the build has seen it. */
  readonly seen: SeenContent;
}
