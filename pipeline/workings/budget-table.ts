/** The budget of a figure's uncertainty as a table: items, root of the sum of squares, expanded. */
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import { MEASURES } from '../result/measures.ts';
import type { Table, TableCell } from '../table/table.ts';
import type { WorkedKind, WorkingDigits } from './digits.ts';
import type { FigureWorkings } from './workings.ts';

/** What each item of a budget is to a reader. */
const ITEMS: Readonly<Record<string, string>> = {
  start: 'First movement',
  rollout: 'End of the first foot',
  noise: 'Scatter of readings',
  interpolation: 'Passing a value between readings',
  sampling: 'What lies between readings',
  stop: 'Coming to rest',
  receiver: 'Accuracy stated for the receiver',
  'held-values': 'Repeated readings',
  gap: 'Missing readings',
};
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
  // The items of a deceleration are those of the length it was found over.
  const kind = budgetFactor === undefined ? kindOfMeasure(measure) : 'distance';
  const print = (value: number): TableCell => ({ text: digits.of(value, kind, MORE) });
  const combined = Math.hypot(...budget.map(({ standard }) => standard));
  const rows: (readonly TableCell[])[] = budget.map(({ source, standard }) => [
    { text: ITEMS[source] ?? source.replaceAll('-', ' '), header: true },
    print(standard),
  ]);
  rows.push([{ text: 'Root of the sum of squares', header: true }, print(combined)]);
  if (budgetFactor !== undefined) {
    const share = digits.of(budgetFactor, 'acceleration', MORE);
    rows.push([
      { text: `Times ${share} a metre`, header: true },
      { text: digits.of(combined * budgetFactor, 'acceleration', MORE) },
    ]);
  }
  rows.push([
    { text: `Expanded, k = ${COVERAGE_FACTOR}`, header: true },
    { text: digits.of(uncertainty, kindOfMeasure(measure), MORE) },
  ]);
  return {
    id: `budget-${figure.anchor}`,
    caption: `Uncertainty of ${name}: standard uncertainties${budgetFactor === undefined ? '' : ' of the length between the two speeds'}`,
    columns: [
      { label: 'Item', align: 'start' },
      { label: 'Standard uncertainty', align: 'end' },
    ],
    rows,
    notes: [],
  };
}
