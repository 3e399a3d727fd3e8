/**
 * Bytes kept under the digest of everything they were made from, in a folder that builds, machines and CI may share.
 *
 * An entry is packed by zstd (RFC 8878), written beside its place and moved into it, and begins with the SHA-256 of what
 * follows. Reading holds it to that: a torn, truncated or altered entry is taken away, so that it is made and kept
 * again.
 */
import { createHash, randomBytes } from 'node:crypto';
import {
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { mkdir, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { constants as zlib, zstdCompressSync, zstdDecompressSync } from 'node:zlib';

/** A folder holds this much after a build at most, bytes; what was not used for the longest goes first. */
export const MOST_BYTES = 4 * 1024 ** 3;
/** Of it left after clearing, so that not every build has to clear. */
const KEPT_SHARE = 0.8;
/** An entry in use is marked as used again after this long; every reading would be a writing otherwise. */
const MARK_AFTER_MS = 60 * 60 * 1000;
/** What a killed process left unfinished is taken away after this long. */
const UNFINISHED_MS = 60 * 60 * 1000;
const TIDY_EVERY_MS = 24 * 60 * 60 * 1000;
/** Entries written by one build after which every entry is looked at again. */
const TIDY_AFTER = 1000;
/** Its time is that of the last tidying. */
const TIDIED = '.tidied';
const MARK = '.unfinished-';
/** An entry from the store's folder, by its key; whatever else lies there is somebody's and stays. */
const ENTRY = /^[0-9a-f]{2}[/\\][0-9a-f]{62}$/;
const DIGEST_BYTES = 32;

export interface Store {
  /** What is kept under a key (hexadecimal); undefined where nothing is, or where it is damaged. */
  read(key: string): Promise<Uint8Array | undefined>;
  readSync(key: string): Uint8Array | undefined;
  /** Whether something is kept under a key, its bytes not looked at. */
  holds(key: string): boolean;
  /** Keeps bytes. A full or read-only disk is no fault: they are made again next time. */
  write(key: string, bytes: Uint8Array): Promise<void>;
  writeSync(key: string, bytes: Uint8Array): void;
  /** Removes what was not used for the longest, down to the bound; @returns bytes removed. */
  clear(mostBytes?: number): Promise<number>;
  /** The same where it is due: once a day, or where much was written, for it looks at every entry. */
  tidy(mostBytes?: number): Promise<number>;
  /** Entries written since it was opened. */
  readonly written: number;
}

/** Keeps nothing: everything is made afresh. */
export const NO_STORE: Store = {
  written: 0,
  read: async () => undefined,
  readSync: () => undefined,
  holds: () => false,
  write: async () => {},
  writeSync: () => {},
  clear: async () => 0,
  tidy: async () => 0,
};

export function openStore(folder: string): Store {
  const placeOf = (key: string): string => join(folder, key.slice(0, 2), key.slice(2));
  const besideOf = (place: string): string => `${place}${MARK}${randomBytes(6).toString('hex')}`;
  let written = 0;
  return {
    get written() {
      return written;
    },
    async read(key) {
      const place = placeOf(key);
      const held = await readFile(place).catch(() => undefined);
      return held && usableOrGone(place, held);
    },
    readSync(key) {
      const place = placeOf(key);
      let held: Buffer;
      try {
        held = readFileSync(place);
      } catch {
        return undefined;
      }
      return usableOrGone(place, held);
    },
    holds: key => existsSync(placeOf(key)),
    async write(key, bytes) {
      const place = placeOf(key);
      const beside = besideOf(place);
      try {
        await mkdir(dirname(place), { recursive: true });
        await writeFile(beside, wrap(bytes));
        await rename(beside, place);
        written += 1;
      } catch {
        await rm(beside, { force: true }).catch(() => {});
      }
    },
    writeSync(key, bytes) {
      const place = placeOf(key);
      const beside = besideOf(place);
      try {
        mkdirSync(dirname(place), { recursive: true });
        writeFileSync(beside, wrap(bytes));
        renameSync(beside, place);
        written += 1;
      } catch {
        removeSync(beside);
      }
    },
    clear: (mostBytes = MOST_BYTES) => clearFolder(folder, mostBytes),
    async tidy(mostBytes = MOST_BYTES) {
      const mark = join(folder, TIDIED);
      const last = await stat(mark).catch(() => undefined);
      if (last !== undefined && Date.now() - last.mtimeMs < TIDY_EVERY_MS && written < TIDY_AFTER) return 0;
      await writeFile(mark, '').catch(() => {});
      return await clearFolder(folder, mostBytes);
    },
  };
}

function removeSync(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // It was never there, or the folder is read-only; clearing takes away what can be.
  }
}

const digest = (bytes: Uint8Array): Buffer => createHash('sha256').update(bytes).digest();
/** Pages, drawings and tables are kept in a fifth of their bytes, at the pace of a disk. */
const PACKED = { params: { [zlib.ZSTD_c_compressionLevel]: 1 } };
/** What is large comes out in few pieces: it takes half the time. */
const SMALL_BYTES = 64 * 1024;
const LARGE_CHUNK = 256 * 1024;
const SMALL_CHUNK = 16 * 1024;
function wrap(bytes: Uint8Array): Uint8Array {
  const packed = zstdCompressSync(bytes, PACKED);
  return Buffer.concat([digest(packed), packed]);
}

/** What an entry holds; one that is damaged is taken away: it would stand in the way of the one that is made again. */
function usableOrGone(place: string, held: Buffer): Uint8Array | undefined {
  const bytes = usable(place, held);
  if (bytes === undefined) removeSync(place);
  return bytes;
}

/** What an entry holds, marked as used; undefined where it is damaged. */
function usable(place: string, held: Buffer): Uint8Array | undefined {
  const packed = held.subarray(DIGEST_BYTES);
  if (held.length < DIGEST_BYTES || !digest(packed).equals(held.subarray(0, DIGEST_BYTES))) return undefined;
  try {
    const now = new Date();
    if (now.getTime() - statSync(place).mtimeMs > MARK_AFTER_MS) utimesSync(place, now, now);
  } catch {
    // Only the order of clearing depends on it; a folder that is read-only stays as it is.
  }
  try {
    return zstdDecompressSync(packed, { chunkSize: packed.length > SMALL_BYTES ? LARGE_CHUNK : SMALL_CHUNK });
  } catch {
    // An entry of a version that packed in another way.
    return undefined;
  }
}

async function clearFolder(folder: string, mostBytes: number): Promise<number> {
  const names = await readdir(folder, { recursive: true }).catch(() => []);
  const entries: { readonly path: string; readonly bytes: number; readonly usedMs: number }[] = [];
  for (const name of names) {
    const path = join(folder, name);
    const found = await stat(path).catch(() => undefined);
    if (!found?.isFile()) continue;
    if (ENTRY.test(name)) entries.push({ path, bytes: found.size, usedMs: found.mtimeMs });
    else if (name.includes(MARK) && Date.now() - found.mtimeMs > UNFINISHED_MS)
      await rm(path, { force: true });
  }
  const total = entries.reduce((sum, { bytes }) => sum + bytes, 0);
  if (total <= mostBytes) return 0;
  let removed = 0;
  for (const { path, bytes } of entries.sort((a, b) => a.usedMs - b.usedMs)) {
    if (total - removed <= mostBytes * KEPT_SHARE) break;
    await rm(path, { force: true }).catch(() => {});
    removed += bytes;
  }
  return removed;
}
