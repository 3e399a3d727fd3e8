/** Two tests figure by figure on a page of their own: the same rows as beside all others, with both names at the head. */
import { catalogue } from '../language.ts';
import type { House, TestResult } from '../result/result.ts';
import { compareWords } from '../result/words/compare.ts';
import { againstTable } from './against.ts';
import type { Table } from './table.ts';
import { againstWords } from './words/against.ts';

const WORDS = catalogue({
  en: {
    caption: 'Medians of the kept attempts, with how many they are of',
    restated: (name: string) => `${name}, restated`,
  },
  de: {
    caption: 'Mediane der gewerteten Versuche, in Klammern deren Zahl',
    restated: name => `${name}, umgerechnet`,
  },
});

export function pairTable(
  [test, other]: readonly [TestResult, TestResult],
  names: readonly [string, string],
  house: House,
): Table {
  const { columns, rows, notes } = againstTable(test, house, [other]);
  const words = WORDS(house);
  const own = againstWords(house);
  const heads = new Map([
    [own.thisTest, names[0]],
    [own.theOther, names[1]],
    [own.thisRestated, words.restated(names[0])],
    [own.otherRestated, words.restated(names[1])],
  ]);
  const verdicts = new Map([
    [own.thisAhead, compareWords(house).isAhead(names[0])],
    [own.otherAhead, compareWords(house).isAhead(names[1])],
  ]);
  const unlike = rows[0]?.[0]?.text;
  return {
    id: 'pair',
    caption: words.caption,
    columns: columns.slice(1).map(column => ({ ...column, label: heads.get(column.label) ?? column.label })),
    rows: rows.map(([, figure, ...cells]) => [
      { ...figure!, header: true },
      ...cells.map(cell => ({ ...cell, text: verdicts.get(cell.text) ?? cell.text })),
    ]),
    // The page tells apart what was not alike.
    notes: notes.filter(note => unlike === undefined || !note.startsWith(`${unlike}. `)),
  };
}
