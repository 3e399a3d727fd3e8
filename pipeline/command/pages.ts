/** Every page of the site: those of each test as they are kept, the rest made, over all cores where they are many. */
import { fork } from 'node:child_process';
import { readFile, rm } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import { digestOf } from '../cache/digest.ts';
import { filesUnder, type SeenFiles } from '../cache/file-tree.ts';
import { adoptEvery, type KeptFile } from '../cache/kept.ts';
import type { SeenContent } from '../cache/kept-content.ts';
import type { Store } from '../cache/store.ts';
import { codeVersion } from '../code-version.ts';
import { keptPages, partsToMake, type TestToMake } from '../press/kept-pages.ts';
import type { Output, ReadableOutput } from '../press/output.ts';
import { pageKeys } from '../press/page-keys.ts';
import { placeLater } from '../press/place-later.ts';
import { ownerOf, WANTED_VARIABLE, type WantedPages, WORKINGS_PART } from '../press/wanted-pages.ts';
import { writeWhole } from '../press/whole.ts';
import type { Publication } from '../result/result.ts';
import { codeDigests } from './inputs.ts';
import { atOnce, chunks } from './spread.ts';

/** Where the pages are made, inside the project: their builder finds the libraries from there. */
const PAGES_FOLDER = '.evenground/pages';
/**
 * Pages of a language that one process makes: enough that making the site's code ready, which each does once, is little
 * beside them, and few enough that what it holds in memory stays the same however many there are.
 */
const PAGES_AT_ONCE = 1200;
/** About as many as a test has attempts; to count them would be to read them. */
const PAGES_OF_WORKINGS = 20;

export interface PagesToMake {
  /** Of the project. */
  readonly root: string;
  readonly publication: Publication;
  /** What the build read, by path from the root. */
  readonly inputs: SeenFiles;
  /** The content among it. */
  readonly seen: SeenContent;
  /** What the pages are told of the press folders. */
  readonly forPages: ReadableOutput;
}

/** @param testsDone hears how many tests' pages are in their place, as they get there */
export async function writeEveryPage(
  { root, publication, inputs, seen, forPages }: PagesToMake,
  store: Store,
  output: Output,
  testsDone: (count: number) => void,
): Promise<void> {
  const surroundings = digestOf(['pages', process.version, codeVersion(root), codeDigests(inputs)]);
  const keys = pageKeys(publication, surroundings, forPages, store);
  const pages = keptPages(keys, surroundings, store, output);
  const missing: TestToMake[] = [];
  const kept = new Map<string, readonly KeptFile[]>();
  for (const id of keys.whole.keys()) {
    const files = pages.filesOf(id);
    if (files === undefined) missing.push(await pages.toMake(id));
    else kept.set(id, files);
  }
  await rm(join(root, PAGES_FOLDER), { recursive: true, force: true });
  let processes = 0;
  const take = async (tests: readonly TestToMake[], shared: boolean): Promise<void> => {
    processes += 1;
    const folder = join(PAGES_FOLDER, String(processes));
    const wanted: WantedPages = {
      tests: tests.map(test => ({ id: test.id, parts: partsToMake(test) })),
      shared,
      seen,
    };
    await writeWhole(join(root, `${folder}.json`), JSON.stringify(wanted));
    await made(root, folder);
    const own = new Map(tests.map(({ id }) => [id, [] as KeptFile[]]));
    for (const path of filesUnder(join(root, folder))) {
      const files = own.get(ownerOf(path)?.test ?? '');
      if (files === undefined && !shared) continue;
      await output.write(path, await readFile(join(root, folder, path)));
      files?.push({ path, sha256: output.files.get(path)! });
    }
    for (const test of tests) await pages.keep(test, own.get(test.id)!);
    await rm(join(root, folder), { recursive: true, force: true });
    testsDone(tests.length);
  };
  const parts = chunks(missing, PAGES_AT_ONCE, pagesToMake);
  // The last one makes the pages of no single test as well.
  const last = parts.pop() ?? [];
  const making = atOnce(availableParallelism(), [...parts, last], tests => take(tests, tests === last));
  // What is kept gets to its place while they are made.
  const torn: TestToMake[] = [];
  const later = placeLater();
  for (const [id, files] of kept)
    later.add(async () => {
      if (await adoptEvery(files, output.adopt)) testsDone(1);
      else torn.push(await pages.toMake(id));
    });
  await Promise.all([making, later.all()]);
  await atOnce(availableParallelism(), chunks(torn, PAGES_AT_ONCE, pagesToMake), tests => take(tests, false));
  await rm(join(root, PAGES_FOLDER), { recursive: true, force: true });
}

/** About as many pages of one language as are to be made of a test. */
const pagesToMake = (test: TestToMake): number =>
  partsToMake(test).reduce((sum, part) => sum + (part === WORKINGS_PART ? PAGES_OF_WORKINGS : 1), 1);

/** The pages that a file says are wanted, made into a folder by a process of their own. */
function made(root: string, folder: string): Promise<void> {
  return new Promise((done, failed) => {
    const child = fork(join(import.meta.dirname, 'pages-process.ts'), [folder], {
      cwd: root,
      env: { ...process.env, [WANTED_VARIABLE]: join(root, `${folder}.json`), ASTRO_TELEMETRY_DISABLED: '1' },
      stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    });
    const said: Buffer[] = [];
    child.stderr?.on('data', (chunk: Buffer) => said.push(chunk));
    child.once('error', failed);
    child.once('close', status =>
      status === 0 ? done() : failed(pagesFailed(Buffer.concat(said).toString('utf8'))),
    );
  });
}

/** The first line that its process said is the reason; the rest is for whoever mends it. */
function pagesFailed(said: string): Error {
  const lines = said.split('\n').map(line => stripVTControlCharacters(line).trim());
  const reason = lines
    .find(line => line !== '')
    ?.replace(/^(?:[\d:]+\s+)?(?:\[ERROR\]\s*)?(?:Error:\s*)?|\.$/g, '');
  const error = new Error(`the pages could not be made: ${reason ?? 'their process was ended'}`);
  error.stack = said;
  // A full or read-only disk is told as such, whichever process met it.
  const code = /\b(E[A-Z]{3,})\b:/.exec(said)?.[1];
  return code === undefined ? error : Object.assign(error, { code });
}
