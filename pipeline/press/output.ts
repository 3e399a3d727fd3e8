/** A folder being filled: each file written once, taken from the folder it will replace, or from what is kept. */
import { link, mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { bytesDigest } from '../cache/digest.ts';
import type { KeptFile } from '../cache/kept.ts';
import type { Store } from '../cache/store.ts';
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
  const placeFor = async (path: string): Promise<string> => {
    const place = join(folder, path);
    const parent = dirname(place);
    if (!made.has(parent)) await mkdir(parent, { recursive: true });
    made.add(parent);
    return place;
  };
  const linked = async (path: string, sha256: string): Promise<boolean> => {
    if (former?.files.get(path) !== sha256 || files.has(path)) return false;
    try {
      await link(join(former.folder, path), await placeFor(path));
      return true;
    } catch {
      // Not every file system gives a file two names.
      return false;
    }
  };
  return {
    files,
    async write(path, content) {
      const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
      const sha256 = bytesDigest(bytes);
      if (!(await linked(path, sha256))) await writeFile(await placeFor(path), bytes);
      if (!store.holds(sha256)) await store.write(sha256, bytes);
      files.set(path, sha256);
    },
    async adopt({ path, sha256 }) {
      if (!(await linked(path, sha256))) {
        const bytes = await store.read(sha256);
        if (bytes === undefined) return false;
        await writeFile(await placeFor(path), bytes);
      }
      files.set(path, sha256);
      return true;
    },
  };
}

/** No folder: what is written is only kept. */
export function storeOnly(store: Store): Output {
  const files = new Map<string, string>();
  return {
    files,
    async write(path, content) {
      const bytes = typeof content === 'string' ? Buffer.from(content, 'utf8') : content;
      const sha256 = bytesDigest(bytes);
      if (!store.holds(sha256)) await store.write(sha256, bytes);
      files.set(path, sha256);
    },
    async adopt({ path, sha256 }) {
      files.set(path, sha256);
      return store.holds(sha256);
    },
  };
}
