/** Files as they lie on the disk, told from those of an earlier look by size and time, by content where these differ. */
import { lstatSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { bytesDigest } from './digest.ts';

/** A file as it was: size in bytes, time of its last change in ms, SHA-256 of its content. */
export type SeenFile = readonly [bytes: number, changedMs: number, sha256: string];
/** By path from the folder looked at, slashes between its parts. */
export type SeenFiles = Readonly<Record<string, SeenFile>>;

/** A change within this long after the last one may leave size and time as they are (clocks of file systems). */
const TICK_MS = 2000;
/** Stands for the time of a file that was changed a moment ago: its content is looked at again. */
const UNCERTAIN_MS = -1;

/** Stands for the content of a link or a device, which nothing is made from. */
const NO_FILE = 'not a file';

/**
 * Every file under `paths`, files or folders from `root`; names that begin with a point, and what is
 * absent, are left out.
 * @param before a file of the same size and time is taken to be as it was then
 */
export function seenFiles(root: string, paths: readonly string[], before: SeenFiles = {}): SeenFiles {
  const nowMs = Date.now();
  const seen: Record<string, SeenFile> = {};
  for (const path of paths.flatMap(path => filesUnder(root, path, name => !name.startsWith('.')))) {
    const place = join(root, path);
    const found = lstatSync(place);
    const { size, mtimeMs } = found;
    const known = before[path];
    const same = known?.[0] === size && known[1] === mtimeMs;
    const sha256 = same ? known[2] : found.isFile() ? bytesDigest(readFileSync(place)) : NO_FILE;
    seen[path] = [size, nowMs - mtimeMs < TICK_MS ? UNCERTAIN_MS : mtimeMs, sha256];
  }
  return seen;
}

/** Files of `before` that are still the same, by path and SHA-256; `folder` holds nothing else where `whole`. */
export function filesAsBefore(
  folder: string,
  before: SeenFiles,
): { readonly files: ReadonlyMap<string, string>; readonly whole: boolean } {
  const files = new Map<string, string>();
  const present = filesUnder(folder);
  for (const path of present) {
    const known = before[path];
    if (known === undefined) continue;
    const place = join(folder, path);
    const found = lstatSync(place);
    const { size, mtimeMs } = found;
    if (size !== known[0] || !found.isFile()) continue;
    if (mtimeMs === known[1] || bytesDigest(readFileSync(place)) === known[2]) files.set(path, known[2]);
  }
  return {
    files,
    whole: files.size === present.length && files.size === Object.keys(before).length,
  };
}

/** How files of known content lie in a folder. @param digests SHA-256 by path */
export function filesAsWritten(folder: string, digests: ReadonlyMap<string, string>): SeenFiles {
  return Object.fromEntries(
    [...digests].map(([path, sha256]): [string, SeenFile] => {
      const { size, mtimeMs } = lstatSync(join(folder, path));
      return [path, [size, mtimeMs, sha256]];
    }),
  );
}

/** Paths of the files under `path` of `root`, from `root`, slashes between their parts, sorted; none where it is absent. */
export function filesUnder(
  root: string,
  path = '',
  counts: (name: string) => boolean = () => true,
): string[] {
  const found = lstatSync(join(root, path), { throwIfNoEntry: false });
  if (found === undefined) return [];
  if (!found.isDirectory()) return [path];
  const files: string[] = [];
  const visit = (folder: string): void => {
    for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
      if (!counts(entry.name)) continue;
      const name = folder === '' ? entry.name : `${folder}/${entry.name}`;
      if (entry.isDirectory()) visit(name);
      else files.push(name);
    }
  };
  visit(path);
  return files.sort();
}
