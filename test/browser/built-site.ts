/** A built site to test: the folder EVENGROUND_DIST names, or a fresh build into a folder of its own. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative, resolve, sep } from 'node:path';
import { parse } from 'yaml';

export const ROOT = resolve(import.meta.dirname, '../..');

export interface BuiltSite {
  readonly folder: string;
  /** Path under which the publication's address puts it. */
  readonly base: string;
  /** Addresses of its pages from the base, such as `tests/<id>/`; the front page is empty. */
  readonly pages: readonly string[];
  /** Those worth opening in a browser: all but workings, of which each test's longest stands for the rest, and pairs of tests, of which one does. */
  readonly visited: readonly string[];
  remove(): void;
}

/** @throws Error with the build's own words where it fails */
export function builtSite(): BuiltSite {
  const given = process.env.EVENGROUND_DIST;
  if (given !== undefined) return siteIn(resolve(given), () => {});
  const folder = mkdtempSync(join(tmpdir(), 'evenground-site-'));
  run('pipeline/evenground.mjs', ['build', '--out', relative(ROOT, folder)], folder);
  return siteIn(folder, () => rmSync(folder, { recursive: true, force: true }));
}

/** The pages alone once more, as they are under another path; the press folder must have been built before. */
export function builtUnder(base: string): BuiltSite {
  const folder = mkdtempSync(join(tmpdir(), 'evenground-site-'));
  // In a process of its own: the bundler keeps what it loaded, and would change this one's environment.
  const config = JSON.stringify({ root: ROOT, base, outDir: folder, logLevel: 'error' });
  run('--input-type=module', ['--eval', `import { build } from 'astro'; await build(${config});`], folder);
  return { ...siteIn(folder, () => rmSync(folder, { recursive: true, force: true })), base };
}

/** Runs a build into `folder`, which is removed where it fails. */
function run(script: string, args: readonly string[], folder: string): void {
  const { status, stdout, stderr } = spawnSync(process.execPath, [script, ...args], {
    cwd: ROOT,
    encoding: 'utf8',
    // The test runner's own NODE_ENV, BASE_URL and the like would be taken for the site's.
    env: { PATH: process.env.PATH, HOME: process.env.HOME, ASTRO_TELEMETRY_DISABLED: '1' },
  });
  if (status === 0) return;
  rmSync(folder, { recursive: true, force: true });
  throw new Error(`${script} ${args.join(' ')} failed:\n${stdout}\n${stderr}`);
}

function siteIn(folder: string, remove: () => void): BuiltSite {
  const house = parse(readFileSync(join(ROOT, 'content/house.yaml'), 'utf8')) as { site: string };
  const pages = (readdirSync(folder, { recursive: true }) as string[])
    .map(file => file.split(sep).join('/'))
    // The press folder's articles are pieces for other systems, not pages.
    .filter(file => file.endsWith('.html') && !file.startsWith('press/'))
    .map(file => file.replace(/(^|\/)index\.html$/, '$1'))
    .sort();
  const pairs = pages.filter(isPair);
  const visited = pages.filter(
    page =>
      (!isWorkings(page) || page === longestOf(folder, page, pages)) && (!isPair(page) || page === pairs[0]),
  );
  return { folder, base: new URL(house.site).pathname, pages, visited, remove };
}

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
