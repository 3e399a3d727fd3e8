/** `evenground build`: content and logs in, press folder and site out, whole or not at all, and only what has changed. */
import { mkdir, readFile, rm, symlink } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { deserialize, serialize } from 'node:v8';
import { withEntriesAtHand } from '../cache/at-hand.ts';
import { codeRoot, knowCodeDigests, knownCodeDigests } from '../cache/code-digest.ts';
import { bytesDigest, digestOf } from '../cache/digest.ts';
import { type SeenFiles, seenFiles } from '../cache/file-tree.ts';
import { CACHE_VARIABLE, storeOf } from '../cache/folder.ts';
import { adoptEvery, keepWork, keptWork } from '../cache/kept.ts';
import {
  bytesLeft,
  digestsIn,
  digestsStill,
  filesAsLeft,
  folderAsWritten,
  isAsLeft,
  type LeftFolder,
} from '../cache/left-folder.ts';
import { lookMeanwhile } from '../cache/left-folder-meanwhile.ts';
import { MOST_BYTES, type Store } from '../cache/store.ts';
import { codeVersion } from '../code-version.ts';
import { testFolderOf } from '../content/files.ts';
import { withLock } from '../press/lock.ts';
import { PRESS_FOR_PAGES } from '../press/manifest.ts';
import { openInPlace, openOutput } from '../press/output.ts';
import { replaceFolder, writeWhole } from '../press/whole.ts';
import { buildSummary } from './build-summary.ts';
import type { Made, Shard, SitePlace, Told } from './build-work.ts';
import { codeDigests } from './inputs.ts';
import type { Io } from './io.ts';

const LOCK = '.evenground/build.lock';
const SITE_FOLDER = 'dist';
/** What the development server serves besides pages. */
const SERVED = '.evenground/public';
const SERVED_FOLDERS = ['press', 'data'];
/** What each output folder was made from, and how its files were left. */
const STAMPS = '.evenground/built';
/** In the name of a stamp, so that one written in another form is not found. */
const STAMP_FORM = 2;
/** All that a build reads. */
const INPUTS = [
  'content',
  'pipeline',
  'site',
  'astro.config.mjs',
  'package.json',
  'package-lock.json',
  'tsconfig.json',
];

const HELP = `Usage: npm run evenground -- build [--out FOLDER] [--cache FOLDER] [--clean] [--shard I/N]

Reads everything under content/ with its logs and makes figures, tables, lower thirds and the site.
Only what has changed since an earlier build is made anew; the result is the same, byte for byte.
Where there is an error nothing is made, and what was built before stays.

  --out FOLDER    where they go; ${SITE_FOLDER} where absent
  --cache FOLDER  where finished work is kept for later builds, .evenground/cache where absent; builds, machines
                  and CI may share one. It holds 4 GB at most, or what the site takes if
                  that is more: what was not used for the longest goes first
  --clean         empties that folder of such work before, so that everything is made anew
  --shard I/N     measures and draws only the I-th of N parts of the tests, into the cache, and makes no site:
                  processes or machines share the work of a large archive, and a build with their cache ends it

Exit status: 0 built; 1 content has errors or a file could not be made; 2 wrong usage.
`;

/** How an output folder was left, and what was said of it. */
interface Stamp extends Pick<Told, 'told' | 'counts'> {
  /** Digest of everything it was made from. */
  readonly key: string;
  readonly inputs: SeenFiles;
  readonly left: LeftFolder;
  /** How the folder that pages are told of the press folders by was left. */
  readonly forPages: LeftFolder;
  /** What is known of the code that ran. */
  readonly code: { readonly from: string; readonly digests: ReadonlyMap<string, string> };
}

/**
 * Builds the publication under `io.root` into `dist/` (or `--out`).
 * @returns 0 built; 1 content has errors, and what stood in the folder before is untouched; 2 wrong usage
 * @throws ProblemError where another build of the folder is under way
 */
export async function runBuild(args: readonly string[], io: Io): Promise<number> {
  if (args.includes('--help') || args.includes('-h')) {
    io.stdout(HELP);
    return 0;
  }
  let values: {
    readonly out?: string;
    readonly cache?: string;
    readonly clean?: boolean;
    readonly shard?: string;
  };
  try {
    values = parseArgs({
      args: [...args],
      options: {
        out: { type: 'string' },
        cache: { type: 'string' },
        clean: { type: 'boolean' },
        shard: { type: 'string' },
      },
    }).values;
  } catch (error) {
    io.stderr(
      `evenground build: ${(error as Error).message.split('\n')[0]} Only --out FOLDER, --cache FOLDER, --clean and --shard I/N are known.\n`,
    );
    return 2;
  }
  const [, part = 0, of = 0] = (/^(\d+)\/(\d+)$/.exec(values.shard ?? '') ?? []).map(Number);
  if (values.shard !== undefined && (part < 1 || part > of)) {
    io.stderr(
      `evenground build: --shard takes the part and the number of parts, such as 1/4, not ${values.shard}.\n`,
    );
    return 2;
  }
  if (values.shard !== undefined && (values.clean === true || values.out !== undefined)) {
    io.stderr(
      'evenground build: --shard fills the cache that other parts fill too, and makes no site, so that it goes with neither --clean nor --out.\n',
    );
    return 2;
  }
  // The pages are made by a program of their own that takes no arguments.
  if (values.cache !== undefined) process.env[CACHE_VARIABLE] = values.cache;
  if (values.shard !== undefined) return await buildShard({ part, of }, io);
  const out = values.out ?? SITE_FOLDER;
  return await withLock(join(io.root, LOCK), async () => {
    if (values.clean) {
      await storeOf(io.root).clear(0);
      await rm(join(io.root, STAMPS), { recursive: true, force: true });
    }
    return await buildWhatChanged(out, io);
  });
}

/** Parts of one archive are made side by side, so that they take no lock; the store takes several writers. */
async function buildShard(shard: Shard, io: Io): Promise<number> {
  const began = performance.now();
  const { makeShard } = await import('./build-work.ts');
  const tests = await makeShard(shard, storeOf(io.root), io);
  if (tests === undefined) return 1;
  const seconds = ((performance.now() - began) / 1000).toFixed(1);
  io.stdout(`Part ${shard.part} of ${shard.of}: ${tests} tests measured and drawn in ${seconds} s.\n`);
  return 0;
}

/** The build itself; nothing else builds in this folder meanwhile. */
async function buildWhatChanged(out: string, io: Io): Promise<number> {
  const began = performance.now();
  const folder = resolve(io.root, out);
  const stampFile = join(io.root, STAMPS, digestOf([STAMP_FORM, folder]));
  const stamp = await readStamp(stampFile);
  const look = stamp && lookMeanwhile(folder, stamp.left);
  const inputs = seenFiles(io.root, INPUTS, stamp?.inputs);
  const contents = Object.entries(inputs).map(([path, [, , sha256]]) => [path, sha256]);
  const key = digestOf(['build', codeVersion(io.root), process.version, contents]);
  const unchanged = ({ told, counts }: Stamp): number => {
    io.stderr(told);
    io.stdout(buildSummary(counts, out, 'Nothing has changed since it was made'));
    return 0;
  };
  if (stamp !== undefined && stamp.key === key) {
    if (await look?.isAsLeft()) return unchanged(stamp);
    const { files, whole } = filesAsLeft(folder, stamp.left);
    if (whole) {
      // Only times are others: the next look need not read the files again.
      await writeStamp(stampFile, { ...stamp, left: folderAsWritten(folder, files) });
      return unchanged(stamp);
    }
  }
  look?.stop();
  const code = codeFrom(inputs);
  if (stamp?.code.from === code && codeRoot() === io.root) knowCodeDigests(stamp.code.digests);
  const few = isFew(inputs, stamp?.inputs);
  const store = withEntriesAtHand(storeOf(io.root), join(io.root, STAMPS), few);
  const place = {
    folder,
    out,
    ...(stamp && { former: { folder, left: stamp.left, files: digestsStill(folder, stamp.left) } }),
    forPages: forPagesIn(io.root, store, stamp?.forPages),
  };
  const built =
    (await restored(place, key, store, io)) ??
    (await import('./build-work.ts').then(({ makeSite }) => makeSite(place, inputs, few, store, io)));
  if (built === undefined) return 1;
  const { files, left, ...told } = built;
  const listed = [...files].map(([path, sha256]) => ({ path, sha256 }));
  await keepWork(store, key, { value: told, files: listed });
  const { counts } = told;
  await writeStamp(stampFile, {
    key,
    inputs,
    told: told.told,
    counts,
    left,
    forPages: forPagesAsWritten(io.root, told.forPages),
    code: { from: code, digests: knownCodeDigests() },
  });
  await serve(io.root, folder);
  store.putTogether();
  await store.tidy(Math.max(MOST_BYTES, bytesLeft(left)));
  const seconds = (performance.now() - began) / 1000;
  io.stdout(buildSummary(counts, out, `Made in ${seconds.toFixed(1)} s`));
  return 0;
}

/** So many tests are made one after another as fast as in processes of their own. */
const FEW_TESTS = 3;

/** Whether nothing but a few tests is another than before. */
function isFew(inputs: SeenFiles, before: SeenFiles | undefined): boolean {
  if (before === undefined) return false;
  const changed = Object.keys(inputs).filter(path => inputs[path]?.[2] !== before[path]?.[2]);
  changed.push(...Object.keys(before).filter(path => !(path in inputs)));
  const tests = new Set(changed.map(path => testFolderOf(path)));
  return tests.size <= FEW_TESTS && !tests.has(undefined);
}

/** What digests of code hang on, besides the machine's own kind. */
const codeFrom = (inputs: SeenFiles): string =>
  digestOf([process.version, process.platform, process.arch, codeDigests(inputs)]);

/** Opens what pages are made from; what is there as it was left is known without reading it. */
function forPagesIn(root: string, store: Store, left: LeftFolder | undefined): SitePlace['forPages'] {
  const known =
    left !== undefined && isAsLeft(join(root, PRESS_FOR_PAGES), left) ? digestsIn(left) : undefined;
  const get = (path: string): string | undefined =>
    path.startsWith(FOR_PAGES) ? known?.get(path.slice(FOR_PAGES.length)) : undefined;
  return () => openInPlace(root, store, { get });
}

const FOR_PAGES = `${PRESS_FOR_PAGES}/`;
const forPagesAsWritten = (root: string, files: Told['forPages']): LeftFolder =>
  folderAsWritten(
    join(root, PRESS_FOR_PAGES),
    new Map(
      files.flatMap(({ path, sha256 }) =>
        path.startsWith(FOR_PAGES) ? [[path.slice(FOR_PAGES.length), sha256]] : [],
      ),
    ),
  );

/** The same site made before into whatever folder, put in its place; undefined where it is not kept whole. */
async function restored(
  { folder, former, forPages: openForPages }: SitePlace,
  key: string,
  store: Store,
  io: Io,
): Promise<Made | undefined> {
  const kept = keptWork<Told>(store, key);
  if (kept === undefined) return undefined;
  const forPages = openForPages();
  try {
    if (!(await adoptEvery(kept.value.forPages, forPages.adopt))) throw NOT_WHOLE;
    const written = await replaceFolder(folder, async staging => {
      const { adopt, files, again } = openOutput(staging, store, former);
      if (!(await adoptEvery(kept.files, adopt))) throw NOT_WHOLE;
      return { files, left: folderAsWritten(staging, files, former && { left: former.left, paths: again }) };
    });
    io.stderr(kept.value.told);
    return { ...kept.value, ...written };
  } catch (error) {
    if (error === NOT_WHOLE) return undefined;
    throw error;
  }
}
const NOT_WHOLE = new Error('A file of a kept build is missing or damaged');

/** The development server shows pages with the pictures of the last build. */
async function serve(root: string, folder: string): Promise<void> {
  const served = join(root, SERVED);
  await rm(served, { recursive: true, force: true });
  await mkdir(served, { recursive: true });
  for (const name of SERVED_FOLDERS) {
    // Only a convenience of the development server: without links it shows the pages alone.
    await symlink(join(folder, name), join(served, name)).catch(() => {});
  }
}

/** SHA-256 of what follows as a line, then the stamp as Node writes values down. */
async function writeStamp(file: string, stamp: Stamp): Promise<void> {
  const bytes = serialize(stamp);
  await writeWhole(file, Buffer.concat([Buffer.from(`${bytesDigest(bytes)}\n`), bytes]));
}

/** Undefined where there is none, or where it is no use. */
async function readStamp(file: string): Promise<Stamp | undefined> {
  try {
    const bytes = await readFile(file);
    const begin = bytes.indexOf('\n') + 1;
    const written = bytes.subarray(begin);
    if (bytes.toString('latin1', 0, begin - 1) !== bytesDigest(written)) return undefined;
    return deserialize(written) as Stamp;
  } catch {
    return undefined;
  }
}
