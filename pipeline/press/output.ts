/** A folder being filled: each file written once, taken from the folder it will replace, or from what is kept. */
import { linkSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { bytesDigest } from '../cache/digest.ts';
import type { Adopt } from '../cache/kept.ts';
import type { DigestsByPath } from '../cache/left-folder.ts';
import type { Store } from '../cache/store.ts';
import { writeWhole } from './whole.ts';
import type { WriteFile } from './write-file.ts';

/** A folder of which files are known. */
export interface KnownFolder {
  readonly folder: string;
  /** SHA-256 of each file that is as it was written, by its path in the folder. */
  readonly files: DigestsByPath;
}

export interface Output {
  /** Writes a file, and keeps its bytes under their own digest. */
  readonly write: WriteFile;
  /** Puts in its place a file that is known by its content; false where its bytes are not to be had. */
  readonly adopt: Adopt;
  /** SHA-256 of every file so far, by path. */
  readonly files: ReadonlyMap<string, string>;
}

/** A folder being filled. */
export interface FolderOutput extends Output {
  /** Paths of files that are those of the former folder, under another name. */
  readonly again: ReadonlySet<string>;
}

/**
 * @param folder empty; nobody reads it before it is complete
 * @param former what `folder` will take the place of; a file that stays the same becomes a second name of the same
 *   bytes instead of a copy, and the only one once the former is gone
 */
export function openOutput(folder: string, store: Store, former?: KnownFolder): FolderOutput {
  const files = new Map<string, string>();
  const again = new Set<string>();
  const made = new Set(['.']);
  /** Each folder is made once; asking the disk whether those above it are there takes as long again. */
  const makeFolder = (path: string): void => {
    if (made.has(path)) return;
    makeFolder(dirname(path));
    mkdirSync(`${folder}/${path}`);
    made.add(path);
  };
  // At once, not in turn with other work: an archive has a hundred thousand files, and most are only named again.
  const placeFor = (path: string): string => {
    makeFolder(dirname(path));
    return `${folder}/${path}`;
  };
  const linked = (path: string, sha256: string): boolean => {
    if (former?.files.get(path) !== sha256 || files.has(path)) return false;
    try {
      linkSync(`${former.folder}/${path}`, placeFor(path));
      again.add(path);
      return true;
    } catch {
      // Not every file system gives a file two names.
      return false;
    }
  };
  const put = async (path: string, bytes: Uint8Array): Promise<void> => {
    const place = placeFor(path);
    // It may be another name of a file of the former folder, which stays as it is.
    if (files.has(path)) rmSync(place, { force: true });
    again.delete(path);
    await writeFile(place, bytes);
  };
  const taken = async (path: string, sha256: string): Promise<boolean> => {
    const bytes = await store.read(sha256);
    if (bytes === undefined) return false;
    await put(path, bytes);
    files.set(path, sha256);
    return true;
  };
  return {
    files,
    again,
    async write(path, content) {
      const bytes = bytesOf(content);
      const sha256 = bytesDigest(bytes);
      if (!linked(path, sha256)) await put(path, bytes);
      if (!store.holds(sha256)) await store.write(sha256, bytes);
      files.set(path, sha256);
    },
    adopt({ path, sha256 }) {
      if (!linked(path, sha256)) return taken(path, sha256);
      files.set(path, sha256);
      return true;
    },
  };
}

/** Files that can be read again. */
export interface ReadableOutput extends Output {
  /** @throws Error where it was neither written nor adopted */
  read(path: string): Promise<string>;
}

/**
 * Files in a folder that is there for good, each whole at any time and written only where it is another.
 * @param known SHA-256 of files in it that need not be read to know them
 */
export function openInPlace(folder: string, store: Store, known?: DigestsByPath): ReadableOutput {
  const files = new Map<string, string>();
  const stands = (path: string, sha256: string): boolean => {
    // A file written meanwhile is what is told of it.
    const told = files.get(path) ?? known?.get(path);
    if (told !== undefined) return told === sha256;
    try {
      return bytesDigest(readFileSync(`${folder}/${path}`)) === sha256;
    } catch {
      return false;
    }
  };
  const taken = async (path: string, sha256: string): Promise<boolean> => {
    const bytes = await store.read(sha256);
    if (bytes === undefined) return false;
    await writeWhole(join(folder, path), bytes);
    files.set(path, sha256);
    return true;
  };
  return {
    files,
    async write(path, content) {
      const bytes = bytesOf(content);
      const sha256 = bytesDigest(bytes);
      if (!stands(path, sha256)) await writeWhole(join(folder, path), bytes);
      if (!store.holds(sha256)) await store.write(sha256, bytes);
      files.set(path, sha256);
    },
    adopt({ path, sha256 }) {
      if (!stands(path, sha256)) return taken(path, sha256);
      files.set(path, sha256);
      return true;
    },
    read: path => readFile(join(folder, path), 'utf8'),
  };
}

const bytesOf = (content: string | Uint8Array): Uint8Array =>
  typeof content === 'string' ? Buffer.from(content, 'utf8') : content;

/** No folder: what is written is only kept. */
export function storeOnly(store: Store): ReadableOutput {
  const files = new Map<string, string>();
  return {
    files,
    async write(path, content) {
      const bytes = bytesOf(content);
      const sha256 = bytesDigest(bytes);
      if (!store.holds(sha256)) await store.write(sha256, bytes);
      files.set(path, sha256);
    },
    adopt({ path, sha256 }) {
      files.set(path, sha256);
      return store.holds(sha256);
    },
    async read(path) {
      const bytes = await store.read(files.get(path) ?? '');
      if (bytes === undefined) throw new Error(`${path} is not kept`);
      return Buffer.from(bytes).toString('utf8');
    },
  };
}
