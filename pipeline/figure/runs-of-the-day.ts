/** Every attempt of the day by launch method: kept solid, set aside hollow, best and median marked. */

import { flaggedAmong } from '../result/flag-rules.ts';
import { MEASURES, measureLabel } from '../result/measures.ts';
import { compareLaunchMethods } from '../result/methods-compared.ts';
import { pairsOfFirst, printPair } from '../result/methods-words.ts';
import { resultOfOne } from '../result/one-attempt.ts';
import { launchMethodsOf, medianAttempt, pickResult } from '../result/pick.ts';
import type { Attempt, House, MeasureId, Result, TestResult } from '../result/result.ts';
import { compareWords } from '../result/words/compare.ts';
import { printResult, startRuleInWords } from '../result/words.ts';
import type { Table } from '../table/table.ts';
import { fromRest, headlineMeasure, isKept } from './choose.ts';
import { dayPlot, type Mark, medianText, type Row } from './day-plot.ts';
import { everyLayout, type Figure, type FigureChoice, type FigureLayout, type MadeFigure } from './figure.ts';
import { feet, heldTogether, listInWords } from './foot.ts';

export const runsOfTheDay: Figure = {
  kind: 'runs-of-the-day',
  describes:
    'Every attempt of the day by launch method: kept solid, set aside hollow, best and median marked.',
  make(test, house, choice) {
    const measure = headlineMeasure(test, house);
    if (measure === undefined) return { reason: 'No kept attempt began from rest and reached 30 km/h.' };
    const rows = rowsOf(test, house, choice, measure);
    return draw(test, house, choice, measure, rows);
  },
};

function rowsOf(
  test: TestResult,
  house: House,
  { startRule }: FigureChoice,
  measure: MeasureId,
): readonly Row[] {
  const marksOf = (attempts: readonly Attempt[]): readonly Mark[] =>
    attempts.flatMap(attempt => {
      const figure = MEASURES[measure].valueOf(attempt.measurement, startRule);
      return figure === undefined ? [] : [{ attempt, ...figure }];
    });
  const rows = launchMethodsOf(test, house).map(({ id, name }): Row => {
    const best = pickResult(test, house, { measure, startRule, launch: id });
    const median = pickResult(test, house, { measure, startRule, launch: id, statistic: 'median' });
    return {
      id,
      name,
      marks: marksOf(test.attempts.filter(attempt => attempt.launchId === id)),
      ...(best === undefined ? {} : { best }),
      ...(median === undefined ? {} : { median }),
    };
  });
  const unnamed = marksOf(test.attempts.filter(attempt => attempt.launchId === undefined));
  return [
    ...rows,
    { name: rows.length > 0 ? 'No launch method noted' : 'All attempts', marks: unnamed },
  ].filter(({ marks }) => marks.length > 0);
}

function draw(
  test: TestResult,
  house: House,
  { startRule }: FigureChoice,
  measure: MeasureId,
  rows: readonly Row[],
): MadeFigure {
  const details = MEASURES[measure];
  const all = rows.flatMap(({ marks }) => marks);
  const overall = pickResult(test, house, { measure, startRule })!;

  const figure = (layout: FigureLayout) =>
    dayPlot(rows, house, layout, `s, ${measureLabel(measure, house)}, ${startRuleInWords(startRule, house)}`);

  const { title, sentence } = findingOf(overall, startRule, test, house);
  const unreached = test.attempts.filter(
    attempt =>
      isKept(attempt) && fromRest(attempt) && details.valueOf(attempt.measurement, startRule) === undefined,
  ).length;
  const missing =
    unreached === 0
      ? ''
      : ` ${unreached === 1 ? 'One kept attempt' : `${unreached} kept attempts`} did not reach it and cannot be shown.`;
  const counts = `${overall.n} kept${overall.nSetAside > 0 ? `, ${overall.nSetAside} set aside` : ''}`;
  return {
    kind: 'runs-of-the-day',
    title,
    deck: `${measureLabel(measure, house)} of every attempt of the day, ${test.car.name}; in each row the day runs downwards`,
    caption: `${measureLabel(measure, house)} of every attempt by launch method, ${startRuleInWords(startRule, house)}: ${counts}. Solid: kept. Hollow: set aside. Lines through the marks: expanded uncertainty, k = 2.${missing}`,
    ...feet(test, house, {
      attempts: all.map(({ attempt }) => attempt),
      startRule,
      key: 'Solid: kept; hollow: set aside.',
      method: [`Solid: kept; hollow: set aside. Line through a mark: uncertainty, k = 2.${missing}`],
    }),
    altText: `Dot chart of ${measureLabel(measure, house)} of every attempt, by launch method: ${counts}. ${sentence} ${rows.map(row => rowSentence(row, house)).join(' ')}${missing}`,
    spec: everyLayout(figure),
    table: tableOf(test, house, measure, startRule, rows),
  };
}

/** Methods are ranked by their medians, scatter included; the best run alone is a fact about one run. */
function findingOf(
  overall: Result,
  startRule: FigureChoice['startRule'],
  test: TestResult,
  house: House,
): { readonly title: string; readonly sentence: string } {
  const title = titleOf(overall, startRule, test, house);
  return { title, sentence: `${title}.` };
}

function titleOf(
  overall: Result,
  startRule: FigureChoice['startRule'],
  test: TestResult,
  house: House,
): string {
  const { measure, n, median } = overall;
  const pairs = pairsOfFirst(compareLaunchMethods(test, house, { measure, startRule }));
  const bestText = printResult(overall, house).text;
  const [next] = pairs;
  if (next === undefined) {
    const bestOf = `${bestText} ${n > 1 ? `at best, ${printResult({ ...overall, value: median }, house).text} in the middle` : 'in the one kept attempt'}`;
    return `The ${heldTogether(test.car.short_name)} takes ${bestOf} for ${measureLabel(measure, house)}`;
  }
  const first = next.ahead.name;
  const behind = pairs.filter(({ verdict }) => verdict === 'apart');
  if (behind.length === 0) {
    const why = pairs.every(({ verdict }) => verdict === 'too-few')
      ? `attempts are ${compareWords(house).tooFewToTell}`
      : `medians are ${compareWords(house).tooCloseToCall}`;
    return `No launch method stands out: ${bestText} at best, but the ${why}`;
  }
  if (behind.length === pairs.length) {
    const { difference } = printPair(next, measure, house.language);
    return `‘${first}’ is quickest: its median is ${difference} ahead of ‘${next.behind.name}’`;
  }
  const slow = listInWords(behind.map(pair => `‘${pair.behind.name}’`));
  return `${slow} ${behind.length === 1 ? 'is' : 'are'} slower than ‘${first}’; between the others it is ${compareWords(house).tooCloseToCall}`;
}

function rowSentence(row: Row, house: House): string {
  if (row.best === undefined || row.median === undefined) {
    return `${row.name}: ${row.marks.length} ${row.marks.length === 1 ? 'attempt' : 'attempts'}.`;
  }
  const aside = row.best.nSetAside === 0 ? '' : `, ${row.best.nSetAside} set aside`;
  return `${row.name}: best ${printResult(row.best, house).text}, median ${medianText(row, house)}, ${row.best.n} kept${aside}.`;
}

function tableOf(
  test: TestResult,
  house: House,
  measure: MeasureId,
  startRule: FigureChoice['startRule'],
  rows: readonly Row[],
): Table {
  const medianId = medianAttempt(test, house, { measure, startRule })?.id;
  const bests = new Set(rows.flatMap(({ best }) => best?.attemptIds ?? []));
  return {
    id: 'runs-of-the-day',
    caption: `${measureLabel(measure, house)} of every attempt that reached it, ${startRuleInWords(startRule, house)}`,
    columns: [
      { label: 'Launch method', align: 'start' },
      { label: 'Attempt', align: 'end' },
      { label: 'Time', unit: 's', align: 'end' },
      { label: 'Uncertainty, k = 2', align: 'end' },
      { label: 'Remarks', align: 'start' },
    ],
    rows: rows.flatMap(row =>
      row.marks.map(({ attempt, value, uncertainty }) => {
        const figure = { value, ...(uncertainty === undefined ? {} : { uncertainty }) };
        const printed = printResult(resultOfOne(figure, measure, startRule, attempt), house);
        const remark =
          attempt.setAside !== undefined
            ? `set aside: ${attempt.setAside}`
            : bests.has(attempt.id)
              ? 'best of its launch method'
              : attempt.id === medianId
                ? 'middle of the day'
                : '';
        return [
          { text: row.name, header: true },
          { text: String(attempt.number) },
          { text: printed.value },
          { text: printed.uncertainty ?? 'not stated' },
          { text: remark },
        ];
      }),
    ),
    notes: flaggedAmong(
      rows.flatMap(({ marks }) => marks.map(({ attempt }) => attempt)),
      house,
    ),
  };
}
