/** The publication's own starts by a plain threshold, beside the two rules that it publishes by. */

import { medianOf } from '../compare/repeats.ts';
import { catalogue } from '../language.ts';
import { CLOCK_THRESHOLD_MPS, thresholdTimeS } from '../measurement/threshold-clock.ts';
import { headlineMeasure } from '../result/headline.ts';
import { MEASURES, measureLabel } from '../result/measures.ts';
import { attemptsReaching, pickResult } from '../result/pick.ts';
import type { House, MeasureId, Publication, Result, TestResult } from '../result/result.ts';
import { dateInWords, printQuantity, printResult } from '../result/words.ts';
import { speedUnitOf } from '../speed-unit.ts';
import type { Table, TableCell } from '../table/table.ts';

const WORDS = catalogue({
  en: {
    caption: 'Medians of the same kept attempts by three clocks; the last is not how we publish',
    test: 'Test',
    figure: 'Figure',
    fromMovement: 'From first movement',
    afterOneFoot: 'After one foot',
    fromThreshold: (speed: string) => `From ${speed}, not published`,
    difference: 'Mean difference from first movement',
    attempts: 'Attempts',
    note: (speed: string) =>
      `The clock of the fifth column starts at the first reading at or over ${speed}; it ends where the others do. A negative difference is a shorter time.`,
  },
  de: {
    caption:
      'Mediane derselben gewerteten Versuche nach drei Uhren; nach der letzten veröffentlichen wir nicht',
    test: 'Test',
    figure: 'Wert',
    fromMovement: 'Ab der ersten Bewegung',
    afterOneFoot: 'Nach einem Fuß',
    fromThreshold: speed => `Ab ${speed}, nicht veröffentlicht`,
    difference: 'Mittlerer Unterschied zur ersten Bewegung',
    attempts: 'Versuche',
    note: speed =>
      `Die Uhr der fünften Spalte beginnt mit dem ersten Messwert ab ${speed}; sie endet, wo die anderen enden. Ein negativer Unterschied ist eine kürzere Zeit.`,
  },
});

/** Kept standing starts of one test under three clocks, s. */
export interface ThresholdComparison {
  readonly test: TestResult;
  /** 0–100 km/h, or the highest speed below it that at least half of the starts reached. */
  readonly measure: MeasureId;
  readonly firstMovement: Result;
  readonly rollout: Result;
  readonly thresholdMedianS: number;
  /** Mean over the attempts of threshold less first movement. */
  readonly meanDifferenceS: number;
  readonly n: number;
}

/** Undefined where no kept attempt began from rest. */
export function compareThreshold(test: TestResult, house: House): ThresholdComparison | undefined {
  const measure = headlineMeasure(test, house);
  if (measure === undefined) return undefined;
  const median = (startRule: 'first-movement' | 'one-foot-rollout'): Result | undefined =>
    pickResult(test, house, { measure, startRule, statistic: 'median' });
  const [firstMovement, rollout] = [median('first-movement'), median('one-foot-rollout')];
  const pairs = attemptsReaching(test, { measure, startRule: 'first-movement' }).flatMap(
    ({ trace, measurement }) => {
      const published = MEASURES[measure].valueOf(measurement, 'first-movement')!.value;
      const timeS = thresholdTimeS(trace, measurement, { startRule: 'first-movement', timeS: published });
      return timeS === undefined ? [] : [{ timeS, differenceS: timeS - published }];
    },
  );
  if (firstMovement === undefined || rollout === undefined || pairs.length === 0) return undefined;
  return {
    test,
    measure,
    firstMovement,
    rollout,
    thresholdMedianS: medianOf(pairs.map(({ timeS }) => timeS)),
    meanDifferenceS: pairs.reduce((sum, { differenceS }) => sum + differenceS, 0) / pairs.length,
    n: pairs.length,
  };
}

/** 1 km/h, or the same in miles an hour. */
export const thresholdInWords = (house: House): string =>
  printQuantity(CLOCK_THRESHOLD_MPS, 'speed', speedUnitOf(house) === 'mph' ? 2 : 0, house);

/** Tests with a row, at most: they show what a rule comes to, and more of them show nothing more. */
const MOST_TESTS = 12;

/** A row for each of the newest tests with a start from rest, newest first. */
export function thresholdTable({ tests, house }: Publication): Table {
  const { language } = house;
  const words = WORDS(house);
  const threshold = thresholdInWords(house);
  const rows = tests.slice(0, MOST_TESTS).flatMap((test): (readonly TableCell[])[] => {
    const compared = compareThreshold(test, house);
    if (compared === undefined) return [];
    const { firstMovement, rollout, thresholdMedianS, meanDifferenceS, measure, n } = compared;
    return [
      [
        { text: `${test.car.short_name}, ${dateInWords(test.content.date, language)}`, header: true },
        { text: measureLabel(measure, house) },
        { text: printResult(firstMovement, house).text },
        { text: printResult(rollout, house).text },
        { text: printResult({ ...firstMovement, value: thresholdMedianS }, house).text },
        { text: printQuantity(meanDifferenceS, 'time', 2, language) },
        { text: String(n) },
      ],
    ];
  });
  return {
    id: 'threshold',
    caption: words.caption,
    columns: [
      { label: words.test, align: 'start' },
      { label: words.figure, align: 'start' },
      { label: words.fromMovement, align: 'end' },
      { label: words.afterOneFoot, align: 'end' },
      { label: words.fromThreshold(threshold), align: 'end' },
      { label: words.difference, align: 'end' },
      { label: words.attempts, align: 'end' },
    ],
    rows,
    notes: [words.note(threshold)],
  };
}
