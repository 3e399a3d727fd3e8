import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { withEntriesAtHand } from '../../pipeline/cache/at-hand.ts';
import { digestOf } from '../../pipeline/cache/digest.ts';
import { openStore, type Store } from '../../pipeline/cache/store.ts';

const COUNT = 100;
const KEYS = Array.from({ length: COUNT }, (_, index) => digestOf(index));
const LARGE = digestOf('large');
const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);
const textOf = (bytes: Uint8Array | undefined): string | undefined =>
  bytes && new TextDecoder().decode(bytes);

let root: string;
let store: Store;
const storePlace = (): string => join(root, 'store');
const hand = (): string => join(root, 'hand');
const handFile = (): string => {
  const [file] = readdirSync(hand(), { recursive: true, encoding: 'utf8' }).filter(
    path => path.length > 64 && statSync(join(hand(), path)).isFile(),
  );
  return join(hand(), file!);
};
/** Asks for everything, as a build does. */
const build = (use: boolean, keys: readonly string[] = [...KEYS, LARGE]) => {
  const atHand = withEntriesAtHand(store, hand(), use);
  const answers = keys.map(key => textOf(atHand.readSync(key))?.slice(0, 9));
  atHand.putTogether();
  return answers;
};
const ALL = [...KEYS.map((_, index) => `entry ${index}`), 'xxxxxxxxx'];

beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'evenground-hand-'));
  store = openStore(storePlace());
  for (const [index, key] of KEYS.entries()) store.writeSync(key, bytesOf(`entry ${index}`));
  store.writeSync(LARGE, bytesOf('x'.repeat(100_000)));
});
afterEach(() => rmSync(root, { recursive: true }));

describe('entries at hand', () => {
  it('are those that the build before asked for, but for large ones', () => {
    expect(build(false)).toEqual(ALL);
    rmSync(storePlace(), { recursive: true });
    expect(build(true)).toEqual([...ALL.slice(0, -1), undefined]);
    expect(build(false, KEYS)).toEqual(KEYS.map(() => undefined));
  });

  it('are read from their own places where what was put together is damaged or gone', () => {
    build(false);
    const bytes = readFileSync(handFile());
    bytes[bytes.length >> 1]! ^= 1;
    writeFileSync(handFile(), bytes);
    expect(build(true)).toEqual(ALL);
    rmSync(hand(), { recursive: true });
    expect(build(true)).toEqual(ALL);
  });

  it('are put together again once many more were asked for, and what nobody asked for is left out', () => {
    build(false, KEYS.slice(0, 80));
    const before = statSync(handFile()).ino;
    build(true, KEYS.slice(0, 90));
    expect(statSync(handFile()).ino).toBe(before);
    build(true, KEYS.slice(10));
    expect(statSync(handFile()).ino).toBe(before);
    build(false, KEYS.slice(30));
    expect(statSync(handFile()).ino).not.toBe(before);
    rmSync(storePlace(), { recursive: true });
    expect(build(true, KEYS.slice(0, 31))).toEqual([...KEYS.slice(0, 30).map(() => undefined), 'entry 30']);
  });

  it('are no fault where nothing can be written', () => {
    writeFileSync(hand(), 'a file stands here');
    expect(build(false)).toEqual(ALL);
    expect(build(true)).toEqual(ALL);
  });
});
