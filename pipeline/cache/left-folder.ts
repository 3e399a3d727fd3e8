/**
 * A folder as it was left, and whether it still is so. Of each file size and time are looked at, and the content where
 * these differ. Which files there are is read only of those folders in it whose own record has changed since: putting
 * in, taking out or renaming sets a folder's time (POSIX.1-2017, 4.9 "File Times Update"), which nobody can set back.
 */
import { lstatSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { bytesDigest } from './digest.ts';
import { filesUnder, TICK_MS } from './file-tree.ts';

/**
 * Folders and files, each folder right before the files that lie in it itself. In columns, as an archive has a hundred
 * thousand: to compare numbers takes less time than to write them down, and nothing is taken apart.
 */
export interface LeftFolder {
  /** All paths from the folder, slashes between their parts, one after another. */
  readonly paths: string;
  /** Where each path ends in `paths`. */
  readonly ends: Uint32Array;
  /** Bytes of each file; `NO_FILE` of a folder. */
  readonly sizes: Float64Array;
  /** Of each file its content's time in ms, of each folder that of its record, or `UNCERTAIN_MS`. */
  readonly changedMs: Float64Array;
  /** SHA-256 of each file, `DIGEST_BYTES` for each path. */
  readonly digests: Uint8Array;
}

/** What a look at the folder needs of it. */
export type LeftStates = Omit<LeftFolder, 'digests'>;

const SLASH = '/';
const DIGEST_BYTES = 32;
const NO_FILE = -1;
/** Stands for the time of a folder that changed a moment ago: what is in it is read again. */
const UNCERTAIN_MS = -1;
const IF_THERE = { throwIfNoEntry: false } as const;

export const NOTHING_LEFT: LeftFolder = inColumns([]);

/** Files that are those of another folder under a further name. */
export interface NamedAgain {
  /** How that folder was left. */
  readonly left: LeftFolder;
  readonly paths: ReadonlySet<string>;
}

interface Entry {
  readonly path: string;
  readonly size: number;
  readonly changedMs: number;
  /** Absent of a folder. */
  readonly sha256?: string;
}

/**
 * How files of known content lie in a folder that holds no others.
 * @param digests SHA-256 by path
 * @param again files whose content is known from an earlier look, with the sizes and times that they had then: whatever
 *   has happened to one since is found by the next look
 */
export function folderAsWritten(
  folder: string,
  digests: ReadonlyMap<string, string>,
  again?: NamedAgain,
): LeftFolder {
  const nowMs = Date.now();
  const within = new Map<string, Entry[]>([['', []]]);
  const filesOf = (path: string): Entry[] => {
    let files = within.get(path);
    if (files === undefined) {
      filesOf(folderOf(path));
      files = [];
      within.set(path, files);
    }
    return files;
  };
  if (again !== undefined) {
    for (const file of filesIn(again.left))
      if (again.paths.has(file.path)) filesOf(folderOf(file.path)).push(file);
  }
  for (const [path, sha256] of digests) {
    if (again?.paths.has(path)) continue;
    const { size, mtimeMs } = lstatSync(`${folder}/${path}`);
    filesOf(folderOf(path)).push({ path, size, changedMs: mtimeMs, sha256 });
  }
  return inColumns(
    [...within].flatMap(([path, files]) => {
      const { ctimeMs } = lstatSync(placeOf(folder, path));
      const changedMs = nowMs - ctimeMs < TICK_MS ? UNCERTAIN_MS : ctimeMs;
      return [{ path, size: NO_FILE, changedMs }, ...files];
    }),
  );
}

function inColumns(entries: readonly Entry[]): LeftFolder {
  const digests = Buffer.alloc(entries.length * DIGEST_BYTES);
  let end = 0;
  for (const [index, { sha256 }] of entries.entries())
    if (sha256 !== undefined) digests.write(sha256, index * DIGEST_BYTES, 'hex');
  return {
    paths: entries.map(({ path }) => path).join(''),
    ends: Uint32Array.from(entries, ({ path }) => (end += path.length)),
    sizes: Float64Array.from(entries, ({ size }) => size),
    changedMs: Float64Array.from(entries, ({ changedMs }) => changedMs),
    digests,
  };
}

/** Whether a folder holds the files it was left with, of the same sizes and times, and no others. */
export const isAsLeft = (folder: string, left: LeftStates): boolean => isPartAsLeft(folder, left, 0, 1);

/** As `isAsLeft`, of one of so many parts, alike in size: all of them together tell of the whole folder. */
export function isPartAsLeft(folder: string, left: LeftStates, part: number, parts: number): boolean {
  const { sizes, changedMs } = left;
  const beginOf = (of: number): number => Math.floor((sizes.length * of) / parts);
  const others: string[] = [];
  for (let index = beginOf(part); index < beginOf(part + 1); index += 1) {
    const path = pathAt(left, index);
    const found = lstatSync(placeOf(folder, path), IF_THERE);
    if (found === undefined) return false;
    if (sizes[index] !== NO_FILE) {
      if (found.size !== sizes[index] || found.mtimeMs !== changedMs[index] || !found.isFile()) return false;
    } else if (!found.isDirectory()) return false;
    else if (found.ctimeMs !== changedMs[index]) {
      const known = new Set(filesRightAfter(left, index).map(file => pathAt(left, file)));
      for (const name of readdirSync(placeOf(folder, path))) {
        const own = pathIn(path, name);
        if (!known.has(own)) others.push(own);
      }
    }
  }
  if (others.length === 0) return sizes.length > 0;
  const folders = new Set(foldersIn(left).map(index => pathAt(left, index)));
  return others.every(path => folders.has(path));
}

/** Files that are still of the same content, by path and SHA-256; `folder` holds nothing else where `whole`. */
export function filesAsLeft(
  folder: string,
  left: LeftFolder,
): { readonly files: ReadonlyMap<string, string>; readonly whole: boolean } {
  const files = new Map<string, string>();
  let count = 0;
  for (const file of filesIn(left)) {
    count += 1;
    if (isStill(join(folder, file.path), file)) files.set(file.path, file.sha256);
  }
  return { files, whole: files.size === count && filesUnder(folder).length === count };
}

/** SHA-256 of files by their paths. */
export type DigestsByPath = Pick<ReadonlyMap<string, string>, 'get'>;

/** Of a folder as it was left. Files are named a folder at a time: to name all takes longer, and most are asked for late. */
export function digestsIn(left: LeftFolder): DigestsByPath {
  const indexOf = indexIn(left);
  return {
    get(path) {
      const index = indexOf(path);
      return index === undefined ? undefined : digestAt(left, index);
    },
  };
}

/** Of the files of a folder that are still of the same content, each looked at when it is asked for. */
export function digestsStill(folder: string, left: LeftFolder): DigestsByPath {
  const indexOf = indexIn(left);
  return {
    get(path) {
      const index = indexOf(path);
      const file = index === undefined ? undefined : fileAt(left, index);
      return file && isStill(placeOf(folder, path), file) ? file.sha256 : undefined;
    },
  };
}

/** Where a file stands in the columns; undefined where there is none at a path. */
function indexIn(left: LeftFolder): (path: string) => number | undefined {
  let folders: ReadonlyMap<string, number> | undefined;
  const within = new Map<number, ReadonlyMap<string, number>>();
  return path => {
    folders ??= new Map(foldersIn(left).map(index => [pathAt(left, index), index]));
    const folder = folders.get(folderOf(path));
    if (folder === undefined) return undefined;
    let files = within.get(folder);
    if (files === undefined) {
      files = new Map(filesRightAfter(left, folder).map(index => [pathAt(left, index), index]));
      within.set(folder, files);
    }
    return files.get(path);
  };
}

/** The files that lie in a folder itself. */
function filesRightAfter({ sizes }: LeftStates, folder: number): readonly number[] {
  const next = sizes.indexOf(NO_FILE, folder + 1);
  const end = next < 0 ? sizes.length : next;
  return Array.from({ length: end - folder - 1 }, (_, file) => folder + 1 + file);
}

/** Bytes of all its files together. */
export const bytesLeft = ({ sizes }: LeftFolder): number =>
  sizes.reduce((sum, size) => (size === NO_FILE ? sum : sum + size), 0);

const pathAt = ({ paths, ends }: LeftStates, index: number): string =>
  paths.slice(index === 0 ? 0 : ends[index - 1], ends[index]);
const digestAt = ({ digests }: LeftFolder, index: number): string =>
  Buffer.from(digests.buffer, digests.byteOffset + index * DIGEST_BYTES, DIGEST_BYTES).toString('hex');

const foldersIn = ({ sizes }: LeftStates): readonly number[] =>
  Array.from(sizes.keys()).filter(index => sizes[index] === NO_FILE);

function* filesIn(left: LeftFolder): Iterable<Required<Entry>> {
  for (const [index, size] of left.sizes.entries()) if (size !== NO_FILE) yield fileAt(left, index);
}

const fileAt = (left: LeftFolder, index: number): Required<Entry> => ({
  path: pathAt(left, index),
  size: left.sizes[index]!,
  changedMs: left.changedMs[index]!,
  sha256: digestAt(left, index),
});

/** A file of the same content, whatever its time. */
function isStill(place: string, { size, changedMs, sha256 }: Required<Entry>): boolean {
  const found = lstatSync(place, IF_THERE);
  if (found?.isFile() !== true || found.size !== size) return false;
  return found.mtimeMs === changedMs || bytesDigest(readFileSync(place)) === sha256;
}

const folderOf = (path: string): string => path.slice(0, Math.max(0, path.lastIndexOf(SLASH)));
const pathIn = (folder: string, name: string): string => (folder === '' ? name : `${folder}/${name}`);
const placeOf = (folder: string, path: string): string => (path === '' ? folder : `${folder}/${path}`);
