/** Times, distances and speeds from rest: best and median, under both start rules side by side. */
import { MEASURES, measureIds, measureLabel } from '../result/measures.ts';
import type { House, TestResult } from '../result/result.ts';
import { bestAndMedian, keptOf, NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';

/** One row a figure that a kept attempt reached; headline rule first. */
export function splitsTable(test: TestResult, house: House): Table {
  const other = house.headline_start_rule === 'first-movement' ? 'one-foot-rollout' : 'first-movement';
  const rules = [house.headline_start_rule, other] as const;
  const rows = measureIds
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
          { text: keptOf(n, nSetAside) },
        ],
      ];
    });
  const words = { 'first-movement': 'first movement', 'one-foot-rollout': 'one foot' } as const;
  return {
    id: 'splits',
    caption: `${test.car.name} from rest: best and median, clock from first movement and after the one-foot rollout`,
    columns: [
      { label: 'From rest', align: 'start' },
      ...rules.flatMap(rule => [
        { label: `Best, from ${words[rule]}`, align: 'end' as const },
        { label: `Uncertainty, from ${words[rule]}`, align: 'end' as const },
        { label: `Median, from ${words[rule]}`, align: 'end' as const },
      ]),
      { label: 'Kept attempts', align: 'end' },
    ],
    rows,
    notes:
      rows.length === 0
        ? ['No kept attempt began from rest and reached a figure.']
        : [
            'Uncertainty: expanded, k = 2 (about 95 %), of the best attempt’s own timing. More attempts alone make a best better; the median does not gain by them.',
            'One foot: clock and tape start where the car has covered 0.3048 m.',
          ],
  };
}
