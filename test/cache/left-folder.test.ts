import {
  chmodSync,
  linkSync,
  mkdirSync,
  mkdtempSync,
  renameSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { bytesDigest } from '../../pipeline/cache/digest.ts';
import {
  bytesLeft,
  digestsIn,
  digestsStill,
  filesAsLeft,
  folderAsWritten,
  isAsLeft,
  isPartAsLeft,
  type LeftFolder,
  NOTHING_LEFT,
} from '../../pipeline/cache/left-folder.ts';
import { lookMeanwhile } from '../../pipeline/cache/left-folder-meanwhile.ts';

const LONG_AGO_S = 1_700_000_000;
const DAY_MS = 86_400_000;
const FILES = {
  '.hidden': 'h',
  'a.txt': 'a',
  'deep/b.txt': 'b',
  'deep/down/c.txt': 'cc',
  'deep-er/d.txt': '',
};

let root: string;
let folder: string;
const put = (path: string, text: string, changedS = LONG_AGO_S): void => {
  writeFileSync(join(folder, path), text);
  utimesSync(join(folder, path), changedS, changedS);
};
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'evenground-left-'));
  folder = join(root, 'site');
  for (const path of ['deep/down', 'deep-er']) mkdirSync(join(folder, path), { recursive: true });
  for (const [path, text] of Object.entries(FILES)) put(path, text);
});
afterEach(() => {
  vi.useRealTimers();
  rmSync(root, { recursive: true });
});

const written = () =>
  folderAsWritten(folder, new Map(Object.entries(FILES).map(([path, text]) => [path, bytesDigest(text)])));
/** The clock of a file system may move in steps as long as this. */
const STEP_MS = 25;
/** As it is told where everything was made long before. */
const writtenLater = () => {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, STEP_MS);
  vi.useFakeTimers({ toFake: ['Date'], now: Date.now() + DAY_MS });
  const left = written();
  vi.useRealTimers();
  return left;
};
/** Also more parts than it has folders and files. */
const COUNTS_OF_PARTS = [2, 3, 7, 1000];
/** What all parts of it together tell, whichever number of them it is looked at in. */
const areParts = (left: LeftFolder): readonly boolean[] =>
  COUNTS_OF_PARTS.map(parts =>
    Array.from({ length: parts }, (_, part) => isPartAsLeft(folder, left, part, parts)).every(Boolean),
  );
const all = Object.keys(FILES).sort();
const but = (...gone: readonly string[]) => all.filter(path => !gone.includes(path));

describe.each([
  ['folders of a moment ago', written],
  ['folders of long ago', writtenLater],
])('a folder as it was left, with %s', (_, leave) => {
  const look = (left: LeftFolder) => {
    const { files, whole } = filesAsLeft(folder, left);
    return { files: [...files.keys()].sort(), whole };
  };

  it('is as it was left, and its files are known by their content', () => {
    const left = leave();
    expect(isAsLeft(folder, left)).toBe(true);
    expect(areParts(left)).toEqual(COUNTS_OF_PARTS.map(() => true));
    const digests = new Map(Object.entries(FILES).map(([path, text]) => [path, bytesDigest(text)]));
    expect(filesAsLeft(folder, left)).toEqual({ files: digests, whole: true });
    const known = digestsIn(left);
    expect(all.map(path => known.get(path))).toEqual(all.map(path => digests.get(path)));
    const others = ['deep', 'c.txt', 'deep/a.txt', 'deep/down/.txt', 'txt', 'deep/down', ''];
    expect(others.map(path => known.get(path))).toEqual(others.map(() => undefined));
  });

  it('is whole also where only times differ, and where it was copied', () => {
    const left = leave();
    put('deep/b.txt', 'b', LONG_AGO_S + 100);
    chmodSync(join(folder, 'deep'), 0o700);
    expect(isAsLeft(folder, left)).toBe(false);
    expect(look(left)).toEqual({ files: all, whole: true });
  });

  it('is as it was left after it was moved', () => {
    const left = leave();
    renameSync(folder, join(root, 'moved'));
    expect(isAsLeft(join(root, 'moved'), left)).toBe(true);
    renameSync(join(root, 'moved'), folder);
  });

  it.each<readonly [string, () => void, readonly string[]]>([
    ['a file is changed', () => put('a.txt', 'z', LONG_AGO_S + 1), but('a.txt')],
    ['a file is longer', () => put('deep/down/c.txt', 'ccc'), but('deep/down/c.txt')],
    ['a file is gone', () => rmSync(join(folder, 'deep/b.txt')), but('deep/b.txt')],
    ['another joined', () => put('deep/down/e.txt', 'e'), all],
    ['another joined at the top', () => put('e.txt', 'e'), all],
    ['another joined whose name begins as that of a folder', () => put('deep/dow', 'e'), all],
    [
      'another joined in a folder of its own',
      () => {
        mkdirSync(join(folder, 'deep/new'));
        put('deep/new/e.txt', 'e');
      },
      all,
    ],
    [
      'another name was given to one',
      () => linkSync(join(folder, 'a.txt'), join(folder, 'deep-er/a.txt')),
      all,
    ],
    [
      'two changed names',
      () => {
        renameSync(join(folder, 'a.txt'), join(folder, 'deep-er/a.txt'));
      },
      but('a.txt'),
    ],
    [
      'a folder is gone',
      () => rmSync(join(folder, 'deep'), { recursive: true }),
      but('deep/b.txt', 'deep/down/c.txt'),
    ],
    [
      'a file became a link to what it was',
      () => {
        renameSync(join(folder, 'a.txt'), join(root, 'a.txt'));
        symlinkSync(join(root, 'a.txt'), join(folder, 'a.txt'));
      },
      but('a.txt'),
    ],
    [
      'a file became a folder',
      () => {
        rmSync(join(folder, 'a.txt'));
        mkdirSync(join(folder, 'a.txt'));
      },
      but('a.txt'),
    ],
  ])('is no longer so where %s; the others are known', (_, change, known) => {
    const left = leave();
    change();
    expect(isAsLeft(folder, left)).toBe(false);
    expect(areParts(left)).toEqual(COUNTS_OF_PARTS.map(() => false));
    const still = digestsStill(folder, left);
    expect(all.filter(path => still.get(path) === digestsIn(left).get(path))).toEqual(known);
    expect(all.filter(path => still.get(path) !== undefined)).toEqual(known);
    expect(look(left)).toEqual({ files: known, whole: false });
  });

  it('that is gone holds nothing', () => {
    const left = leave();
    rmSync(folder, { recursive: true });
    expect(look(left)).toEqual({ files: [], whole: false });
  });
});

it('keeps the sizes and times of files that were named again, so that a later change to one is found', () => {
  const left = written();
  const again = join(root, 'again');
  const digests = new Map(
    Object.entries({ ...FILES, 'deep/b.txt': 'new' }).map(([path, text]) => [path, bytesDigest(text)]),
  );
  for (const path of ['deep/down', 'deep-er']) mkdirSync(join(again, path), { recursive: true });
  const paths = new Set(all.filter(path => path !== 'deep/b.txt'));
  for (const path of paths) linkSync(join(folder, path), join(again, path));
  writeFileSync(join(again, 'deep/b.txt'), 'new');
  const leftAgain = folderAsWritten(again, digests, { left, paths });
  expect(filesAsLeft(again, leftAgain)).toEqual({ files: digests, whole: true });
  expect(isAsLeft(again, leftAgain)).toBe(true);
  put('a.txt', 'z', LONG_AGO_S + 1);
  expect(isAsLeft(again, folderAsWritten(again, digests, { left, paths }))).toBe(false);
});

const ANY_NUMBER = 0;
it.each([
  ['a small one by this thread', undefined, 0],
  ['a large one by both, this one taking what the other has not begun', ANY_NUMBER, 0],
  ['a large one, after the other thread has had the time to', ANY_NUMBER, 500],
])('is looked at meanwhile: %s', async (_, many, laterMs) => {
  const left = written();
  const look = lookMeanwhile(folder, left, many);
  await setTimeout(laterMs);
  expect(await look.isAsLeft()).toBe(true);
  put('deep/down/e.txt', 'e');
  const lookNow = lookMeanwhile(folder, left, many);
  await setTimeout(laterMs);
  expect(await lookNow.isAsLeft()).toBe(false);
});

it('is as large as its files are', () => {
  expect(bytesLeft(written())).toBe(Object.values(FILES).join('').length);
});

it('of which nothing is known is never as it was left', () => {
  expect(isAsLeft(folder, NOTHING_LEFT)).toBe(false);
  expect(filesAsLeft(folder, NOTHING_LEFT)).toEqual({ files: new Map(), whole: false });
  expect(digestsIn(NOTHING_LEFT).get('a.txt')).toBeUndefined();
});
