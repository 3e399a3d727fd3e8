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
 * One text, as an archive has a hundred thousand files: of each folder `/`, time of its record in ms, a space and its
 * path, then of each file in it SHA-256, size in bytes, a space, time in ms, `/` and its name. Each ends with a NUL,
 * which no name holds.
 */
export type LeftFolder = string;

const END = '\0';
const SLASH = '/';
const DIGEST_LENGTH = 64;
/** Stands for the time of a folder that changed a moment ago: what is in it is read again. */
const UNCERTAIN_MS = -1;

export const NOTHING_LEFT: LeftFolder = '';

/** Files that are those of another folder under a further name. */
export interface NamedAgain {
  /** How that folder was left. */
  readonly left: LeftFolder;
  readonly paths: ReadonlySet<string>;
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
  const within = new Map<string, string[]>([['', []]]);
  const linesOf = (path: string): string[] => {
    let lines = within.get(path);
    if (lines === undefined) {
      linesOf(folderOf(path));
      lines = [];
      within.set(path, lines);
    }
    return lines;
  };
  if (again !== undefined) {
    for (const inside of foldersIn(again.left)) {
      for (const line of filesOf(inside))
        if (again.paths.has(pathIn(inside.path, nameIn(line)))) linesOf(inside.path).push(line);
    }
  }
  for (const [path, sha256] of digests) {
    if (again?.paths.has(path)) continue;
    const lines = linesOf(folderOf(path));
    lines.push(`${sha256}${stateAt(`${folder}/${path}`)}/${path.slice(path.lastIndexOf(SLASH) + 1)}`);
  }
  return [...within]
    .map(([path, lines]) => {
      const { ctimeMs } = lstatSync(placeOf(folder, path));
      return [`/${nowMs - ctimeMs < TICK_MS ? UNCERTAIN_MS : ctimeMs} ${path}`, ...lines, ''].join(END);
    })
    .join('');
}

/** Whether a folder holds the files it was left with, of the same sizes and times, and no others. */
export function isAsLeft(folder: string, left: LeftFolder): boolean {
  const others = new Set<string>();
  for (const inside of foldersIn(left)) {
    const { path, changedMs, lines } = inside;
    const place = placeOf(folder, path);
    const found = lstatSync(place, { throwIfNoEntry: false });
    if (found?.isDirectory() !== true) return false;
    if (found.ctimeMs !== changedMs) {
      const names = new Set(filesOf(inside).map(nameIn));
      for (const name of readdirSync(place)) if (!names.has(name)) others.add(pathIn(path, name));
    }
    // Compared where it stands: taken apart, an archive's lines are a hundred thousand texts.
    for (let line = 0; line < lines.length; ) {
      const slash = lines.indexOf(SLASH, line);
      const end = lines.indexOf(END, slash);
      const state = stateAt(place + lines.slice(slash, end));
      const from = line + DIGEST_LENGTH;
      if (state.length !== slash - from || !lines.startsWith(state, from)) return false;
      line = end + 1;
    }
  }
  if (others.size > 0) for (const { path } of foldersIn(left)) others.delete(path);
  return left !== NOTHING_LEFT && others.size === 0;
}

/** Files that are still of the same content, by path and SHA-256; `folder` holds nothing else where `whole`. */
export function filesAsLeft(
  folder: string,
  left: LeftFolder,
): { readonly files: ReadonlyMap<string, string>; readonly whole: boolean } {
  const files = new Map<string, string>();
  let count = 0;
  for (const inside of foldersIn(left)) {
    for (const line of filesOf(inside)) {
      count += 1;
      const own = pathIn(inside.path, nameIn(line));
      if (isStill(join(folder, own), line)) files.set(own, line.slice(0, DIGEST_LENGTH));
    }
  }
  return { files, whole: files.size === count && filesUnder(folder).length === count };
}

/** SHA-256 of files by their paths. */
export type DigestsByPath = Pick<ReadonlyMap<string, string>, 'get'>;

/** Of a folder as it was left. Each is looked for where it stands: to name all takes longer, and most are asked for late. */
export function digestsIn(left: LeftFolder): DigestsByPath {
  const lines = new Map(Array.from(foldersIn(left), inside => [inside.path, inside.lines]));
  return {
    get(path) {
      const inside = lines.get(folderOf(path)) ?? '';
      const name = inside.indexOf(`/${path.slice(path.lastIndexOf(SLASH) + 1)}${END}`);
      const line = inside.lastIndexOf(END, name) + 1;
      return name < 0 ? undefined : inside.slice(line, line + DIGEST_LENGTH);
    },
  };
}

/** Bytes of all its files together. */
export function bytesLeft(left: LeftFolder): number {
  let sum = 0;
  for (const inside of foldersIn(left))
    for (const line of filesOf(inside)) sum += Number.parseInt(line.slice(DIGEST_LENGTH), 10);
  return sum;
}

interface FolderInside {
  readonly path: string;
  readonly changedMs: number;
  /** One a file, each ended. */
  readonly lines: string;
}

function* foldersIn(left: LeftFolder): Iterable<FolderInside> {
  for (let from = 0; from < left.length; ) {
    const next = left.indexOf(END + SLASH, from);
    const to = next < 0 ? left.length : next + 1;
    const head = left.indexOf(END, from);
    const space = left.indexOf(' ', from);
    yield {
      path: left.slice(space + 1, head),
      changedMs: Number(left.slice(from + 1, space)),
      lines: left.slice(head + 1, to),
    };
    from = to;
  }
}

const filesOf = ({ lines }: FolderInside): readonly string[] =>
  lines === '' ? [] : lines.slice(0, -1).split(END);

/** Size and time of a file. */
function stateAt(place: string): string {
  const found = lstatSync(place, { throwIfNoEntry: false });
  return found?.isFile() === true ? `${found.size} ${found.mtimeMs}` : 'no file';
}

/** A file of the same content, whatever its time. */
function isStill(place: string, line: string): boolean {
  const state = stateAt(place);
  if (state === stateIn(line)) return true;
  const sameSize = state.startsWith(`${Number.parseInt(line.slice(DIGEST_LENGTH), 10)} `);
  return sameSize && bytesDigest(readFileSync(place)) === line.slice(0, DIGEST_LENGTH);
}

const nameIn = (line: string): string => line.slice(line.indexOf(SLASH) + 1);
const stateIn = (line: string): string => line.slice(DIGEST_LENGTH, line.indexOf(SLASH));
const folderOf = (path: string): string => path.slice(0, Math.max(0, path.lastIndexOf(SLASH)));
const pathIn = (folder: string, name: string): string => (folder === '' ? name : `${folder}/${name}`);
const placeOf = (folder: string, path: string): string => (path === '' ? folder : `${folder}/${path}`);
