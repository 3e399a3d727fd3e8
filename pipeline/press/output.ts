/** A folder being filled: each file written once, taken from the folder it will replace, or from what is kept. */
import { linkSync, mkdirSync, rmSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { bytesDigest } from '../cache/digest.ts';
import type { KeptFile } from '../cache/kept.ts';
import type { Store } from '../cache/store.ts';
import { writeWhole } from './whole.ts';
import type { WriteFile } from './write-file.ts';

/** A folder whose files are known to be as they were written. */
export interface KnownFolder {
  readonly folder: string;
  /** SHA-256 of each file by its path in the folder. */
  readonly files: ReadonlyMap<string, string>;
}

export interface Output {
  /** Writes a file, and keeps its bytes under their own digest. */
  readonly write: WriteFile;
  /** Puts in its place a file that is known by its content; false where its bytes are not to be had. */
  adopt(file: KeptFile): Promise<boolean>;
  /** SHA-256 of every file so far, by path. */
  readonly files: ReadonlyMap<string, string>;
}

/**
 * @param folder empty; nobody reads it before it is complete
 * @param former what `folder` will take the place of; a file that stays the same becomes a second name of the same
 *   bytes instead of a copy, and the only one once the former is gone
 */
export function openOutput(folder: string, store: Store, former?: KnownFolder): Output {
  const files = new Map<string, string>();
  const made = new Set<string>();
  // At once, not in turn with other work: an archive has a hundred thousand files, and most are only named again.
  const placeFor = (path: string): string => {
    const place = join(folder, path);
    const parent = dirname(place);
    if (!made.has(parent)) mkdirSync(parent, { recursive: true });
    made.add(parent);
    return place;
  };
  const linked = (path: string, sha256: string): boolean => {
    if (former?.files.get(path) !== sha256 || files.has(path)) return false;
    try {
      linkSync(join(former.folder, path), placeFor(path));
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
    await writeFile(place, bytes);
  };
  return {
    files,
    async write(path, content) {
      const bytes = bytesOf(content);
      const sha256 = bytesDigest(bytes);
      if (!linked(path, sha256)) await put(path, bytes);
      if (!store.holds(sha256)) await store.write(sha256, bytes);
      files.set(path, sha256);
    },
    async adopt({ path, sha256 }) {
      if (!linked(path, sha256)) {
        const bytes = await store.read(sha256);
        if (bytes === undefined) return false;
        await put(path, bytes);
      }
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

/** Files in a folder that is there for good, each whole at any time and written only where it is another. */
export function openInPlace(folder: string, store: Store): ReadableOutput {
  const files = new Map<string, string>();
  const stands = async (path: string, sha256: string): Promise<boolean> => {
    const there = await readFile(join(folder, path)).catch(() => undefined);
    return there !== undefined && bytesDigest(there) === sha256;
  };
  return {
    files,
    async write(path, content) {
      const bytes = bytesOf(content);
      const sha256 = bytesDigest(bytes);
      if (!(await stands(path, sha256))) await writeWhole(join(folder, path), bytes);
      if (!store.holds(sha256)) await store.write(sha256, bytes);
      files.set(path, sha256);
    },
    async adopt({ path, sha256 }) {
      if (!(await stands(path, sha256))) {
        const bytes = await store.read(sha256);
        if (bytes === undefined) return false;
        await writeWhole(join(folder, path), bytes);
      }
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
    async adopt({ path, sha256 }) {
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
