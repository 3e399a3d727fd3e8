/** What a build does where something has changed: content read, what is new made, the pages made from it. */
import { readdir, readFile, rm } from 'node:fs/promises';
import { join, relative, sep } from 'node:path';
import type { Store } from '../cache/store.ts';
import { houseFrameSizes } from '../overlay/sizes.ts';
import { checkContent, loadPublication } from '../pipeline.ts';
import { GUIDE_KIND, PRESS_MANIFEST, type PressManifest, type PressTest } from '../press/manifest.ts';
import { type KnownFolder, type Output, openOutput, storeOnly } from '../press/output.ts';
import { planPress, writePress } from '../press/press-publication.ts';
import { replaceFolder, writeWhole } from '../press/whole.ts';
import { type Problem, problemToLine } from '../problem.ts';
import type { Publication } from '../result/result.ts';
import type { SiteCounts } from './build-summary.ts';
import type { Io } from './io.ts';
import { type Progress, progressTo } from './progress.ts';

/** Where the pages are made, inside the project: their builder finds the libraries from there. */
const PAGES_FOLDER = '.evenground/pages';

/** What a build comes to besides its files. */
export interface Told {
  /** Problems, for standard error. */
  readonly told: string;
  readonly counts: SiteCounts;
  /** Files that the pages are made from, by path from the project's root. */
  readonly forPages: Readonly<Record<string, string>>;
}

/**
 * Makes the site at `folder`, which the person calls `out`.
 * @returns undefined where content has errors, which are told then, and `folder` is untouched
 */
export async function makeSite(
  { folder, out, former }: { readonly folder: string; readonly out: string; readonly former?: KnownFolder },
  store: Store,
  io: Io,
): Promise<(Told & { readonly files: ReadonlyMap<string, string> }) | undefined> {
  const progress = progressTo(io);
  const publication = await loadPublication(io.root, { counting: measuring(progress) });
  const planned = await planPress(publication, store);
  const problems = [...publication.problems, ...planned.problems];
  progress.close();
  const errors = tellProblems(problems, io);
  if (errors > 0) {
    io.stderr(`Nothing was built: ${errors} error${errors === 1 ? '' : 's'} above. ${out}/ is as it was.\n`);
    return undefined;
  }

  progress.step('figures and overlays', planned.pictures);
  return await replaceFolder(folder, async staging => {
    const output = openOutput(staging, store, former);
    const { manifest, problems: drawn } = await writePress(planned, store, output, progress.done);
    const forPages = {
      [PRESS_MANIFEST]: `${JSON.stringify(manifest, null, 2)}\n`,
      ...(await writeOpenData(publication, output)),
    };
    for (const [path, text] of Object.entries(forPages)) await writeWhole(join(io.root, path), text);
    progress.close();
    io.stderr(lines(drawn));

    progress.step('pages', 1);
    await writePages(io.root, output);
    progress.close();
    return {
      told: lines([...problems, ...drawn]),
      counts: countsOf(publication, manifest, output),
      forPages,
      files: output.files,
    };
  });
}

const measuring = (progress: Progress) => ({
  step: (total: number) => progress.step('reading content and measuring logs', total),
  done: progress.done,
});

/** One part of several, counted from 1. */
export interface Shard {
  readonly part: number;
  readonly of: number;
}

/**
 * Measures the logs and makes the press folders of every `of`-th test into the store, and no site: what a build
 * with the same store finds done.
 * @returns how many tests; undefined where their content has errors, which are told then
 */
export async function makeShard({ part, of }: Shard, store: Store, io: Io): Promise<number | undefined> {
  const progress = progressTo(io);
  const only = (index: number): boolean => index % of === part - 1;
  // First its own, while the other parts measure theirs; what they have come to by then is found in the store.
  await checkContent(io.root, { only, counting: measuring(progress) });
  const publication = await loadPublication(io.root, { counting: measuring(progress) });
  const own = new Set(
    publication.tests
      .map(({ id }) => id)
      .sort()
      .filter((_, index) => only(index)),
  );
  const planned = await planPress(publication, store, id => own.has(id));
  progress.close();
  if (tellProblems([...publication.problems, ...planned.problems], io) > 0) return undefined;
  progress.step('figures and overlays', planned.pictures);
  await writePress(planned, store, storeOnly(store), progress.done);
  progress.close();
  return planned.languages[0]?.tests.length ?? 0;
}

/** @returns how many are errors */
function tellProblems(problems: readonly Problem[], io: Io): number {
  io.stderr(lines(problems));
  return problems.filter(({ severity }) => severity === 'error').length;
}

const lines = (of: readonly Problem[]): string => of.map(problem => `${problemToLine(problem)}\n`).join('');

/** The data package, and what describes the lists of the press folders. @returns what the pages need of it */
async function writeOpenData(
  publication: Publication,
  { write }: Output,
): Promise<Readonly<Record<string, string>>> {
  const { DATA_PACKAGE_FOR_PAGES, writeData } = await import('../press/write-data.ts');
  const { MANIFEST_SCHEMA, manifestSchemaText } = await import('../press/manifest-file.ts');
  await write(MANIFEST_SCHEMA, manifestSchemaText());
  return { [DATA_PACKAGE_FOR_PAGES]: await writeData(publication, write) };
}

/** Every page, and the index of their words. */
async function writePages(root: string, { write }: Output): Promise<void> {
  process.env.ASTRO_TELEMETRY_DISABLED = '1';
  const { build } = await import('astro');
  const { writeSearchIndex } = await import('../press/search-index.ts');
  const pages = join(root, PAGES_FOLDER);
  await rm(pages, { recursive: true, force: true });
  // What is no page is in its place already.
  await build({ root, outDir: pages, publicDir: join(pages, 'no-such-folder'), logLevel: 'warn' });
  await writeSearchIndex(pages);
  for (const entry of await readdir(pages, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const place = join(entry.parentPath, entry.name);
    await write(relative(pages, place).split(sep).join('/'), await readFile(place));
  }
  await rm(pages, { recursive: true, force: true });
}

function countsOf({ house, tests }: Publication, manifest: PressManifest, { files }: Output): SiteCounts {
  const press = Object.values(manifest.tests);
  const sum = (count: (test: PressTest) => number): number =>
    press.reduce((total, test) => total + count(test), 0);
  const attempts = tests.flatMap(test => test.attempts);
  return {
    name: house.name,
    tests: tests.map(({ id }) => id),
    attempts: attempts.length,
    kept: attempts.filter(attempt => attempt.setAside === undefined).length,
    pages: [...files.keys()].filter(path => path.endsWith('.html')).length,
    figures: sum(test => test.figures.length),
    tables: sum(test => test.tables.length),
    lowerThirds: sum(test => test.overlays.filter(({ kind }) => kind !== GUIDE_KIND).length),
    frameSizes: houseFrameSizes(house).length,
  };
}
