/** One test ready to be set beside any others: its figures and conditions in words, and what each pair comes to. */
import { MEASURES, measureLabel, measuresTold } from '../result/measures.ts';
import { pickResult } from '../result/pick.ts';
import type { Publication, TestResult } from '../result/result.ts';
import { testNames } from '../result/tests-compared.ts';
import { printResult } from '../result/words.ts';
import { specFacts } from './compare-facts.ts';
import { havePage, pairLead, pairPath } from './pair.ts';

export interface CompareData {
  readonly id: string;
  /** Tells the test from every other of the publication. */
  readonly name: string;
  readonly title: string;
  readonly address: string;
  /** Rows of the table side by side, the same labels for every test; a figure that was not reached has no text. */
  readonly rows: readonly { readonly label: string; readonly text?: string; readonly detail?: string }[];
  /** By the id of each test that has a page beside this one. */
  readonly pairs: Readonly<
    Record<
      string,
      {
        readonly answer: string;
        /** What its numbers are. */
        readonly of: string;
        readonly caveats: readonly string[];
        readonly address: string;
      }
    >
  >;
}

/** @param address of a page by its path */
export function compareDataOf(
  id: string,
  { tests, house }: Publication,
  address: (path: string) => string,
): CompareData {
  const test = tests.find(each => each.id === id)!;
  const names = testNames(tests, house);
  const pairs = tests
    .filter(other => havePage(test, other))
    .map(other => {
      const pair = id < other.id ? ([test, other] as const) : ([other, test] as const);
      const [first = '', second = ''] = pair.map(each => names[tests.indexOf(each)]!);
      const { answers, caveats } = pairLead(pair, house, [first, second]);
      const { text = '', of = '' } = answers[0] ?? {};
      return [other.id, { answer: text, of, caveats, address: address(pairPath(id, other.id)) }];
    });
  return {
    id,
    name: names[tests.indexOf(test)]!,
    title: test.content.title,
    address: address(`/tests/${id}/`),
    rows: [...figureRows(test, house), ...specFacts(test, house)],
    pairs: Object.fromEntries(pairs),
  };
}

function figureRows(test: TestResult, house: Publication['house']): CompareData['rows'] {
  return measuresTold(house).map(measure => {
    const label = measureLabel(measure, house);
    const result = pickResult(test, house, { measure, statistic: 'median' });
    if (result === undefined) return { label };
    const { text, uncertainty, count, rule } = printResult(result, house);
    const detail = [uncertainty, count, MEASURES[measure].fromRest ? rule : undefined];
    return { label, text, detail: detail.filter(part => part !== undefined).join('; ') };
  });
}
