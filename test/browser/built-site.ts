/** The built site to test: the folder EVENGROUND_DIST names, or one build that all files of a test run share. */
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join, relative, resolve, sep } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { inject } from 'vitest';
import { parse } from 'yaml';
import { isPage } from '../../pipeline/press/site-map.ts';
import { buildIn } from '../bench/small-project.ts';

export const ROOT = resolve(import.meta.dirname, '../..');

export interface BuiltSite {
  readonly folder: string;
  /** Path under which the publication's address puts it. */
  readonly base: string;
  /** Addresses of its pages from the base, such as `tests/<id>/`; the front page is empty. */
  readonly pages: readonly string[];
  /**
   * Those worth opening in a browser: all but workings, of which each test's longest stands for the rest, and pairs
   * of tests, of which one does. Of a further language, one page of each kind: words differ there, markup does not.
   */
  readonly visited: readonly string[];
}

/**
 * Whoever asks first builds; the others wait for it.
 * @throws Error with the build's own words where it fails
 */
export async function builtSite(): Promise<BuiltSite> {
  const given = process.env.EVENGROUND_DIST;
  if (given !== undefined) return siteIn(resolve(given));
  const shared = inject('sharedFolder');
  const folder = join(shared, 'site');
  const outcome = join(shared, 'outcome');
  if (isFirst(join(shared, 'begun'))) writeFileSync(outcome, build(folder), { flush: true });
  while (!existsSync(outcome) || statSync(outcome).size === 0) await wait(200);
  const told = readFileSync(outcome, 'utf8');
  if (told !== BUILT) throw new Error(told);
  return siteIn(folder);
}

const BUILT = 'built';

function isFirst(mark: string): boolean {
  try {
    mkdirSync(mark);
    return true;
  } catch {
    return false;
  }
}

/** @returns `BUILT`, or what went wrong */
function build(folder: string): string {
  try {
    buildIn(ROOT, '--out', relative(ROOT, folder));
    return BUILT;
  } catch (error) {
    return (error as Error).message;
  }
}

/** @param root folder of the publication it was built from */
export function siteIn(folder: string, root = ROOT): BuiltSite {
  const house = parse(readFileSync(join(root, 'content/house.yaml'), 'utf8')) as { site: string };
  const pages = (readdirSync(folder, { recursive: true }) as string[])
    .map(file => file.split(sep).join('/'))
    .filter(isPage)
    .map(file => file.replace(/(^|\/)index\.html$/, '$1'))
    .sort();
  const main = pages.filter(page => !isFurther(page));
  const pairs = main.filter(isPair);
  const workings = new Set(main.filter(isWorkings).map(page => longestOf(folder, page, main)));
  const opened = main.filter(
    page => (!isWorkings(page) || workings.has(page)) && (!isPair(page) || page === pairs[0]),
  );
  const further = pages.filter(page => isFurther(page) && opened.includes(page.replace(FURTHER, '')));
  const kinds = new Map(further.map(page => [kindOf(page), page]));
  return { folder, base: new URL(house.site).pathname, pages, visited: [...opened, ...kinds.values()] };
}

/** A page of `BuiltSite.pages` as it was written. */
export const htmlOf = ({ folder }: Pick<BuiltSite, 'folder'>, path: string): string =>
  readFileSync(join(folder, path.endsWith('.html') ? path : `${path}index.html`), 'utf8');

/** Linked data is no script: no browser runs it. */
export const bringsScript = (site: Pick<BuiltSite, 'folder'>, path: string): boolean =>
  /<script\b(?!\s+type="application\/ld\+json")/i.test(htmlOf(site, path));

const FURTHER = /^[a-z]{2,3}\//;
const isFurther = (page: string): boolean => FURTHER.test(page);

/** `de/tests/<id>/workings/<id>/` for every such page. */
const kindOf = (page: string): string =>
  page
    .split('/')
    .map((part, index) => (index % 2 === 0 && index > 0 && part !== '' ? '<id>' : part))
    .join('/');

export const isWorkings = (page: string): boolean => /^(?:[a-z]{2}\/)?tests\/[^/]+\/workings\//.test(page);

/** Two tests side by side. */
const isPair = (page: string): boolean => /^([a-z]{2,3}\/)?compare\/[^/]+\/[^/]+\/$/.test(page);

/** The workings of the same test with the most to show. */
function longestOf(folder: string, page: string, pages: readonly string[]): string | undefined {
  const test = page.replace(/workings\/.*/, 'workings/');
  const size = (other: string): number => statSync(join(folder, other, 'index.html')).size;
  return pages
    .filter(other => other.startsWith(test))
    .reduce((longest, other) => (size(other) > size(longest) ? other : longest), page);
}
