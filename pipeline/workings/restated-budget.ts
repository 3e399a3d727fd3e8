/** The same figure restated for the reference road, as a table: what changed it, and the items of its uncertainty. */
import { CONDITIONS } from '../conditions/gain.ts';
import type { RestatedFigure, RestatedSource } from '../conditions/restate.ts';
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import type { Table, TableCell } from '../table/table.ts';
import type { WorkingDigits } from './digits.ts';
import { workingsWords } from './words.ts';

/** Items are small beside the figure: one decimal more. */
const MORE = 1;

/** `anchor` is the place of the measured figure, `name` what it is called with its start rule. */
export function restatedBudgetTable(
  figure: RestatedFigure,
  anchor: string,
  name: string,
  digits: WorkingDigits,
): Table {
  const words = workingsWords(digits.language);
  const row = (label: string, text: string): readonly TableCell[] => [
    { text: label, header: true },
    { text },
  ];
  // An input that comes in at two places is one item to a reader.
  const items = new Map<RestatedSource, number>();
  for (const { source, standard } of figure.budget) {
    items.set(source, Math.hypot(items.get(source) ?? 0, standard));
  }
  const combined = Math.hypot(...items.values());
  return {
    id: `restated-${anchor}`,
    caption: words.restatedCaption(name),
    columns: [
      { label: words.item, align: 'start' },
      { label: words.standard, align: 'end' },
    ],
    rows: [
      ...[...items]
        .sort(([, a], [, b]) => b - a)
        .map(([source, standard]) => row(words.restatedItems[source], digits.of(standard, 'time', MORE))),
      row(words.root, digits.of(combined, 'time', MORE)),
      row(words.expanded(COVERAGE_FACTOR), digits.of(figure.uncertaintyS, 'time', MORE)),
    ],
    notes: [
      words.restatedSum(
        digits.of(figure.timeS, 'time'),
        CONDITIONS.map(condition =>
          words.changedBy[condition](digits.signed(figure.changesS[condition], 'time')),
        ),
      ),
      words.restatedRoad,
    ],
  };
}
