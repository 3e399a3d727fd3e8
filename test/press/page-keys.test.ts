import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pairOf } from '../../pipeline/article/pair.ts';
import { NO_STORE } from '../../pipeline/cache/store.ts';
import { loadPublication } from '../../pipeline/pipeline.ts';
import { pageKeys } from '../../pipeline/press/page-keys.ts';
import { testsInView } from '../../pipeline/press/test-key.ts';
import { ownerOf, pairPart, WORKINGS_PART } from '../../pipeline/press/wanted-pages.ts';
import { SMALL_DAY, SMALL_HOUSE, smallTest } from '../bench/small-project.ts';
import { putFile } from '../content/put-file.ts';
import { contentFiles } from '../content/valid.ts';
import { demoPublication } from '../demo.ts';

const NOTED = smallTest('Clean');
const DRY = 'content/tests/wren-dry/test.yaml';

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'evenground-page-keys-'));
  const files = contentFiles({
    'content/house.yaml': SMALL_HOUSE,
    [DRY]: NOTED,
    'content/tests/wren-dry/logs/morning.csv': SMALL_DAY,
    'content/tests/wren-again/test.yaml': NOTED.replace('date: "2026-05-12"', 'date: "2026-05-11"'),
    'content/tests/wren-again/article.md': 'It goes again.\n',
    'content/tests/wren-again/logs/morning.csv': SMALL_DAY,
  });
  for (const [path, bytes] of files) putFile(root, path, bytes);
});
afterAll(() => rmSync(root, { recursive: true }));

/** Of both tests the key of all pages and those of their parts. */
async function keys({ code = 'code', social = 'a.png' } = {}) {
  const folder = { figures: [{ social: { path: social, widthPx: 1, heightPx: 1 }, altText: 'A figure' }] };
  const forPages = { files: new Map<string, string>(), read: async () => JSON.stringify(folder) };
  const { whole, partsOf } = pageKeys(await loadPublication(root), code, forPages, NO_STORE);
  const [dry, again] = [await partsOf('wren-dry'), await partsOf('wren-again')];
  expect([...dry.keys()]).toEqual([WORKINGS_PART]);
  expect([...again.keys()]).toEqual([WORKINGS_PART, pairPart('wren-dry')]);
  return {
    dry: whole.get('wren-dry'),
    again: whole.get('wren-again'),
    'workings of dry': dry.get(WORKINGS_PART),
    'workings of again': again.get(WORKINGS_PART),
    both: again.get(pairPart('wren-dry')),
  };
}
type Named = keyof Awaited<ReturnType<typeof keys>>;

const ALL: readonly Named[] = ['dry', 'again', 'workings of dry', 'workings of again', 'both'];

describe('the keys of the pages of tests', () => {
  it.each<[what: string, path: string, replace: (text: string) => string, changed: readonly Named[]]>([
    ['a note', DRY, text => text.replace('note: Clean', 'note: Calm'), ['dry', 'workings of dry']],
    [
      'the article',
      'content/tests/wren-dry/article.md',
      text => `${text}\nAnd well.\n`,
      ['dry', 'workings of dry'],
    ],
    [
      'what the figures of one hang on',
      DRY,
      text => text.replace('temperature_c: 18', 'temperature_c: 11'),
      ['dry', 'again', 'workings of dry', 'both'],
    ],
    ['the house', 'content/house.yaml', text => text.replace('Level Mile', 'Even Mile'), ALL],
    ['the methodology', 'content/methodology.md', () => '# Anew\n', []],
  ])('change with %s where pages hang on it, and nowhere else', async (_, path, replace, changed) => {
    const before = await keys();
    const former = readFileSync(join(root, path), 'utf8');
    putFile(root, path, replace(former));
    const after = await keys();
    expect(ALL.filter(name => after[name] !== before[name])).toEqual(changed);
    putFile(root, path, former);
    expect(await keys()).toEqual(before);
  });

  it('change with the code, and those of two tests with the picture that social pages show', async () => {
    const before = await keys();
    const [anew, drawn] = [await keys({ code: 'anew' }), await keys({ social: 'b.png' })];
    expect(ALL.filter(name => anew[name] !== before[name])).toEqual(ALL);
    expect(ALL.filter(name => drawn[name] !== before[name])).toEqual(['both']);
  });
});

describe('a page of two tests', () => {
  it('is made from what each shows of itself to others, by which it is kept', async () => {
    const publication = await demoPublication();
    const { tests, house } = publication;
    let pairs = 0;
    for (const { test, publication: seen } of testsInView(publication)) {
      for (const [index, first] of tests.entries())
        for (const [other, second] of tests.entries()) {
          if (first === second || first === test || second === test) continue;
          const { tests: _, ...shown } = pairOf([seen.tests[index]!, seen.tests[other]!], house);
          const { tests: __, ...made } = pairOf([first, second], house);
          expect(shown).toEqual(made);
          pairs += 1;
        }
    }
    expect(pairs).toBeGreaterThan(12);
  });
});

describe('the owner of a file of the site', () => {
  it.each([
    ['tests/a-b/index.html', { test: 'a-b' }],
    ['de/tests/a/index.html', { test: 'a' }],
    ['tests/a/workings/a01/index.html', { test: 'a', part: WORKINGS_PART }],
    ['de/tests/a/readings.json', { test: 'a', part: WORKINGS_PART }],
    ['compare/a.json', { test: 'a' }],
    ['compare/a/b/index.html', { test: 'a', part: pairPart('b') }],
    ['de/compare/a/b/index.html', { test: 'a', part: pairPart('b') }],
    ['tests/index.html', undefined],
    ['compare/index.html', undefined],
    ['cars/a/index.html', undefined],
    ['assets/workings/x.css', undefined],
  ])('of %s is %j', (path, owner) => {
    expect(ownerOf(path)).toEqual(owner);
  });
});
