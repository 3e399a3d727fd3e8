/** Figures that no start rule touches: rolling times, stops, highest acceleration and speed. */
import { MEASURES, measureIds, measureLabel, measureRolling } from '../result/measures.ts';
import type { House, TestResult } from '../result/result.ts';
import { bestAndMedian, keptOf } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';

/** One row a figure that a kept attempt reached. */
export function movingTable(test: TestResult, house: House): Table {
  const rows = measureIds
    .filter(id => !MEASURES[id].fromRest)
    .flatMap((id): (readonly TableCell[])[] => {
      const found = bestAndMedian(test, house, id);
      if (found === undefined) return [];
      const rolling = /^\d+-\d+-kmh$/.test(id) ? measureRolling(id, house) : measureLabel(id, house);
      return [[{ text: rolling, header: true }, ...found.cells, { text: keptOf(found.n, found.nSetAside) }]];
    });
  return {
    id: 'moving',
    caption: `${test.car.name} on the move: best and median; no start rule applies`,
    columns: [
      { label: 'Figure', align: 'start' },
      { label: 'Best', align: 'end' },
      { label: 'Uncertainty', align: 'end' },
      { label: 'Median', align: 'end' },
      { label: 'Kept attempts', align: 'end' },
    ],
    rows,
    notes:
      rows.length === 0
        ? ['No kept attempt reached a figure of this kind.']
        : [
            'Uncertainty: expanded, k = 2 (about 95 %), of the best attempt’s own measurement. Stops: no reaction time.',
          ],
  };
}
