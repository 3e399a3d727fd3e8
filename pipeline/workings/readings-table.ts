/** Readings as a table: line of the log, time on the log's clock, speed, distance where a tape runs. */
import { speedUnitOf } from '../speed-unit.ts';
import type { Table } from '../table/table.ts';
import type { WorkingDigits } from './digits.ts';
import type { Reading } from './readings.ts';
import { workingsWords } from './words.ts';

/** `marks` says by line what a reading is to the figure. */
export function readingsTable(
  id: string,
  caption: string,
  readings: readonly Reading[],
  digits: WorkingDigits,
  marks: ReadonlyMap<number, string> = new Map(),
): Table {
  const words = workingsWords(digits.language);
  const taped = readings.some(({ distanceM }) => distanceM !== undefined);
  return {
    id,
    caption,
    columns: [
      { label: words.line, align: 'end' },
      { label: words.time, unit: 's', align: 'end' },
      { label: words.speed, unit: speedUnitOf(digits.readers), align: 'end' },
      ...(taped ? [{ label: words.distance, unit: 'm', align: 'end' as const }] : []),
      ...(marks.size > 0 ? [{ label: words.is, align: 'start' as const }] : []),
    ],
    rows: readings.map(({ line, timeS, speedMps, distanceM }) => [
      { text: String(line), header: true },
      { text: digits.bare(timeS, 'time') },
      { text: digits.bare(speedMps, 'speed') },
      ...(taped ? [{ text: distanceM === undefined ? '' : digits.bare(distanceM, 'distance') }] : []),
      ...(marks.size > 0 ? [{ text: marks.get(line) ?? '' }] : []),
    ]),
    notes: [],
  };
}
