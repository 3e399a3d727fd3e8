/** Two tests condition by condition: what was known of each, whether that is alike, and what is asked. */
import { catalogue } from '../language.ts';
import type { House } from '../result/result.ts';
import type { TestsCompared } from '../result/tests-compared.ts';
import { conditionsWords } from '../result/words/conditions.ts';
import type { Table } from './table.ts';

const WORDS = catalogue({
  en: {
    caption: (a: string, b: string) =>
      `Conditions of ${a} and ${b}, from the least to the most of the attempts counted`,
    condition: 'Condition',
    verdict: 'Verdict',
  },
  de: {
    caption: (a, b) =>
      `Bedingungen von ${a} und ${b}, vom kleinsten bis zum größten Wert der gezählten Versuche`,
    condition: 'Bedingung',
    verdict: 'Urteil',
  },
});

/** In the order of the conditions; those that stand against ranking are not set apart: each is told. */
export function alikeTable({ first, second, conditions }: TestsCompared, house: House): Table {
  const words = WORDS(house);
  const said = conditionsWords(house);
  return {
    id: 'alike',
    caption: words.caption(first.name, second.name),
    columns: [
      { label: words.condition, align: 'start' },
      { label: first.name, align: 'start' },
      { label: second.name, align: 'start' },
      { label: words.verdict, align: 'start' },
    ],
    rows: conditions.map(({ condition, likeness, values }) => [
      { text: said.condition[condition], header: true },
      { text: values[0] ?? said.notKnown },
      { text: values[1] ?? said.notKnown },
      { text: said.likeness[likeness] },
    ]),
    notes: [],
  };
}
