import { describe, expect, it } from 'vitest';
import type { SignedNumber } from '../../pipeline/content/sign-off-schema.ts';
import type { Publication, TestResult } from '../../pipeline/result/result.ts';
import { recordOf } from '../../pipeline/sign-off/record.ts';
import { rulesThen, rulesThenInWords } from '../../pipeline/sign-off/rules-then.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

const plain = testFixture();
const publication: Publication = {
  house: houseFixture(),
  cars: [plain.car],
  roads: [plain.road],
  tests: [plain],
  methodologyMarkdown: '',
  problems: [],
};
const record = recordOf(plain, publication, '2026-06-01', '0.1.0');
const signed = (change: (numbers: SignedNumber[]) => SignedNumber[]): TestResult => ({
  ...plain,
  signedOff: {
    file: 'signed-off.json',
    lineOf: new Map(),
    logLineOf: new Map(),
    record: { ...record, numbers: change([...record.numbers]) },
  },
});
const german = { ...houseFixture(), language: 'de-DE' };

describe('a test that went out under rules of before', () => {
  it('says nothing where nothing went out', () => {
    expect(rulesThen(plain, publication, '0.2.0')).toBeUndefined();
  });

  it('says that every number comes out the same', () => {
    const then = rulesThen(
      signed(numbers => numbers),
      publication,
      '0.2.0',
    )!;
    expect(then).toMatchObject({ program: '0.1.0', today: '0.2.0', moved: [], drifted: 0, added: 0 });
    const { sentences, moved } = rulesThenInWords(then, houseFixture());
    expect(sentences).toHaveLength(2);
    expect(sentences[0]).toContain('version 0.1.0 and signed off on 1 June 2026');
    expect(sentences[1]).toContain(`all ${record.numbers.length} numbers come out as printed`);
    expect(moved).toEqual([]);
    expect(rulesThenInWords(then, german).sentences[0]).toContain('1. Juni 2026');
  });

  it('says that today’s rules are those of then', () => {
    const then = rulesThen(
      signed(numbers => numbers),
      publication,
      '0.1.0',
    )!;
    expect(rulesThenInWords(then, houseFixture()).sentences[1]).toBe('Those are the rules of today.');
  });

  it('names each number that is printed otherwise, and counts what is new or drifted unseen', () => {
    const test = signed(([first, second, _, ...rest]) => [
      { ...first!, text: '1.23 s' },
      { ...second!, value: second!.value! + 1e-4 },
      ...rest,
      { key: 'article/gone', name: 'Gone since', text: '5 s' },
    ]);
    const then = rulesThen(test, publication, '0.2.0')!;
    expect(then.moved.map(({ was, now }) => [was, now])).toEqual([
      ['1.23 s', record.numbers[0]!.text],
      ['5 s', undefined],
    ]);
    expect([then.drifted, then.added]).toEqual([1, 1]);
    const { sentences, moved } = rulesThenInWords(then, houseFixture());
    expect(sentences).toHaveLength(4);
    expect(sentences[1]).toContain(`2 of ${record.numbers.length} numbers are printed otherwise`);
    expect(moved).toEqual([
      `${record.numbers[0]!.name}: ${record.numbers[0]!.text} (before: 1.23 s)`,
      'Gone since: no longer published (before: 5 s)',
    ]);
  });
});
