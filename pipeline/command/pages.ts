/** Every page of the site: those of each test as they are kept, the rest made, over all cores where they are many. */
import { fork } from 'node:child_process';
import { readFile, rm } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { stripVTControlCharacters } from 'node:util';
import { havePage } from '../article/pair.ts';
import { digestOf } from '../cache/digest.ts';
import { filesUnder, type SeenFiles } from '../cache/file-tree.ts';
import { adoptEvery, type KeptFile, keepWork, keptWork } from '../cache/kept.ts';
import type { SeenContent } from '../cache/kept-content.ts';
import type { Store } from '../cache/store.ts';
import { codeVersion } from '../code-version.ts';
import { isContent } from '../content/files.ts';
import { pressFile } from '../press/manifest.ts';
import type { Output } from '../press/output.ts';
import { placeLater } from '../press/place-later.ts';
import { testsInView } from '../press/test-key.ts';
import { WANTED_VARIABLE, type WantedPages } from '../press/wanted-pages.ts';
import { writeWhole } from '../press/whole.ts';
import { inLanguage, languagesOf, languageWord } from '../result/in-language.ts';
import type { Publication } from '../result/result.ts';
import { testNames } from '../result/tests-compared.ts';
import { atOnce, chunks } from './spread.ts';

/** Where the pages are made, inside the project: their builder finds the libraries from there. */
const PAGES_FOLDER = '.evenground/pages';
/**
 * Tests whose pages one process makes: enough that making the site's code ready, which each does once, is little beside
 * them, and few enough that what it holds in memory stays the same however many there are.
 */
const TESTS_AT_ONCE = 24;

export interface PagesToMake {
  /** Of the project. */
  readonly root: string;
  readonly publication: Publication;
  /** What the build read, by path from the root. */
  readonly inputs: SeenFiles;
  /** The content among it. */
  readonly seen: SeenContent;
  /** SHA-256 of what the pages are told of the press folders, by path. */
  readonly forPages: ReadonlyMap<string, string>;
}

/** @param testsDone hears how many tests' pages are in their place, as they get there */
export async function writeEveryPage(
  toMake: PagesToMake,
  store: Store,
  output: Output,
  testsDone: (count: number) => void,
): Promise<void> {
  const { root, seen } = toMake;
  const keys = pageKeys(toMake, store);
  const missing: string[] = [];
  const kept = new Map<string, readonly KeptFile[]>();
  for (const [test, key] of keys) {
    const files = keptWork<null>(store, key)?.files;
    if (files === undefined) missing.push(test);
    else kept.set(test, files);
  }
  await rm(join(root, PAGES_FOLDER), { recursive: true, force: true });
  let processes = 0;
  const take = async (tests: readonly string[], shared: boolean): Promise<void> => {
    processes += 1;
    const folder = join(PAGES_FOLDER, String(processes));
    const wanted: WantedPages = { tests, shared, seen };
    await writeWhole(join(root, `${folder}.json`), JSON.stringify(wanted));
    await made(root, folder);
    const own = new Map(tests.map(test => [test, [] as KeptFile[]]));
    for (const path of filesUnder(join(root, folder))) {
      const files = own.get(testOf(path) ?? '');
      if (files === undefined && !shared) continue;
      await output.write(path, await readFile(join(root, folder, path)));
      files?.push({ path, sha256: output.files.get(path)! });
    }
    for (const [test, files] of own) await keepWork(store, keys.get(test)!, { value: null, files });
    await rm(join(root, folder), { recursive: true, force: true });
    testsDone(tests.length);
  };
  const parts = chunks(missing, TESTS_AT_ONCE);
  // The last one makes the pages of no single test as well.
  const last = parts.pop() ?? [];
  const making = atOnce(availableParallelism(), [...parts, last], tests => take(tests, tests === last));
  // What is kept gets to its place while they are made.
  const torn: string[] = [];
  const later = placeLater();
  for (const [test, files] of kept)
    later.add(async () => {
      if (await adoptEvery(files, output.adopt)) testsDone(1);
      else torn.push(test);
    });
  await Promise.all([making, later.all()]);
  await atOnce(availableParallelism(), chunks(torn, TESTS_AT_ONCE), tests => take(tests, false));
  await rm(join(root, PAGES_FOLDER), { recursive: true, force: true });
}

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

/** For each test the key of its pages in every language: all they are made from. */
function pageKeys(
  { root, publication, inputs, forPages }: PagesToMake,
  store: Store,
): ReadonlyMap<string, string> {
  const code = Object.entries(inputs).flatMap(([path, [, , sha256]]) =>
    isContent(path) ? [] : [[path, sha256]],
  );
  const surroundings = digestOf(['pages', process.version, codeVersion(root), code]);
  const parts = new Map(publication.tests.map(({ id }) => [id, [surroundings]]));
  for (const [index, tag] of languagesOf(publication.house).entries()) {
    const own = inLanguage(publication, tag);
    const lang = index === 0 ? undefined : languageWord(tag);
    const names = testNames(own.tests, own.house);
    const nameOf = new Map(own.tests.map((test, place) => [test, names[place]]));
    for (const { test, key, shownDigest } of testsInView(own, store)) {
      const beside = own.tests.filter(other => other === test || havePage(test, other));
      const shown = beside.map(other => [nameOf.get(other), shownDigest(other)]);
      parts.get(test.id)!.push(digestOf([key, shown, forPages.get(pressFile(test.id, lang))]));
    }
  }
  return new Map([...parts].map(([id, made]) => [id, digestOf(made)]));
}

/** The test that a page belongs to, by its path in whatever language. */
const testOf = (path: string): string | undefined =>
  /^(?:[a-z]{2,3}\/)?(?:tests|compare)\/([^/]+)(?:\.json$|\/)/.exec(path)?.[1];
