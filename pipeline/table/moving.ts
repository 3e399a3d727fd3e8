/** Figures that no start rule touches: rolling times, stops, highest acceleration and speed. */

import { MEASURES, measureLabel, measureRolling, measuresOf } from '../result/measures.ts';
import type { House, TestResult } from '../result/result.ts';
import { bestAndMedian, keptOf } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';
import { tableWords } from './words/shared.ts';
import { splitsWords } from './words/splits.ts';

/** One row a figure that a kept attempt reached. */
export function movingTable(test: TestResult, house: House): Table {
  const rows = measuresOf(house)
    .filter(id => !MEASURES[id].fromRest)
    .flatMap((id): (readonly TableCell[])[] => {
      const found = bestAndMedian(test, house, id);
      if (found === undefined) return [];
      const rolling = /^\d+-\d+-(kmh|mph)$/.test(id) ? measureRolling(id, house) : measureLabel(id, house);
      return [
        [{ text: rolling, header: true }, ...found.cells, { text: keptOf(found.n, found.nSetAside, house) }],
      ];
    });
  const words = splitsWords(house);
  const heads = tableWords(house);
  return {
    id: 'moving',
    caption: words.movingCaption(test.car.name),
    columns: [
      { label: heads.figure, align: 'start' },
      { label: heads.best, align: 'end' },
      { label: heads.uncertainty, align: 'end' },
      { label: heads.median, align: 'end' },
      { label: heads.keptAttempts, align: 'end' },
    ],
    rows,
    notes: rows.length === 0 ? [words.movingNone] : [words.movingNote],
  };
}
