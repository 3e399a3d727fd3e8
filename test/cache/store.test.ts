import { createHash, randomBytes } from 'node:crypto';
import {
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  truncateSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { digestOf } from '../../pipeline/cache/digest.ts';
import { openStore } from '../../pipeline/cache/store.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenground-store-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const KEY = digestOf('a picture');
const BYTES = new Uint8Array([1, 2, 3, 250]);
const files = (): string[] =>
  (readdirSync(folder, { recursive: true, withFileTypes: true }) as { name: string; parentPath: string }[])
    .map(({ name, parentPath }) => join(parentPath, name))
    .filter(path => readable(path));
function readable(path: string): boolean {
  try {
    readFileSync(path);
    return true;
  } catch {
    return false;
  }
}

const unpacked = (bytes: Uint8Array): Buffer =>
  Buffer.concat([createHash('sha256').update(bytes).digest(), bytes]);

describe('the store', () => {
  it('gives back what it was given, whichever way it is asked, and nothing it was not', async () => {
    const store = openStore(folder);
    expect(await store.read(KEY)).toBeUndefined();
    expect(store.readSync(KEY)).toBeUndefined();
    await store.write(KEY, BYTES);
    store.writeSync(digestOf('empty'), new Uint8Array());
    const again = openStore(folder);
    expect(Array.from((await again.read(KEY))!)).toEqual(Array.from(BYTES));
    expect(Array.from(again.readSync(KEY)!)).toEqual(Array.from(BYTES));
    expect((await again.read(digestOf('empty')))?.length).toBe(0);
    expect(again.holds(KEY)).toBe(true);
    expect(again.holds(digestOf('another'))).toBe(false);
    expect([store.written, again.written]).toEqual([2, 0]);
  });

  it.each([
    ['cut short', (path: string) => truncateSync(path, readFileSync(path).length - 1)],
    ['emptied', (path: string) => truncateSync(path, 0)],
    ['changed in one bit', (path: string) => writeFileSync(path, flipped(readFileSync(path)))],
    ['longer', (path: string) => writeFileSync(path, Buffer.concat([readFileSync(path), Buffer.from([0])]))],
    ['kept unpacked by an earlier version', (path: string) => writeFileSync(path, unpacked(BYTES))],
  ])('does not give back an entry that was %s, and makes room for it anew', async (_, damage) => {
    const store = openStore(folder);
    for (const read of [store.read, store.readSync]) {
      await store.write(KEY, BYTES);
      damage(files()[0]!);
      expect(store.holds(KEY)).toBe(true);
      expect(await read(KEY)).toBeUndefined();
      // Whoever makes it again asks first whether it is held.
      expect(store.holds(KEY)).toBe(false);
    }
    await store.write(KEY, BYTES);
    expect(Array.from((await store.read(KEY))!)).toEqual(Array.from(BYTES));
  });

  it('is written by several at once, each entry whole', async () => {
    const stores = [1, 2, 3].map(() => openStore(folder));
    const large = new Uint8Array(200_000).fill(7);
    await Promise.all(stores.flatMap(store => [1, 2, 3].map(() => store.write(KEY, large))));
    expect((await stores[0]!.read(KEY))?.length).toBe(large.length);
    expect(files()).toHaveLength(1);
  });

  it('is only slower where the disk takes nothing', async () => {
    writeFileSync(join(folder, 'file'), '');
    const store = openStore(join(folder, 'file'));
    await store.write(KEY, BYTES);
    store.writeSync(KEY, BYTES);
    expect(await store.read(KEY)).toBeUndefined();
    expect(store.written).toBe(0);
    expect(await store.clear()).toBe(0);
  });

  it('lets go of what was not used for the longest once it is too large', async () => {
    const store = openStore(folder);
    const keys = ['oldest', 'used again', 'newest'].map(name => digestOf(name));
    for (const [index, key] of keys.entries()) {
      await store.write(key, randomBytes(1000));
      const usedS = Date.now() / 1000 - 86_400 * (9 - index);
      utimesSync(files().find(path => path.endsWith(key.slice(2)))!, usedS, usedS);
    }
    await store.read(keys[1]!);
    expect(await store.clear(10_000)).toBe(0);
    expect(await store.clear(3000)).toBeGreaterThan(0);
    expect(keys.map(key => store.holds(key))).toEqual([false, true, true]);
  });

  it('empties a folder of its own entries alone: whoever names one keeps the other files in it', async () => {
    const store = openStore(folder);
    await store.write(KEY, BYTES);
    for (const name of ['letter.txt', join(KEY.slice(0, 2), 'letter.txt')])
      writeFileSync(join(folder, name), 'mine');
    expect(await store.clear(0)).toBeGreaterThan(0);
    expect(store.holds(KEY)).toBe(false);
    expect(files().map(path => readFileSync(path, 'utf8'))).toEqual(['mine', 'mine']);
  });

  it('takes away what a killed process left unfinished, not what is being written', async () => {
    const store = openStore(folder);
    await store.write(KEY, BYTES);
    const left = ['a.unfinished-1', 'b.unfinished-2'].map(name => join(folder, name));
    for (const path of left) writeFileSync(path, 'half');
    const yesterdayS = Date.now() / 1000 - 86_400;
    utimesSync(left[0]!, yesterdayS, yesterdayS);
    await store.clear();
    expect(readdirSync(folder).filter(name => name.includes('unfinished'))).toEqual(['b.unfinished-2']);
    expect(store.holds(KEY)).toBe(true);
  });
});

const flipped = (bytes: Buffer): Buffer => {
  const copy = Buffer.from(bytes);
  copy[copy.length - 1]! ^= 1;
  return copy;
};
