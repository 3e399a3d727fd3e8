import { appendFileSync, mkdtempSync, readdirSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { seenFiles } from '../../pipeline/cache/file-tree.ts';
import { contentOnce, type ReadContent, type SeenContent } from '../../pipeline/cache/kept-content.ts';
import { openStore, type Store } from '../../pipeline/cache/store.ts';
import { CONTENT_FOLDER } from '../../pipeline/content/files.ts';
import { putFile } from '../content/put-file.ts';
import { CAR, contentFiles, HOUSE, TEST } from '../content/valid.ts';

const TEST_FILE = 'content/tests/wren-dry/test.yaml';

let root: string;
let store: Store;
const put = (path: string, text: string | Uint8Array): void => putFile(root, path, text);
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'evenground-kept-content-'));
  const files = contentFiles({
    'content/house.yaml': `${HOUSE}further_languages: [de-DE]\n`,
    'content/cars/wren.de.yaml': 'kind: Kleinwagen\n',
    // A warning, so that problems are kept too.
    [TEST_FILE]: TEST.replace('car: wren', 'car: wren\npublished: "2026-05-20"'),
  });
  for (const [path, bytes] of files) put(path, bytes);
  store = openStore(join(root, 'store'));
});
afterEach(() => rmSync(root, { recursive: true }));

const seenNow = (): SeenContent =>
  Object.fromEntries(
    Object.entries(seenFiles(root, [CONTENT_FOLDER])).map(([path, [, , sha256]]) => [path, sha256]),
  );
/** All of it that can be told apart. */
const told = ({ files, unread, content }: ReadContent): object => ({
  files: [...files].map(([path, bytes]) => [path, Buffer.from(bytes).toString('utf8')]),
  unread,
  content: {
    ...content,
    tests: content.tests.map(({ place, ...test }) => ({ ...test, car: place(['car']) })),
  },
});

describe('content that is read once', () => {
  it('is the same when it is found again, with every place in it, and no file is read for it', async () => {
    const seen = seenNow();
    const first = await contentOnce(root, store, seen);
    expect(first.content.translations[0]?.cars.get('wren')?.kind).toBe('Kleinwagen');
    expect(first.content.problems.length).toBeGreaterThan(0);
    const anew = told(await contentOnce(root, store, undefined));
    // Whatever lies there now, the answer is that of what was seen.
    put('content/cars/wren.yaml', CAR.replace('62', '63'));
    const again = await contentOnce(root, store, seen);
    expect(again.content.cars[0]?.power_kw).toBe(62);
    put('content/cars/wren.yaml', CAR);
    expect(told(again)).toEqual(anew);
    expect(told(first)).toEqual(anew);
  });

  it('is another once a file is another, is new or is gone', async () => {
    await contentOnce(root, store, seenNow());
    put('content/cars/wren.yaml', CAR.replace('62', '63'));
    expect((await contentOnce(root, store, seenNow())).content.cars[0]?.power_kw).toBe(63);
    put('content/cars/pipit.yaml', CAR);
    expect((await contentOnce(root, store, seenNow())).content.cars.map(({ id }) => id)).toEqual([
      'pipit',
      'wren',
    ]);
    rmSync(join(root, 'content/cars/wren.yaml'));
    expect((await contentOnce(root, store, seenNow())).content.cars.map(({ id }) => id)).toEqual(['pipit']);
  });

  it.each([
    ['changed since it was seen', () => appendFileSync(join(root, TEST_FILE), '# later\n')],
    ['came since', () => put('content/cars/pipit.yaml', CAR)],
    ['went since', () => rmSync(join(root, 'content/cars/wren.de.yaml'))],
    ['could not be taken', () => symlinkSync(join(root, TEST_FILE), join(root, 'content/cars/linked.yaml'))],
  ])('is not kept where a file %s', async (_, happens) => {
    const seen = seenNow();
    happens();
    await contentOnce(root, store, seen);
    put('content/cars/wren.yaml', CAR.replace('62', '63'));
    expect(
      (await contentOnce(root, store, seen)).content.cars.find(({ id }) => id === 'wren')?.power_kw,
    ).toBe(63);
  });

  it('is kept when there is time for it, where somebody sees to that', async () => {
    const seen = seenNow();
    const works: (() => void)[] = [];
    const later = (keep: () => void) => works.push(keep);
    const first = told(await contentOnce(root, store, seen, later));
    expect(store.written).toBeGreaterThan(0);
    const before = store.written;
    for (const work of works) work();
    expect(store.written).toBe(before + 1);
    put('content/cars/wren.yaml', CAR.replace('62', '63'));
    expect((await contentOnce(root, store, seen, later)).content.cars[0]?.power_kw).toBe(62);
    put('content/cars/wren.yaml', CAR);
    expect(told(await contentOnce(root, store, seen))).toEqual(first);
  });

  it('is read anew where what is kept is damaged', async () => {
    const seen = seenNow();
    const first = told(await contentOnce(root, store, seen));
    for (const path of readdirSync(join(root, 'store'), { recursive: true, withFileTypes: true }))
      if (path.isFile()) appendFileSync(join(path.parentPath, path.name), 'x');
    expect(told(await contentOnce(root, store, seen))).toEqual(first);
  });
});
