/** Work done once: what it wrote and what it came to, kept under a key that says all it was made from. */
import { digestOf } from './digest.ts';
import type { Store } from './store.ts';

/** A file by its content; `path` as the work named it. */
export interface KeptFile {
  readonly path: string;
  /** SHA-256, hexadecimal: also the key under which its bytes are kept. */
  readonly sha256: string;
}

/** What work came to: plain data that JSON holds whole, and the files it wrote. */
export interface Done<T, F extends KeptFile = KeptFile> {
  readonly value: T;
  readonly files: readonly F[];
}

/**
 * What is kept under `key`; undefined where nothing is, or where it is damaged. Read at once: an archive asks for some
 * of every test, and waiting for each takes longer than reading it.
 */
export function keptWork<T, F extends KeptFile = KeptFile>(
  store: Store,
  key: string,
): Done<T, F> | undefined {
  const bytes = store.readSync(key);
  return bytes === undefined ? undefined : (JSON.parse(Buffer.from(bytes).toString('utf8')) as Done<T, F>);
}

/** Keeps what work came to; its files are kept already, each under its own digest. */
export const keepWork = <T, F extends KeptFile>(store: Store, key: string, done: Done<T, F>): Promise<void> =>
  store.write(key, Buffer.from(JSON.stringify(done), 'utf8'));

/**
 * The files and the value kept under `key`, each file handed to `adopt`; made, and kept, where there is nothing or
 * where a file is missing.
 * @param adopt puts a kept file in its place; false where its bytes are not to be had
 * @param make as if nothing were kept; `passing` where what it came to is not to be kept
 * @param known what is kept under `key`, where somebody has read it already
 */
export async function workOnce<T, F extends KeptFile>(
  store: Store,
  key: string,
  adopt: Adopt<F>,
  make: () => Promise<Done<T, F> & { readonly passing?: boolean }>,
  known?: Done<T, F>,
): Promise<T> {
  const found = known ?? keptWork<T, F>(store, key);
  if (found !== undefined && (await adoptEvery(found.files, adopt))) return found.value;
  const { passing = false, ...done } = await make();
  if (!passing) await keepWork(store, key, done);
  return done.value;
}

/** A value worked out from `from`, which writes no file; `from` names the code and all it was worked out from. */
export const valueOnce = <T>(store: Store, from: readonly unknown[], make: () => Promise<T>): Promise<T> =>
  workOnce<T, KeptFile>(
    store,
    digestOf(from),
    () => true,
    async () => ({ value: await make(), files: [] }),
  );

/** Bytes made from `from`, kept by it; `from` names the maker and its version too. */
export async function bytesOnce(
  store: Store,
  from: readonly unknown[],
  make: () => Promise<Uint8Array>,
): Promise<Uint8Array> {
  const key = digestOf(from);
  const found = await store.read(key);
  if (found !== undefined) return found;
  const made = await make();
  await store.write(key, made);
  return made;
}

/** Puts a file in its place that is known by its content, at once where it can; false where its bytes are not to be had. */
export type Adopt<F extends KeptFile = KeptFile> = (file: F) => boolean | Promise<boolean>;

/** Files put in their places, one after another; false with the first whose bytes are not to be had. */
export async function adoptEvery<F extends KeptFile>(files: readonly F[], adopt: Adopt<F>): Promise<boolean> {
  for (const file of files) {
    const put = adopt(file);
    // Most of an archive are only named again: waiting for each would take longer than doing it.
    if (put === false || (put !== true && !(await put))) return false;
  }
  return true;
}
