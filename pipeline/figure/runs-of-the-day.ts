/** Every attempt of the day by launch method: kept solid, set aside hollow, best and median marked. */
import { COLOUR } from '../look.ts';
import { compareResults } from '../result/compare.ts';
import { MEASURES } from '../result/measures.ts';
import { launchMethodsOf, medianAttempt, pickResult } from '../result/pick.ts';
import type { Attempt, House, MeasureId, Result, TestResult } from '../result/result.ts';
import { printDifference, printResult, startRuleInWords } from '../result/words.ts';
import type { Table } from '../table/table.ts';
import { fromRest, headlineMeasure, isKept } from './choose.ts';
import type { Figure, FigureChoice, FigureLayout, MadeFigure } from './figure.ts';
import { footLines, heldTogether, listInWords } from './foot.ts';
import {
  type Axis,
  dotLayer,
  downTo,
  type Label,
  labelLayers,
  plotSpec,
  roundStep,
  ruleLayer,
  stepDecimals,
  ticksEvery,
  upTo,
} from './plot.ts';
import { SIZES } from './theme.ts';

interface Mark {
  readonly attempt: Attempt;
  readonly value: number;
  readonly uncertainty?: number;
}

/** One launch method: its attempts in the day's order, and what they came to. */
interface Row {
  readonly id?: string;
  readonly name: string;
  readonly marks: readonly Mark[];
  readonly best?: Result;
  readonly median?: Result;
}

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

const LANE_PX: Readonly<Record<FigureLayout, number>> = { narrow: 15, wide: 16 };
const ROW_PAD_PX: Readonly<Record<FigureLayout, number>> = { narrow: 13, wide: 13 };
/** The launch method stands above its attempts where there is no room beside them. */
const HEAD_PX: Readonly<Record<FigureLayout, number>> = { narrow: 18, wide: 0 };
/** Room for the median's label under the attempts of a row. */
const MEDIAN_PX = 16;

function draw(
  test: TestResult,
  house: House,
  { startRule }: FigureChoice,
  measure: MeasureId,
  rows: readonly Row[],
): MadeFigure {
  const language = house.language;
  const details = MEASURES[measure];
  const all = rows.flatMap(({ marks }) => marks);
  const reach = all.map(
    ({ value, uncertainty }) => [value - (uncertainty ?? 0), value + (uncertainty ?? 0)] as const,
  );
  const least = Math.min(...reach.map(([low]) => low));
  const most = Math.max(...reach.map(([, high]) => high));
  const spread = Math.max(most - least, 0.2);
  const overall = pickResult(test, house, { measure, startRule })!;

  const figure = (layout: FigureLayout) => {
    const size = SIZES[layout];
    const lane = LANE_PX[layout];
    const heightOf = ({ marks, median }: Row) =>
      2 * ROW_PAD_PX[layout] +
      HEAD_PX[layout] +
      marks.length * lane +
      (median === undefined || median.n < 2 ? 0 : MEDIAN_PX);
    const heightPx = rows.reduce((sum, row) => sum + heightOf(row), 0);
    const step = roundStep(spread * 1.15, layout === 'wide' ? 8 : 4);
    const from = downTo(least - spread * (layout === 'wide' ? 0.14 : 0.3), step);
    const to = upTo(most + spread * 0.04, step);
    const axes: { x: Axis; y: Axis } = {
      x: {
        title: `s, ${details.label}, ${startRuleInWords(startRule)}`,
        from,
        to,
        ticks: ticksEvery(step, from, to),
        tickDecimals: stepDecimals(step),
      },
      y: { title: '', from: heightPx, to: 0 },
    };
    const kept: Mark[] = [];
    const lines: { x: number; x2: number; y: number; y2: number }[] = [];
    const medians: typeof lines = [];
    const breaks: typeof lines = [];
    const dots = {
      kept: [] as { x: number; y: number }[],
      aside: [] as { x: number; y: number }[],
      best: [] as { x: number; y: number }[],
    };
    const labels = {
      names: [] as Label[],
      counts: [] as Label[],
      best: [] as Label[],
      left: [] as Label[],
      right: [] as Label[],
      median: [] as Label[],
    };
    let top = 0;
    for (const row of rows) {
      const height = heightOf(row);
      const first = top + ROW_PAD_PX[layout] + HEAD_PX[layout];
      if (top > 0) breaks.push({ x: from, x2: to, y: top, y2: top });
      const keptCount = row.marks.filter(({ attempt }) => isKept(attempt)).length;
      const aside = row.marks.length - keptCount;
      const count = `${keptCount} kept${aside === 0 ? '' : `, ${aside} set aside`}`;
      const nameY = layout === 'wide' ? first + lane / 2 : top + ROW_PAD_PX.narrow + 4;
      labels.names.push({ x: from, y: nameY, text: row.name });
      labels.counts.push({
        x: layout === 'wide' ? from : to,
        y: layout === 'wide' ? nameY + size.labelLeadingPx : nameY,
        text: count,
        colour: COLOUR.muted,
      });
      for (const [index, mark] of row.marks.entries()) {
        const point = { x: mark.value, y: first + (index + 0.5) * lane };
        if (mark.uncertainty !== undefined) {
          lines.push({
            x: mark.value - mark.uncertainty,
            x2: mark.value + mark.uncertainty,
            y: point.y,
            y2: point.y,
          });
        }
        if (!isKept(mark.attempt)) {
          dots.aside.push(point);
          // Beside the mark, to the side where there is more room.
          const atRight = layout === 'narrow' || mark.value < (from + to) / 2;
          const reach = mark.uncertainty ?? 0;
          (atRight ? labels.right : labels.left).push({
            ...point,
            x: mark.value + (atRight ? reach : -reach),
            text: layout === 'wide' ? `set aside: ${mark.attempt.setAside}` : 'set aside',
            colour: COLOUR.muted,
          });
          continue;
        }
        kept.push(mark);
        if (row.best?.attemptIds.includes(mark.attempt.id)) {
          dots.best.push(point);
          labels.best.push({
            ...point,
            x: mark.value - (mark.uncertainty ?? 0),
            text: `best ${printResult(row.best, house).text}`,
            colour: COLOUR.accent,
          });
        } else dots.kept.push(point);
      }
      if (row.median !== undefined && row.median.n > 1) {
        const foot = first + row.marks.length * lane + 3;
        medians.push({ x: row.median.value, x2: row.median.value, y: first - 3, y2: foot });
        labels.median.push({ x: row.median.value, y: foot, text: `median ${medianText(row, house)}` });
      }
      top += height;
    }
    const small = { sizePx: size.axisPx };
    return plotSpec(layout, language, {
      ...axes,
      heightPx,
      layers: [
        ruleLayer(
          ticksEvery(step, from, to).map(x => ({ x, x2: x, y: 0, y2: heightPx })),
          { colour: COLOUR.hairline, width: 0.6 },
        ),
        ruleLayer(breaks, { colour: COLOUR.hairline, width: 1 }),
        ruleLayer(medians, { colour: COLOUR.ink, width: 1.2 }),
        ruleLayer(lines, { colour: COLOUR.muted, width: 0.8 }),
        dotLayer(dots.aside, { colour: COLOUR.ink, areaPx: 50, hollow: true, width: 1.2 }),
        dotLayer(dots.kept, { colour: COLOUR.ink, areaPx: 58 }),
        dotLayer(dots.best, { colour: COLOUR.accent, areaPx: 78 }),
        ...labelLayers(labels.names, {
          align: layout === 'wide' ? 'right' : 'left',
          dx: layout === 'wide' ? -14 : 0,
          sizePx: size.labelPx,
          weight: 600,
          limitPx: layout === 'wide' ? 190 : 210,
        }),
        ...labelLayers(labels.counts, { align: 'right', dx: layout === 'wide' ? -14 : 0, ...small }),
        ...labelLayers(labels.left, { align: 'right', dx: -7, ...small, halo: true, limitPx: 300 }),
        ...labelLayers(labels.best, { align: 'right', dx: -7, ...small, weight: 600, halo: true }),
        ...labelLayers(labels.right, {
          align: 'left',
          dx: 7,
          ...small,
          halo: true,
          limitPx: layout === 'wide' ? 300 : 60,
        }),
        ...labelLayers(labels.median, { align: 'center', baseline: 'top', dy: 3, ...small, halo: true }),
      ],
    });
  };

  const { title, sentence } = findingOf(rows, overall, test, house);
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
    deck: `${details.label} of every attempt of the day, ${test.car.name}; in each row the day runs downwards`,
    caption: `${details.label} of every attempt by launch method, ${startRuleInWords(startRule)}: ${counts}. Solid: kept. Hollow: set aside. Lines through the marks: expanded uncertainty, k = 2.${missing}`,
    foot: footLines(test, house, {
      attempts: all.map(({ attempt }) => attempt),
      startRule,
      method: [`Solid: kept; hollow: set aside. Line through a mark: uncertainty, k = 2.${missing}`],
    }),
    altText: `Dot chart of ${details.label} of every attempt, by launch method: ${counts}. ${sentence} ${rows.map(row => rowSentence(row, house)).join(' ')}${missing}`,
    spec: { narrow: figure('narrow'), wide: figure('wide') },
    table: tableOf(test, house, measure, startRule, rows),
  };
}

/** Medians are printed to the places of single attempts, so that they can be read against the dots. */
const medianText = ({ best, median }: Row, house: House): string =>
  printResult({ ...(best ?? median!), value: median!.value }, house).text;

/** Methods are ranked by their medians, scatter included; the best run alone is a fact about one run. */
function findingOf(
  rows: readonly Row[],
  overall: Result,
  test: TestResult,
  house: House,
): { readonly title: string; readonly sentence: string } {
  const details = MEASURES[overall.measure];
  const ranked = rows
    .flatMap(row => (row.median === undefined ? [] : [{ name: row.name, median: row.median }]))
    .sort((a, b) => a.median.value - b.median.value);
  const [first, ...others] = ranked;
  const bestText = printResult(overall, house).text;
  const bestOf = `${bestText} ${overall.n > 1 ? `at best, ${printResult({ ...overall, value: overall.median }, house).text} in the middle` : 'in the one kept attempt'}`;
  if (first === undefined || others.length === 0) {
    const title = `The ${heldTogether(test.car.short_name)} takes ${bestOf} for ${details.label}`;
    return { title, sentence: `${title}.` };
  }
  const behind = others.filter(({ median }) => !compareResults(first.median, median).tooCloseToCall);
  if (behind.length === 0) {
    const title = `No launch method stands out: ${bestText} at best, but the medians are too close to call`;
    return { title, sentence: `${title}.` };
  }
  if (behind.length === others.length) {
    const next = behind[0]!;
    const apart = compareResults(first.median, next.median);
    const text = printDifference(apart.difference, apart.uncertainty, details, house.language).text;
    const title = `‘${first.name}’ is quickest: its median is ${text} ahead of ‘${next.name}’`;
    return { title, sentence: `${title}.` };
  }
  const slow = listInWords(behind.map(({ name }) => `‘${name}’`));
  const title = `${slow} ${behind.length === 1 ? 'is' : 'are'} slower than ‘${first.name}’; between the others it is too close to call`;
  return { title, sentence: `${title}.` };
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
    caption: `${MEASURES[measure].label} of every attempt that reached it, ${startRuleInWords(startRule)}`,
    columns: [
      { label: 'Launch method', align: 'start' },
      { label: 'Attempt', align: 'end' },
      { label: 'Time', unit: 's', align: 'end' },
      { label: 'Uncertainty, k = 2', align: 'end' },
      { label: '', align: 'start' },
    ],
    rows: rows.flatMap(row =>
      row.marks.map(({ attempt, value, uncertainty }) => {
        const printed = printResult(
          {
            measure,
            statistic: 'this',
            startRule,
            value,
            ...(uncertainty === undefined ? {} : { uncertainty }),
            n: 1,
            nSetAside: 0,
            median: value,
            among: { attempt: attempt.id },
            attemptIds: [attempt.id],
          },
          house,
        );
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
    notes: [],
  };
}
