/** Files as they lie on the disk, told from those of an earlier look by size and time, by content where these differ. */
import { lstatSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { bytesDigest } from './digest.ts';

/** A file as it was: size in bytes, time of its last change in ms, SHA-256 of its content. */
export type SeenFile = readonly [bytes: number, changedMs: number, sha256: string];
/** By path from the folder looked at, slashes between its parts. */
export type SeenFiles = Readonly<Record<string, SeenFile>>;

/** A change within this long after the last one may leave size and time as they are (clocks of file systems). */
export const TICK_MS = 2000;
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
    const place = `${root}/${path}`;
    const found = lstatSync(place);
    const { size, mtimeMs } = found;
    const known = before[path];
    const same = known?.[0] === size && known[1] === mtimeMs;
    const sha256 = same ? known[2] : found.isFile() ? bytesDigest(readFileSync(place)) : NO_FILE;
    seen[path] = [size, nowMs - mtimeMs < TICK_MS ? UNCERTAIN_MS : mtimeMs, sha256];
  }
  return seen;
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
    for (const entry of readdirSync(folder === '' ? root : `${root}/${folder}`, { withFileTypes: true })) {
      if (!counts(entry.name)) continue;
      const name = folder === '' ? entry.name : `${folder}/${entry.name}`;
      if (entry.isDirectory()) visit(name);
      else files.push(name);
    }
  };
  visit(path);
  return files.sort();
}
