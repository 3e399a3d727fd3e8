/** The project in a folder of its own with a publication of one short test: for what must not touch the demo. */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { bytesDigest } from '../../pipeline/cache/digest.ts';
import { filesUnder } from '../../pipeline/cache/file-tree.ts';
import { WRITTEN_DAYS } from '../command/written-day.ts';
import { putFile } from '../content/put-file.ts';
import { contentFiles, HOUSE, TEST } from '../content/valid.ts';
import type { Random } from '../simulate/random.ts';

const ROOT = resolve(import.meta.dirname, '../..');
const PARTS = ['pipeline', 'site', 'package.json', 'package-lock.json', 'astro.config.mjs', 'tsconfig.json'];

/** As few pictures as there can be of everything. */
export const SMALL_HOUSE = `${HOUSE}press: { papers: [light], crops: none }\nvideo: { sizes: ["640x360"] }\n`;
export const SMALL_DAY = WRITTEN_DAYS.find(({ text }) => text.startsWith('time_s,'))!.text;

/** The one test of the publication, its attempt noted as told. */
export const smallTest = (note: string): string =>
  TEST.replace(/attempts:[\s\S]*/, '')
    .replace('file: logs/morning.csv', 'file: logs/morning.csv\n    starts_at: "10:00:00"')
    .concat(`attempts:\n  - { at: "10:00", launch: from-rest, direction: east, note: ${note} }\n`);

export const SMALL_TEST_FILE = 'content/tests/wren-dry/test.yaml';

/** The program in a folder of its own, which shares the libraries. */
export function programIn(root: string): void {
  for (const part of PARTS) cpSync(join(ROOT, part), join(root, part), { recursive: true });
  symlinkSync(join(ROOT, 'node_modules'), join(root, 'node_modules'));
}

/** @returns its folder, to be removed by who asked */
export function smallProject(): string {
  const root = mkdtempSync(join(tmpdir(), 'evenground-small-'));
  programIn(root);
  const files = contentFiles({
    'content/house.yaml': SMALL_HOUSE,
    [SMALL_TEST_FILE]: smallTest('Clean'),
    'content/tests/wren-dry/logs/morning.csv': SMALL_DAY,
  });
  for (const [path, bytes] of files) putFile(root, path, bytes);
  return root;
}

/** How a build is started under the folder of a project. */
export const BUILD_COMMAND = ['pipeline/evenground.mjs', 'build'];
/** The test runner's own NODE_ENV, BASE_URL and the like would be taken for the site's. */
export const buildEnvironment = (): NodeJS.ProcessEnv => ({
  PATH: process.env.PATH,
  HOME: process.env.HOME,
  ASTRO_TELEMETRY_DISABLED: '1',
  NODE_COMPILE_CACHE: process.env.NODE_COMPILE_CACHE,
});

/** A build to its end. @returns what it says was made @throws Error with its own words where it fails */
export function buildIn(root: string, ...args: readonly string[]): string {
  const { status, stdout, stderr } = spawnSync(process.execPath, [...BUILD_COMMAND, ...args], {
    cwd: root,
    encoding: 'utf8',
    env: buildEnvironment(),
  });
  if (status !== 0) throw new Error(`The build failed:\n${stdout}\n${stderr}`);
  return stdout;
}

/** SHA-256 of every file under a folder by its path from there, in the order of the paths. */
export const digestsUnder = (folder: string): Readonly<Record<string, string>> =>
  Object.fromEntries(filesUnder(folder).map(path => [path, bytesDigest(readFileSync(join(folder, path)))]));

const CACHE = '.evenground/cache';
const DAMAGED_SHARE = 0.3;
const MOST_LEFT_BYTES = 40;

/** Cuts entries of the project's cache short, which it must find out. @returns how many */
export function damageCache(root: string, { chance, whole }: Pick<Random, 'chance' | 'whole'>): number {
  const damaged = filesUnder(root, CACHE).filter(() => chance(DAMAGED_SHARE));
  for (const path of damaged) {
    const place = join(root, path);
    writeFileSync(place, readFileSync(place).subarray(0, whole(0, MOST_LEFT_BYTES - 1)));
  }
  return damaged.length;
}
