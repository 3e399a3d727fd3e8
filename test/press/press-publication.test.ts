import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openStore, type Store } from '../../pipeline/cache/store.ts';
import { loadPublication } from '../../pipeline/pipeline.ts';
import { openInPlace, openOutput, storeOnly } from '../../pipeline/press/output.ts';
import { placeLater } from '../../pipeline/press/place-later.ts';
import { planPress, writePress } from '../../pipeline/press/press-publication.ts';
import { testsInView } from '../../pipeline/press/test-key.ts';
import { digestsUnder, SMALL_DAY, SMALL_HOUSE, smallTest } from '../bench/small-project.ts';
import { putFile } from '../content/put-file.ts';
import { contentFiles } from '../content/valid.ts';

const NOTED = smallTest('Clean');
const OTHER = NOTED.replace('date: "2026-05-12"', 'date: "2026-05-11"').replace(', note: Clean', '');

let root: string;
let store: Store;
const put = (path: string, text: string | Uint8Array): void => putFile(root, path, text);

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'evenground-kept-'));
  const files = contentFiles({
    'content/house.yaml': SMALL_HOUSE,
    'content/tests/wren-dry/test.yaml': NOTED,
    'content/tests/wren-dry/logs/morning.csv': SMALL_DAY,
    'content/tests/wren-again/test.yaml': OTHER,
    'content/tests/wren-again/article.md': 'It goes again.\n',
    'content/tests/wren-again/logs/morning.csv': SMALL_DAY,
  });
  for (const [path, bytes] of files) put(path, bytes);
  store = openStore(join(root, 'store'));
});
afterAll(() => rmSync(root, { recursive: true }));

let outputs = 0;
/** The press folders in a folder of their own. */
async function pressed(into: Store = store) {
  const publication = await loadPublication(root);
  const planned = await planPress(publication, into);
  expect(planned.problems).toEqual([]);
  const folder = join(root, `out-${++outputs}`);
  mkdirSync(folder);
  const output = openOutput(folder, into);
  const written = into.written;
  let drawn = 0;
  const told = openInPlace(folder, into);
  const later = placeLater();
  const { counts } = await writePress(planned, into, output, told, () => drawn++, later);
  await later.all();
  const files = digestsUnder(folder);
  expect(Object.fromEntries([...output.files, ...told.files].sort(([a], [b]) => (a < b ? -1 : 1)))).toEqual(
    files,
  );
  const kept = planned.languages[0]!.tests.map(({ kept }) => kept !== undefined);
  return { files, counts, kept, drawn, entries: into.written - written };
}

describe('press folders with and without what is kept', () => {
  it('are the same, byte for byte, also where an archive is made in parts and where an edit is taken back', async () => {
    const first = await pressed();
    expect(first.kept).toEqual([false, false]);
    expect(first.drawn).toBeGreaterThan(20);
    expect(Object.keys(first.files).filter(path => path.endsWith('.png')).length).toBeGreaterThan(40);

    const again = await pressed();
    expect(again).toEqual({ ...first, kept: [true, true], drawn: 0, entries: 0 });

    // Another note: its own test is made anew, with only the files that say it.
    put('content/tests/wren-dry/test.yaml', NOTED.replace('Clean', 'Wholly clean'));
    const edited = await pressed();
    expect(edited.kept).toEqual([false, true]);
    expect(edited.entries).toBeLessThan(first.entries / 10);
    const changed = Object.keys(first.files).filter(path => edited.files[path] !== first.files[path]);
    expect(changed.every(path => path.includes('press/wren-dry'))).toBe(true);
    expect(changed).toContain('press/wren-dry/tables/attempts.csv');
    // In parts, in whatever order, from nothing; the build that ends it finds all done.
    const shared = join(root, 'shared');
    const publication = await loadPublication(root);
    for (const mine of publication.tests.map(({ id }) => id).reverse()) {
      const into = openStore(shared);
      const planned = await planPress(publication, into, id => id === mine);
      const later = placeLater();
      await writePress(planned, into, storeOnly(into), storeOnly(into), () => {}, later);
      await later.all();
      expect(into.written).toBeGreaterThan(20);
    }
    const whole = await pressed(openStore(shared));
    expect(whole).toMatchObject({ kept: [true, true], drawn: 0, entries: 0 });
    expect(whole.files).toEqual(edited.files);
    expect(whole.counts).toEqual(edited.counts);

    put('content/tests/wren-dry/test.yaml', NOTED);
    expect((await pressed()).files).toEqual(first.files);
  });

  it('are whole where entries of the store are damaged', async () => {
    const before = await pressed();
    const entries = readdirSync(join(root, 'store'), { recursive: true, withFileTypes: true }).filter(entry =>
      entry.isFile(),
    );
    for (const [index, { parentPath, name }] of entries.entries()) {
      if (index % 6 === 0) writeFileSync(join(parentPath, name), 'torn');
    }
    expect((await pressed()).files).toEqual(before.files);
  });
});

describe('the key of a press folder', () => {
  const keys = async (): Promise<readonly string[]> =>
    testsInView(await loadPublication(root)).map(({ key }) => key);

  it.each([
    ['its article', 'content/tests/wren-dry/article.md', 'It goes well.\n', [true, false]],
    ['the car of both', 'content/cars/wren.yaml', undefined, [true, true]],
    ['the house', 'content/house.yaml', SMALL_HOUSE.replace('Level Mile', 'Even Mile'), [true, true]],
    ['the methodology, which no press folder holds', 'content/methodology.md', '# Anew\n', [false, false]],
    ['a figure of the other test', 'content/tests/wren-again/test.yaml', undefined, [true, true]],
  ] as const)('changes with %s', async (_, path, text, changed) => {
    const before = await keys();
    const former = readFileSync(join(root, path), 'utf8');
    put(path, text ?? former.replace('1040', '1050').replace('mass_kg: 1210', 'mass_kg: 1250'));
    const after = await keys();
    expect(after.map((key, index) => key !== before[index])).toEqual(changed);
    put(path, former);
    expect(await keys()).toEqual(before);
  });

  it('lets no test read the readings of another', async () => {
    const [view] = testsInView(await loadPublication(root));
    const [own, other] = view!.publication.tests.map(({ attempts }) => attempts[0]!.trace);
    expect(own!.speedMps.length).toBeGreaterThan(100);
    expect(() => other!.speedMps).toThrow('wren-again');
    expect(other!.rateHz).toBe(own!.rateHz);
  });
});
