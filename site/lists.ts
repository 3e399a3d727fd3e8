/** What lists tell of each test: of the front page, of all tests, of a car and of a road. */
import { testSummary } from '../pipeline/article/facts.ts';
import { testRow } from '../pipeline/article/tests-table.ts';
import { storeOf } from '../pipeline/cache/folder.ts';
import { keepingOfTest } from '../pipeline/press/kept-of-test.ts';

const store = storeOf(process.cwd());

export const listedTest = keepingOfTest(store, 'pipeline/article/facts.ts', testSummary);
export const rowOfTest = keepingOfTest(store, 'pipeline/article/tests-table.ts', testRow);
