/** The budget of a figure's uncertainty as a table: items, root of the sum of squares, expanded. */
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import { MEASURES } from '../result/measures.ts';
import type { Table, TableCell } from '../table/table.ts';
import type { WorkedKind, WorkingDigits } from './digits.ts';
import { workingsWords } from './words.ts';
import type { FigureWorkings } from './workings.ts';

const KINDS: Readonly<Record<string, WorkedKind>> = {
  s: 'time',
  m: 'distance',
  'm/s': 'speed',
  'm/s²': 'acceleration',
};
/** Items are small beside the figure: one decimal more. */
const MORE = 1;

export const kindOfMeasure = (measure: FigureWorkings['measure']): WorkedKind =>
  KINDS[MEASURES[measure].unit]!;

/** Undefined where no uncertainty can be stated. */
export function budgetTable(figure: FigureWorkings, name: string, digits: WorkingDigits): Table | undefined {
  const { budget, budgetFactor, uncertainty, measure } = figure;
  if (budget === undefined || uncertainty === undefined) return undefined;
  const words = workingsWords(digits.language);
  // The items of a deceleration are those of the length it was found over.
  const kind = budgetFactor === undefined ? kindOfMeasure(measure) : 'distance';
  const print = (value: number): TableCell => ({ text: digits.of(value, kind, MORE) });
  const combined = Math.hypot(...budget.map(({ standard }) => standard));
  const rows: (readonly TableCell[])[] = budget.map(({ source, standard }) => [
    { text: words.items[source], header: true },
    print(standard),
  ]);
  rows.push([{ text: words.root, header: true }, print(combined)]);
  if (budgetFactor !== undefined) {
    const share = digits.of(budgetFactor, 'acceleration', MORE);
    rows.push([
      { text: words.timesAMetre(share), header: true },
      { text: digits.of(combined * budgetFactor, 'acceleration', MORE) },
    ]);
  }
  rows.push([
    { text: words.expanded(COVERAGE_FACTOR), header: true },
    { text: digits.of(uncertainty, kindOfMeasure(measure), MORE) },
  ]);
  return {
    id: `budget-${figure.anchor}`,
    caption: words.budgetCaption(name, budgetFactor !== undefined),
    columns: [
      { label: words.item, align: 'start' },
      { label: words.standard, align: 'end' },
    ],
    rows,
    notes: [],
  };
}
