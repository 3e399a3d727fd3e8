import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { testSummary } from '../../pipeline/article/facts.ts';
import { testRow } from '../../pipeline/article/tests-table.ts';
import { openStore, type Store } from '../../pipeline/cache/store.ts';
import { keepingOfTest } from '../../pipeline/press/kept-of-test.ts';
import type { House, TestResult } from '../../pipeline/result/result.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

const HOUSE = houseFixture();
const TEST: TestResult = { ...testFixture(), madeFrom: 'its files' };
const CODE = 'pipeline/article/tests-table.ts';

let folder: string;
let store: Store;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenground-lists-'));
  store = openStore(folder);
});
afterEach(() => rmSync(folder, { recursive: true }));

it.each([
  ['a summary', testSummary],
  ['a row', testRow],
] as const)('%s is the same found again as made, and made without the attempts', (_, make) => {
  keepingOfTest<unknown>(store, CODE, make)(TEST, HOUSE);
  const unread = Object.defineProperty({ ...TEST }, 'attempts', {
    enumerable: true,
    get: () => {
      throw new Error('The attempts were asked for');
    },
  });
  expect(keepingOfTest<unknown>(store, CODE, make)(unread, HOUSE)).toEqual(make(TEST, HOUSE));
});

it('is made again for whatever it hangs on', () => {
  let made = 0;
  const asked = keepingOfTest(
    store,
    CODE,
    ({ id }: TestResult, { name }: House) => `${id} ${name} ${++made}`,
  );
  const first = asked(TEST, HOUSE);
  expect(asked({ ...TEST }, { ...HOUSE })).toBe(first);
  const others: (readonly [TestResult, House])[] = [
    [{ ...TEST, madeFrom: 'other files' }, HOUSE],
    [TEST, { ...HOUSE, name: 'Other' }],
    [{ ...TEST, untranslated: { language: 'en', paths: new Set(['title']) } }, HOUSE],
  ];
  const answers = others.map(([test, house]) => asked(test, house));
  expect(new Set([first, ...answers]).size).toBe(4);
  expect(keepingOfTest(store, 'pipeline/article/facts.ts', () => 'of other code')(TEST, HOUSE)).toBe(
    'of other code',
  );
  const { madeFrom: _, ...unknown } = TEST;
  expect(asked(unknown, HOUSE)).not.toBe(asked(unknown, HOUSE));
});
