/** The worked example in words and small tables, every number computed from the log. */
import type { BudgetSource } from '../measurement/uncertainty.ts';
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import type { House } from '../result/result.ts';
import { dateInWords, localiseDigits, printQuantity, printResult, withUnit } from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import type { Table } from '../table/table.ts';
import { mpsToKmh, ROLLOUT_M } from '../units.ts';
import type { Block } from './methodology.ts';
import { expandedByHand, labelOf, type WorkedExample } from './worked-example.ts';

/** What each item of a budget stands for. */
export const BUDGET_WORDS: Readonly<Record<BudgetSource, string>> = {
  start: 'Start of the clock: spread of the answers of the fit, and what its family of rises leaves out',
  rollout: 'Instant at which the car had covered one foot',
  noise: 'Noise of the readings around the crossing',
  interpolation: 'Bend of the speed between two readings',
  sampling: 'Time between readings',
  stop: 'Instant of rest',
  receiver: 'Accuracy of speed that the receiver’s maker states',
  lag: 'Filter of the receiver, which makes speeds late',
  position: 'Speed worked out from positions: the difference smooths starts and stops',
  jitter: 'Scatter of the time stamps',
  'held-values': 'Readings that the recorder repeats',
  gap: 'Readings that are missing',
};

/** In the order a reader follows them. */
export function exampleBlocks(example: WorkedExample, house: House): readonly Block[] {
  const { test, attempt, published, straight, fromMovement, fromRolloutS, toMps } = example;
  const { language } = house;
  const digits = (value: number, decimals: number): string =>
    localiseDigits(roundToDecimals(value, decimals), language);
  const s = (value: number, decimals = 3): string => withUnit(digits(value, decimals), 's');
  const kmh = (mps: number, decimals = 2): string => digits(mpsToKmh(mps), decimals);
  const speed = printQuantity(toMps, 'speed', 0, language);
  const foot = withUnit(digits(ROLLOUT_M, 4), 'm');
  const printed = printResult(example.result, house);
  const later = (by: number): string => `${s(Math.abs(by))} ${by < 0 ? 'earlier' : 'later'}`;

  const [, below, above] = example.crossing;
  const startTable: Table = {
    id: 'example-start',
    caption: `Readings around the first movement of attempt ${attempt.number}, as logged, with the distance since first movement`,
    columns: [
      { label: 'Time in the log', unit: 's', align: 'end' },
      { label: 'Speed', unit: 'km/h', align: 'end' },
      { label: 'Distance', unit: 'm', align: 'end' },
    ],
    rows: example.start.map(({ timeS, speedMps, distanceM }) => [
      { text: digits(timeS, 3), header: true },
      { text: kmh(speedMps) },
      { text: digits(distanceM, 4) },
    ]),
    notes: [
      `Distance: the mean of two neighbouring speeds, in m/s, times the time between them, added up; the first piece begins at ${s(published.firstMovementS)} from rest.`,
    ],
  };
  const crossingTable: Table = {
    id: 'example-crossing',
    caption: `Readings around ${speed}, as logged`,
    columns: [
      { label: 'Time in the log', unit: 's', align: 'end' },
      { label: 'Speed', unit: 'km/h', align: 'end' },
    ],
    rows: example.crossing.map(({ timeS, speedMps }) => [
      { text: digits(timeS, 3), header: true },
      { text: kmh(speedMps) },
    ]),
    notes: [],
  };
  const items = fromMovement.budget ?? [];
  const sum = items.reduce((total, { standard }) => total + standard ** 2, 0);
  const budgetTable: Table = {
    id: 'example-budget',
    caption: `Budget of uncertainty of this ${labelOf(example, language)}, clock from first movement`,
    columns: [
      { label: 'Item', align: 'start' },
      { label: 'Standard uncertainty', unit: 's', align: 'end' },
      { label: 'Its square', unit: 's²', align: 'end' },
    ],
    rows: [
      ...items.map(({ source, standard }) => [
        { text: BUDGET_WORDS[source], header: true },
        { text: digits(standard, 5) },
        { text: digits(standard ** 2, 7) },
      ]),
      [{ text: 'Sum of the squares', header: true }, { text: '' }, { text: digits(sum, 7) }],
      [{ text: 'Its root: combined', header: true }, { text: digits(example.combinedS, 5) }, { text: '' }],
      [
        { text: `Times ${COVERAGE_FACTOR}: expanded`, header: true },
        { text: digits(expandedByHand(example), 5) },
        { text: '' },
      ],
    ],
    notes: [],
  };

  return [
    `${labelOf(example, language)} of attempt ${attempt.number} of “${test.content.title}”, ${dateInWords(test.content.date, language)}, at ${attempt.at}: the best of that day. Everything below is worked out from its log when these pages are made, with all digits; a calculator fed with the printed ones may differ in the last.`,
    startTable,
    `First movement. A straight line through the first two readings past 1 km/h, drawn back to rest, meets it at ${s(straight.firstMovementS)}: the car would have sprung to its full acceleration at once. The published fit lets acceleration rise in a time it does not know, and finds ${s(published.firstMovementS)}, which is ${later(published.firstMovementS - straight.firstMovementS)}.`,
    `One foot. The distance passes ${foot} between the last two readings; a straight line between them gives ${s(straight.oneFootS)}. The published fit, which follows the curve, gives ${s(published.oneFootS)}, ${later(published.oneFootS - straight.oneFootS)}. So the foot took ${s(published.oneFootS)} − ${s(published.firstMovementS)} = ${s(published.oneFootS - published.firstMovementS)}.`,
    crossingTable,
    `${speed}. By a straight line between the two middle readings: ${digits(below!.timeS, 3)} + (${kmh(toMps, 0)} − ${kmh(below!.speedMps)}) / (${kmh(above!.speedMps)} − ${kmh(below!.speedMps)}) × (${digits(above!.timeS, 3)} − ${digits(below!.timeS, 3)}) = ${s(straight.crossingS)}. The published one, a parabola through more of the readings around it, is ${s(published.crossingS)}, ${later(published.crossingS - straight.crossingS)}: two readings carry their whole noise into the answer, many carry less.`,
    `Subtraction. From first movement: ${s(published.crossingS)} − ${s(published.firstMovementS)} = ${s(fromMovement.timeS)}. After the one-foot rollout: ${s(published.crossingS)} − ${s(published.oneFootS)} = ${s(fromRolloutS)}.`,
    budgetTable,
    `Rounding. The expanded uncertainty ${s(expandedByHand(example), 4)} sets the last place of the value, ${s(fromMovement.timeS, 4)}. Printed: ${printed.text} ${printed.uncertainty ?? ''}.`,
  ];
}
