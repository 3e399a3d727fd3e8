/** The worked example in words and small tables, every number computed from the log. */

import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import type { House } from '../result/result.ts';
import { dateInWords, localiseDigits, printQuantity, printResult, withUnit } from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import { speedScale } from '../speed-unit.ts';
import type { Table } from '../table/table.ts';
import { ROLLOUT_M } from '../units.ts';
import type { Block } from './methodology.ts';
import { exampleWords } from './words/worked-example.ts';
import { CLEARLY_MOVING_MPS, expandedByHand, labelOf, type WorkedExample } from './worked-example.ts';

/** In the order a reader follows them. */
export function exampleBlocks(example: WorkedExample, house: House): readonly Block[] {
  const { test, attempt, published, straight, fromMovement, fromRolloutS, toMps } = example;
  const { language } = house;
  const digits = (value: number, decimals: number): string =>
    localiseDigits(roundToDecimals(value, decimals), language);
  const s = (value: number, decimals = 3): string => withUnit(digits(value, decimals), 's');
  const { symbol, fromMps } = speedScale(house);
  const inUnit = (mps: number, decimals = 2): string => digits(fromMps(mps), decimals);
  const speed = printQuantity(toMps, 'speed', 0, house);
  const foot = withUnit(digits(ROLLOUT_M, 4), 'm');
  const printed = printResult(example.result, house);
  const words = exampleWords(house);
  const later = (by: number): string => words.later(s(Math.abs(by)), by < 0);

  const [, below, above] = example.crossing;
  const startTable: Table = {
    id: 'example-start',
    caption: words.startCaption(attempt.number),
    columns: [
      { label: words.timeInLog, unit: 's', align: 'end' },
      { label: words.speed, unit: symbol, align: 'end' },
      { label: words.distance, unit: 'm', align: 'end' },
    ],
    rows: example.start.map(({ timeS, speedMps, distanceM }) => [
      { text: digits(timeS, 3), header: true },
      { text: inUnit(speedMps) },
      { text: digits(distanceM, 4) },
    ]),
    notes: [words.distanceNote(s(published.firstMovementS))],
  };
  const crossingTable: Table = {
    id: 'example-crossing',
    caption: words.crossingCaption(speed),
    columns: [
      { label: words.timeInLog, unit: 's', align: 'end' },
      { label: words.speed, unit: symbol, align: 'end' },
    ],
    rows: example.crossing.map(({ timeS, speedMps }) => [
      { text: digits(timeS, 3), header: true },
      { text: inUnit(speedMps) },
    ]),
    notes: [],
  };
  const items = fromMovement.budget ?? [];
  const sum = items.reduce((total, { standard }) => total + standard ** 2, 0);
  const budgetTable: Table = {
    id: 'example-budget',
    caption: words.budgetCaption(labelOf(example, house)),
    columns: [
      { label: words.item, align: 'start' },
      { label: words.standard, unit: 's', align: 'end' },
      { label: words.square, unit: 's²', align: 'end' },
    ],
    rows: [
      ...items.map(({ source, standard }) => [
        { text: words.budget[source], header: true },
        { text: digits(standard, 5) },
        { text: digits(standard ** 2, 7) },
      ]),
      [{ text: words.sum, header: true }, { text: '' }, { text: digits(sum, 7) }],
      [{ text: words.root, header: true }, { text: digits(example.combinedS, 5) }, { text: '' }],
      [
        { text: words.expanded(COVERAGE_FACTOR), header: true },
        { text: digits(expandedByHand(example), 5) },
        { text: '' },
      ],
    ],
    notes: [],
  };

  return [
    words.intro(
      labelOf(example, house),
      attempt.number,
      test.content.title,
      dateInWords(test.content.date, language),
      attempt.at,
    ),
    startTable,
    words.firstMovement(
      printQuantity(CLEARLY_MOVING_MPS, 'speed', symbol === 'mph' ? 2 : 0, house),
      s(straight.firstMovementS),
      s(published.firstMovementS),
      later(published.firstMovementS - straight.firstMovementS),
    ),
    words.oneFoot(
      foot,
      s(straight.oneFootS),
      s(published.oneFootS),
      later(published.oneFootS - straight.oneFootS),
      `${s(published.oneFootS)} − ${s(published.firstMovementS)} = ${s(published.oneFootS - published.firstMovementS)}`,
    ),
    crossingTable,
    words.crossing(
      speed,
      `${digits(below!.timeS, 3)} + (${inUnit(toMps, 0)} − ${inUnit(below!.speedMps)}) / (${inUnit(above!.speedMps)} − ${inUnit(below!.speedMps)}) × (${digits(above!.timeS, 3)} − ${digits(below!.timeS, 3)}) = ${s(straight.crossingS)}`,
      s(published.crossingS),
      later(published.crossingS - straight.crossingS),
    ),
    words.subtraction(
      `${s(published.crossingS)} − ${s(published.firstMovementS)} = ${s(fromMovement.timeS)}`,
      `${s(published.crossingS)} − ${s(published.oneFootS)} = ${s(fromRolloutS)}`,
    ),
    budgetTable,
    words.rounding(
      s(expandedByHand(example), 4),
      s(fromMovement.timeS, 4),
      `${printed.text} ${printed.uncertainty ?? ''}`,
    ),
  ];
}
