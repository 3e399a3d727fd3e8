/** What a build does where something has changed: content read, what is new made, the pages made from it. */
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import { filesUnder, type SeenFiles } from '../cache/file-tree.ts';
import type { KeptFile } from '../cache/kept.ts';
import { folderAsWritten, type LeftFolder } from '../cache/left-folder.ts';
import type { Store } from '../cache/store.ts';
import { houseFrameSizes } from '../overlay/sizes.ts';
import { checkContent, type LoadOptions, loadPublication, testsToMake } from '../pipeline.ts';
import { PRESS_FOR_PAGES } from '../press/manifest.ts';
import {
  type KnownFolder,
  type Output,
  openOutput,
  type ReadableOutput,
  storeOnly,
} from '../press/output.ts';
import { type Later, placeLater } from '../press/place-later.ts';
import { type PressCounts, planPress, testsToDraw, writePress } from '../press/press-publication.ts';
import { searchIndex } from '../press/search-index.ts';
import { isPage, siteMap } from '../press/site-map.ts';
import { replaceFolder } from '../press/whole.ts';
import { type Problem, problemToLine } from '../problem.ts';
import type { Publication } from '../result/result.ts';
import type { SiteCounts } from './build-summary.ts';
import { contentDigests } from './inputs.ts';
import type { Io } from './io.ts';
import { writeEveryPage } from './pages.ts';
import { type Progress, progressTo, withTimes } from './progress.ts';
import { type SpreadWork, spread } from './spread.ts';

/** What a build comes to besides its files. */
export interface Told {
  /** Problems, for standard error. */
  readonly told: string;
  readonly counts: SiteCounts;
  /** Files that the pages are made from, by path from the project's root: the development server reads them too. */
  readonly forPages: readonly KeptFile[];
}

/** A site in its place. */
export interface Made extends Told {
  /** SHA-256 of each file by its path. */
  readonly files: ReadonlyMap<string, string>;
  readonly left: LeftFolder;
}

/** Where it is set, each step of a build says how long it took. */
const TIMES_VARIABLE = 'EVENGROUND_TIMES';

export interface SitePlace {
  readonly folder: string;
  /** What the person calls the folder. */
  readonly out: string;
  /** What it will take the place of. */
  readonly former?: Former;
  /** Opens what takes the files that pages are made from, by path from the project's root. */
  readonly forPages: () => ReadableOutput;
}

/** A folder as it is now, and how it was left. */
export type Former = KnownFolder & { readonly left: LeftFolder };

/**
 * Makes the site in its place.
 * @param inputs what it is made from, by path from the project's root, as just seen
 * @param few whether what changed since the last time concerns so few tests that it is not worth spreading
 * @returns undefined where content has errors, which are told then, and the folder is untouched
 */
export async function makeSite(
  { folder, out, former, forPages: openForPages }: SitePlace,
  inputs: SeenFiles,
  few: boolean,
  store: Store,
  io: Io,
): Promise<Made | undefined> {
  const plain = progressTo(io);
  const progress = process.env[TIMES_VARIABLE] === undefined ? plain : withTimes(plain, io);
  const seen = contentDigests(inputs);
  const spreading = { root: io.root, seen, progress };
  const spreadOut = async (work: SpreadWork, items: () => Promise<readonly string[]>): Promise<void> => {
    if (!few) await spread(work, await items(), spreading);
  };
  await spreadOut('measure', () => testsToMake(io.root, { seen, store }));
  const later = placeLater();
  const publication = await loadPublication(io.root, {
    seen,
    store,
    counting: measuring(progress),
    later: work => later.add(async () => work()),
  });
  await spreadOut('draw', () => testsToDraw(publication, store));
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
    const forPages = openForPages();
    const { counts, problems: drawn } = await writePress(
      planned,
      store,
      output,
      forPages,
      progress.done,
      later,
    );
    progress.close();
    io.stderr(lines(drawn));

    progress.step('open data', 1);
    const { tablesToPack } = await import('../press/write-data.ts');
    await spreadOut('pack', () => tablesToPack(publication, store));
    await writeOpenData(publication, output, forPages, store, later);
    await removeOthers(io.root, PRESS_FOR_PAGES, forPages.files);
    progress.close();

    progress.step('pages of tests', publication.tests.length);
    const toMake = { root: io.root, publication, inputs, seen, forPages };
    const pages = writeEveryPage(toMake, store, output, count => {
      for (let done = 0; done < count; done += 1) progress.done();
    });
    await Promise.all([pages, later.all()]);
    progress.close();

    progress.step('search', 1);
    for (const [path, text] of siteMap(output.files.keys(), publication.house.site))
      await output.write(path, text);
    for (const [path, bytes] of await searchIndex(staging, output.files.keys()))
      await output.write(path, bytes);
    progress.close();
    return {
      told: lines([...problems, ...drawn]),
      counts: countsOf(publication, counts, output),
      forPages: [...forPages.files].map(([path, sha256]) => ({ path, sha256 })),
      files: output.files,
      left: folderAsWritten(staging, output.files, former && { left: former.left, paths: output.again }),
    };
  });
}

/** Takes away what an earlier build left under `folder` of `root` and this one did not write. */
async function removeOthers(root: string, folder: string, files: ReadonlyMap<string, string>): Promise<void> {
  for (const path of filesUnder(root, folder))
    if (!files.has(path)) await rm(join(root, path), { force: true });
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
  const own = new Set<string>();
  const only = (id: string, index: number): boolean => {
    if (index % of === part - 1) own.add(id);
    return own.has(id);
  };
  // First its own, while the other parts measure theirs; what they have come to by then is found in the store.
  await checkContent(io.root, { only, counting: measuring(progress) });
  return await drawTests(own, store, io, progress);
}

/**
 * Makes the press folders and the open data of some tests into the store.
 * @returns as `makeShard`
 */
export async function drawTests(
  ids: ReadonlySet<string>,
  store: Store,
  io: Io,
  progress: Progress,
  options: Pick<LoadOptions, 'seen'> = {},
): Promise<number | undefined> {
  const publication = await loadPublication(io.root, { ...options, counting: measuring(progress) });
  const planned = await planPress(publication, store, id => ids.has(id));
  progress.close();
  if (tellProblems([...publication.problems, ...planned.problems], io) > 0) return undefined;
  progress.step('figures and overlays', planned.pictures);
  const later = placeLater();
  await writePress(planned, store, storeOnly(store), storeOnly(store), progress.done, later);
  await later.all();
  const { writeTestsData } = await import('../press/write-data.ts');
  await writeTestsData(publication, id => ids.has(id), storeOnly(store), store);
  progress.close();
  return planned.languages[0]?.tests.length ?? 0;
}

/** @returns how many are errors */
function tellProblems(problems: readonly Problem[], io: Io): number {
  io.stderr(lines(problems));
  return problems.filter(({ severity }) => severity === 'error').length;
}

const lines = (of: readonly Problem[]): string => of.map(problem => `${problemToLine(problem)}\n`).join('');

/** The data package, and what describes the lists of the press folders. */
async function writeOpenData(
  publication: Publication,
  output: Output,
  forPages: Output,
  store: Store,
  later: Later,
): Promise<void> {
  const { DATA_PACKAGE_FOR_PAGES, writeData } = await import('../press/write-data.ts');
  const { MANIFEST_SCHEMA, manifestSchemaText } = await import('../press/manifest-file.ts');
  await output.write(MANIFEST_SCHEMA, manifestSchemaText());
  await forPages.write(DATA_PACKAGE_FOR_PAGES, await writeData(publication, output, store, later));
}

function countsOf({ house, tests }: Publication, press: PressCounts, { files }: Output): SiteCounts {
  return {
    name: house.name,
    tests: tests.map(({ id }) => id),
    pages: [...files.keys()].filter(isPage).length,
    ...press,
    frameSizes: houseFrameSizes(house).length,
  };
}
