/** Every attempt of the day: when, how, which way, what it came to, and whether it counts. */

import { flagReasons, flagsInWords } from '../result/flag-rules.ts';
import { MEASURES, measureLabel, measuresOf, stopsFrom, timesFromRest } from '../result/measures.ts';
import { resultOfOne } from '../result/one-attempt.ts';
import type { Attempt, House, MeasureId, TestResult } from '../result/result.ts';
import { printedWords } from '../result/words/printed.ts';
import { reasonInWords } from '../result/words/set-aside.ts';
import { printResult, startRuleInWords } from '../result/words.ts';
import { workingsAddress } from '../result/workings-address.ts';
import { NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';
import { attemptsWords } from './words/attempts.ts';
import { tableWords } from './words/shared.ts';

/** The figure an attempt is told by: the first of its kind that it reached. */
const toldBy = (
  house: House,
): Readonly<Record<Attempt['measurement']['run']['kind'], readonly MeasureId[]>> => ({
  'standing-start': timesFromRest(house),
  rolling: measuresOf(house).filter(id => /^[1-9]\d*-\d+-(kmh|mph)$/.test(id)),
  braking: stopsFrom(house),
});

/** One row an attempt, in the day's order, those set aside with their reason. */
export function attemptsTable(test: TestResult, house: House): Table {
  const aside = test.attempts.filter(({ setAside }) => setAside !== undefined).length;
  const kept = test.attempts.length - aside;
  const directions = new Map(test.road.directions.map(({ id, name }) => [id, name]));
  const words = attemptsWords(house);
  const heads = tableWords(house);
  return {
    id: 'attempts',
    caption: words.caption(kept, aside, startRuleInWords(house.headline_start_rule, house)),
    columns: [
      { label: words.number, align: 'end' },
      { label: heads.at, align: 'start' },
      { label: heads.launchMethod, align: 'start' },
      { label: heads.direction, align: 'start' },
      { label: heads.figure, align: 'start' },
      { label: words.value, align: 'end' },
      { label: heads.uncertainty, align: 'end' },
      { label: words.keptOrNot, align: 'start' },
      { label: words.flags, align: 'start' },
      { label: heads.remarks, align: 'start' },
    ],
    rows: test.attempts.map((attempt): readonly TableCell[] => {
      const figure = figureOf(test, attempt, house);
      return [
        { text: String(attempt.number), header: true },
        { text: attempt.at },
        { text: attempt.launchName ?? NONE },
        { text: directions.get(attempt.directionId ?? '') ?? NONE },
        { text: figure?.label ?? NONE },
        figure === undefined ? { text: NONE } : { text: figure.value, workings: [figure.workings] },
        { text: figure?.uncertainty ?? NONE },
        {
          text:
            attempt.setAside === undefined
              ? words.kept
              : words.setAside(reasonInWords(attempt.setAside, house)),
        },
        { text: flagsInWords(attempt, house) },
        { text: attempt.note ?? '' },
      ];
    }),
    notes: [words.uncertaintyNote, ...flagReasons(test.attempts, house)],
  };
}

function figureOf(
  test: TestResult,
  attempt: Attempt,
  house: House,
):
  | {
      readonly label: string;
      readonly value: string;
      readonly uncertainty: string;
      readonly workings: string;
    }
  | undefined {
  const startRule = house.headline_start_rule;
  for (const measure of toldBy(house)[attempt.measurement.run.kind]) {
    const figure = MEASURES[measure].valueOf(attempt.measurement, startRule);
    if (figure === undefined) continue;
    const printed = printResult(resultOfOne(figure, measure, startRule, attempt), house);
    return {
      label: measureLabel(measure, house),
      value: printed.text,
      uncertainty: printed.uncertainty ?? printedWords(house).notStated,
      workings: workingsAddress(test.id, attempt.id, measure, startRule),
    };
  }
  return undefined;
}
