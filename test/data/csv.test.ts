import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { dataToCsv } from '../../pipeline/data/csv.ts';
import { DATA_ROWS } from '../../pipeline/data/rows.ts';
import { ATTEMPTS, TESTS } from '../../pipeline/data/tables.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

// OWASP, CSV Injection: a cell that begins with = + - @, tab or carriage return may be run as a formula (from memory).
const FORMULAS = [
  '=1+1',
  '+1+cmd',
  '-2+3+cmd',
  '@SUM(A1)',
  '\t=1',
  '\r=1',
  '=HYPERLINK("http://x","y")',
  '＝1',
];

describe('a text from people in a CSV', () => {
  it('is never a formula, and is whole behind its apostrophe', () => {
    const test = testFixture();
    const attempts = test.attempts.map((attempt, index) => ({
      ...attempt,
      note: FORMULAS[index % FORMULAS.length]!,
      setAside: FORMULAS[(index + 1) % FORMULAS.length]!,
    }));
    const csv = dataToCsv(ATTEMPTS, DATA_ROWS.attempts({ ...test, attempts }, houseFixture()));
    const { data } = Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true });
    expect(data).toHaveLength(attempts.length);
    for (const [index, row] of data.entries()) {
      expect([row.note, row.set_aside]).toEqual([
        `'${attempts[index]!.note}`,
        `'${attempts[index]!.setAside}`,
      ]);
    }
  });

  it('leaves numbers below nothing as numbers', () => {
    const csv = dataToCsv(ATTEMPTS, DATA_ROWS.attempts(testFixture(), houseFixture()));
    const { data } = Papa.parse<Record<string, string>>(csv, { header: true, skipEmptyLines: true });
    expect(data.some(({ headwind }) => Number(headwind) < 0)).toBe(true);
  });

  it('may hold quotes, commas and lines', () => {
    const test = testFixture();
    const title = 'He said "go", twice,\nand went';
    const csv = dataToCsv(
      TESTS,
      DATA_ROWS.tests({ ...test, content: { ...test.content, title } }, houseFixture()),
    );
    expect(Papa.parse<Record<string, string>>(csv, { header: true }).data[0]!.title).toBe(title);
  });
});
