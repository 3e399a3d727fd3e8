/** Times, distances and speeds from rest: best and median, under both start rules side by side. */
import { localiseDigits } from '../digits.ts';
import { MEASURES, measureLabel, measuresOf } from '../result/measures.ts';
import type { House, TestResult } from '../result/result.ts';
import { ROLLOUT_M } from '../units.ts';
import { bestAndMedian, keptOf, NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';
import { tableWords } from './words/shared.ts';
import { splitsWords } from './words/splits.ts';

/** One row a figure that a kept attempt reached; headline rule first. */
export function splitsTable(test: TestResult, house: House): Table {
  const other = house.headline_start_rule === 'first-movement' ? 'one-foot-rollout' : 'first-movement';
  const rules = [house.headline_start_rule, other] as const;
  const rows = measuresOf(house)
    .filter(id => MEASURES[id].fromRest)
    .flatMap((id): (readonly TableCell[])[] => {
      const [first, second] = rules.map(rule => bestAndMedian(test, house, id, rule));
      if (first === undefined && second === undefined) return [];
      const { n, nSetAside } = (first ?? second)!;
      const none = [{ text: NONE }, { text: NONE }, { text: NONE }] as const;
      return [
        [
          { text: measureLabel(id, house), header: true },
          ...(first?.cells ?? none),
          ...(second?.cells ?? none),
          { text: keptOf(n, nSetAside, house) },
        ],
      ];
    });
  const words = splitsWords(house);
  return {
    id: 'splits',
    caption: words.caption(test.car.name),
    columns: [
      { label: words.fromRest, align: 'start' },
      ...rules.flatMap(rule => [
        { label: words.best(rule), align: 'end' as const },
        { label: words.uncertainty(rule), align: 'end' as const },
        { label: words.median(rule), align: 'end' as const },
      ]),
      { label: tableWords(house).keptAttempts, align: 'end' },
    ],
    rows,
    notes:
      rows.length === 0
        ? [words.none]
        : [words.uncertaintyNote, words.oneFootNote(localiseDigits(String(ROLLOUT_M), house))],
  };
}
