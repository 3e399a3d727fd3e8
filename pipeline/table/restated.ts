/** Standing starts as measured, and worked out for a level road in still reference air, with what each condition changed. */

import { medianOf } from '../compare/repeats.ts';
import { CONDITIONS } from '../conditions/gain.ts';
import { powerInWords } from '../conditions/power-words.ts';
import { REFERENCE_AIR } from '../conditions/reference.ts';
import type { RestatedFigure } from '../conditions/restate.ts';
import { notRestatedInWords } from '../conditions/restate-words.ts';
import { fromRest, headlineMeasure, isKept } from '../result/headline.ts';
import { MEASURES, type MeasuredValue, measureLabel } from '../result/measures.ts';
import { resultOfOne } from '../result/one-attempt.ts';
import { medianUncertainty } from '../result/pick.ts';
import { restatedFigure } from '../result/restated-figure.ts';
import type { Attempt, House, MeasureId, TestResult } from '../result/result.ts';
import { printedWords } from '../result/words/printed.ts';
import { printQuantity, printResult, startRuleInWords } from '../result/words.ts';
import { workingsAddress } from '../result/workings-address.ts';
import { NONE } from './figures-of.ts';
import type { Table, TableCell } from './table.ts';
import { restatedWords } from './words/restated.ts';
import { tableWords } from './words/shared.ts';

/** One row a kept start that reached the headline figure, then their medians. The measured figure comes first. */
export function restatedTable(test: TestResult, house: House): Table {
  const measure = headlineMeasure(test, house);
  const starts = test.attempts.filter(attempt => isKept(attempt) && fromRest(attempt));
  const pairs = measure === undefined ? [] : starts.flatMap(attempt => pairOf(attempt, measure, house) ?? []);
  const { language } = house;
  const words = restatedWords(house);
  const heads = tableWords(house);
  const reference = words.reference(
    printQuantity(REFERENCE_AIR.temperatureK, 'temperature', undefined, language),
    printQuantity(REFERENCE_AIR.pressurePa, 'pressure', undefined, language),
  );
  const label = measure === undefined ? words.starts : measureLabel(measure, house);
  return {
    id: 'restated',
    caption: words.caption(label, reference, startRuleInWords(house.headline_start_rule, house)),
    columns: [
      { label: heads.attempt, align: 'start' },
      { label: heads.direction, align: 'start' },
      { label: words.measured, align: 'end' },
      { label: heads.uncertainty, align: 'end' },
      { label: words.restated, align: 'end' },
      { label: words.restatedUncertainty, align: 'end' },
      ...CONDITIONS.map(condition => ({ label: words.by[condition], align: 'end' as const })),
    ],
    rows:
      measure === undefined || pairs.length === 0
        ? []
        : [
            ...pairs.map(pair => rowOf(pair, test, house, measure)),
            ...(pairs.length < 2 ? [] : [medianRow(pairs, test, house, measure)]),
          ],
    notes: notesOf(starts, pairs, test, house),
  };
}

interface Pair {
  readonly attempt: Attempt;
  readonly measured: MeasuredValue;
  readonly restated: MeasuredValue;
  readonly changesS: RestatedFigure['changesS'];
}

function pairOf(attempt: Attempt, measure: MeasureId, house: House): Pair | undefined {
  const startRule = house.headline_start_rule;
  const measured = MEASURES[measure].valueOf(attempt.measurement, startRule);
  const restated = restatedFigure(attempt, { measure, startRule });
  return measured === undefined || restated === undefined
    ? undefined
    : {
        attempt,
        measured,
        restated: { value: restated.timeS, uncertainty: restated.uncertaintyS },
        changesS: restated.changesS,
      };
}

function rowOf(
  { attempt, measured, restated, changesS }: Pair,
  test: TestResult,
  house: House,
  measure: MeasureId,
): readonly TableCell[] {
  const startRule = house.headline_start_rule;
  const direction = test.road.directions.find(({ id }) => id === attempt.directionId)?.name;
  return [
    {
      text: `${attempt.number}${attempt.launchName === undefined ? '' : `, ${attempt.launchName}`}`,
      header: true,
    },
    { text: direction ?? NONE },
    ...printed(measured, measure, house, [workingsAddress(test.id, attempt.id, measure, startRule)]),
    ...printed(restated, measure, house),
    ...CONDITIONS.map(condition => ({ text: signed(changesS[condition], house.language) })),
  ];
}

/** Medians of the same attempts; changes of a median are those of no one attempt and are left out. */
function medianRow(
  pairs: readonly Pair[],
  test: TestResult,
  house: House,
  measure: MeasureId,
): readonly TableCell[] {
  // The one in the middle, or the two on either side of it.
  const ordered = pairs.toSorted((a, b) => a.measured.value - b.measured.value);
  const middle = ordered.slice(Math.ceil(ordered.length / 2) - 1, Math.floor(ordered.length / 2) + 1);
  const workings = middle.map(({ attempt }) =>
    workingsAddress(test.id, attempt.id, measure, house.headline_start_rule),
  );
  const median = (values: readonly MeasuredValue[], from: readonly string[]): readonly TableCell[] => {
    const value = medianOf(values.map(each => each.value));
    const uncertainty = medianUncertainty(values, value);
    return printed({ value, ...(uncertainty === undefined ? {} : { uncertainty }) }, measure, house, from);
  };
  return [
    { text: tableWords(house).medianOf(pairs.length), header: true },
    { text: NONE },
    ...median(
      pairs.map(({ measured }) => measured),
      workings,
    ),
    ...median(
      pairs.map(({ restated }) => restated),
      [],
    ),
    ...CONDITIONS.map(() => ({ text: NONE })),
  ];
}

function printed(
  figure: MeasuredValue,
  measure: MeasureId,
  house: House,
  workings: readonly string[] = [],
): readonly TableCell[] {
  const { text, uncertainty } = printResult(resultOfOne(figure, measure, house.headline_start_rule), house);
  return [{ text, workings }, { text: uncertainty ?? printedWords(house).notStated }];
}

/** Restated less measured: a plus sign where the day made the car quicker. */
function signed(changeS: number, language: string): string {
  const text = printQuantity(changeS, 'time', 2, language);
  return changeS > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

function notesOf(
  starts: readonly Attempt[],
  pairs: readonly Pair[],
  test: TestResult,
  house: House,
): readonly string[] {
  const words = restatedWords(house);
  const power = new Set(
    pairs.flatMap(({ attempt: { restated } }) =>
      restated?.power === undefined ? [] : [powerInWords(restated.power, house)],
    ),
  );
  const reasons = Map.groupBy(
    starts.filter(({ restated }) => restated?.notRestated !== undefined),
    ({ restated }) => notRestatedInWords(restated!.notRestated!.reason, house),
  );
  const without = [...reasons].map(([reason, attempts]) =>
    words.notRestated(
      attempts.map(({ number }) => number),
      reason,
    ),
  );
  if (pairs.length === 0) return [words.none, ...without];
  const coasted = test.fromLogs?.dragAreaM2 === undefined ? [] : [words.byCoasting];
  return [
    words.measuredNote,
    words.uncertaintyNote,
    ...coasted,
    ...[...power].map(says => `${says}.`),
    ...without,
  ];
}
