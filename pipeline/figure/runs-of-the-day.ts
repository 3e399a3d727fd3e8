/** Every attempt of the day by launch method: kept solid, set aside hollow, best and median marked. */

import { catalogue } from '../language.ts';
import { flaggedAmong } from '../result/flag-rules.ts';
import { MEASURES, measureLabel } from '../result/measures.ts';
import { compareLaunchMethods } from '../result/methods-compared.ts';
import { pairsOfFirst, printPair } from '../result/methods-words.ts';
import { resultOfOne } from '../result/one-attempt.ts';
import { launchMethodsOf, medianAttempt, pickResult } from '../result/pick.ts';
import type { Attempt, House, MeasureId, Result, TestResult } from '../result/result.ts';
import { printedWords } from '../result/words/printed.ts';
import { reasonInWords } from '../result/words/set-aside.ts';
import { printResult, startRuleInWords } from '../result/words.ts';
import { workingsAddress } from '../result/workings-address.ts';
import { speedUnitOf } from '../speed-unit.ts';
import type { Table } from '../table/table.ts';
import { fromRest, headlineMeasure, isKept } from './choose.ts';
import { dayPlot, type Mark, medianText, type Row } from './day-plot.ts';
import { everyLayout, type Figure, type FigureChoice, type FigureLayout, type MadeFigure } from './figure.ts';
import { feet, heldTogether } from './foot.ts';
import { runsOfTheDayWords } from './words/day.ts';
import { notMadeWords } from './words/not-made.ts';
import { figureWords } from './words/shared.ts';

export const runsOfTheDay: Figure = {
  kind: 'runs-of-the-day',
  describes: catalogue({
    en: 'Every attempt of the day by launch method: kept solid, set aside hollow, best and median marked.',
    de: 'Jeder Versuch des Tages nach Startmethode: gewertet ausgefüllt, nicht gewertet hohl, bester und Median bezeichnet.',
  }),
  make(test, house, choice) {
    const measure = headlineMeasure(test, house);
    if (measure === undefined) return { reason: notMadeWords(house).noStart(speedUnitOf(house)) };
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
    {
      name: rows.length > 0 ? runsOfTheDayWords(house).noLaunch : runsOfTheDayWords(house).allAttempts,
      marks: unnamed,
    },
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
  const words = runsOfTheDayWords(house);
  const label = measureLabel(measure, house);
  const rule = startRuleInWords(startRule, house);
  const all = rows.flatMap(({ marks }) => marks);
  const overall = pickResult(test, house, { measure, startRule })!;

  const figure = (layout: FigureLayout) => dayPlot(rows, house, layout, words.axis(label, rule));

  const { title, sentence } = findingOf(overall, startRule, test, house);
  const unreached = test.attempts.filter(
    attempt =>
      isKept(attempt) && fromRest(attempt) && details.valueOf(attempt.measurement, startRule) === undefined,
  ).length;
  const missing = unreached === 0 ? [] : [words.missing(unreached)];
  const counts = figureWords(house).counts(overall.n, overall.nSetAside);
  return {
    kind: 'runs-of-the-day',
    title,
    deck: words.deck(label, test.car.name),
    caption: [words.caption(label, rule, counts), ...missing].join(' '),
    ...feet(test, house, {
      attempts: all.map(({ attempt }) => attempt),
      startRule,
      key: words.key,
      method: [[words.method, ...missing].join(' ')],
    }),
    altText: [
      words.chart(label, counts),
      sentence,
      ...rows.map(row => rowSentence(row, house)),
      ...missing,
    ].join(' '),
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
  const words = runsOfTheDayWords(house);
  if (next === undefined) {
    const middle = n > 1 ? printResult({ ...overall, value: median }, house).text : undefined;
    return words.takes(heldTogether(test.car.short_name), bestText, middle, measureLabel(measure, house));
  }
  const first = next.ahead.name;
  const behind = pairs.filter(({ verdict }) => verdict === 'apart');
  if (behind.length === 0) {
    const few = pairs.every(({ verdict }) => verdict === 'too-few');
    return words.noneStandsOut(bestText, few ? 'too few' : 'too close');
  }
  if (behind.length === pairs.length) {
    return words.quickest(first, printPair(next, measure, house.language).difference, next.behind.name);
  }
  return words.someSlower(
    behind.map(pair => pair.behind.name),
    first,
  );
}

function rowSentence(row: Row, house: House): string {
  const words = runsOfTheDayWords(house);
  if (row.best === undefined || row.median === undefined) {
    return words.rowUnmeasured(row.name, row.marks.length);
  }
  return words.row(
    row.name,
    printResult(row.best, house).text,
    medianText(row, house),
    row.best.n,
    row.best.nSetAside,
  );
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
  const words = runsOfTheDayWords(house);
  const heads = figureWords(house);
  return {
    id: 'runs-of-the-day',
    caption: words.tableCaption(measureLabel(measure, house), startRuleInWords(startRule, house)),
    columns: [
      { label: heads.launchMethod, align: 'start' },
      { label: heads.attemptHead, align: 'end' },
      { label: heads.time, unit: 's', align: 'end' },
      { label: heads.uncertainty, align: 'end' },
      { label: heads.remarks, align: 'start' },
    ],
    rows: rows.flatMap(row =>
      row.marks.map(({ attempt, value, uncertainty }) => {
        const figure = { value, ...(uncertainty === undefined ? {} : { uncertainty }) };
        const printed = printResult(resultOfOne(figure, measure, startRule, attempt), house);
        const remark =
          attempt.setAside !== undefined
            ? heads.setAsideWhy(reasonInWords(attempt.setAside, house))
            : bests.has(attempt.id)
              ? words.bestOfLaunch
              : attempt.id === medianId
                ? words.middleOfDay
                : '';
        return [
          { text: row.name, header: true },
          { text: String(attempt.number) },
          { text: printed.value, workings: [workingsAddress(test.id, attempt.id, measure, startRule)] },
          { text: printed.uncertainty ?? printedWords(house).notStated },
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
