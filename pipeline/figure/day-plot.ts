/** The strip of a day: a row a launch method, a lane an attempt, its value along. */

import type { TopLevelSpec } from 'vega-lite';
import { COLOUR } from '../look.ts';
import type { Attempt, House, Result } from '../result/result.ts';
import { reasonInWords } from '../result/words/set-aside.ts';
import { printMedian, printResult } from '../result/words.ts';
import { isKept } from './choose.ts';
import { type FigureLayout, isCrop } from './figure.ts';
import { aboutPx } from './panel.ts';
import { type Axis, dotLayer, type Label, labelLayers, plotSpec, ruleLayer } from './plot.ts';
import { plotWidthPx, SIZES } from './theme.ts';
import { downTo, roundStep, stepDecimals, ticksEvery, upTo } from './ticks.ts';
import { figureWords } from './words/shared.ts';

/** One attempt that reached the figure: s. */
export interface Mark {
  readonly attempt: Attempt;
  readonly value: number;
  readonly uncertainty?: number;
}

/** One launch method: its attempts in the day's order, and what they came to. */
export interface Row {
  readonly id?: string;
  readonly name: string;
  readonly marks: readonly Mark[];
  readonly best?: Result;
  readonly median?: Result;
}

/** Height of an attempt, px. */
const LANE_PX: Readonly<Record<FigureLayout, number>> = {
  narrow: 15,
  wide: 16,
  print: 11.5,
  square: 6,
  portrait: 9,
  story: 12,
  landscape: 9,
};
/** Above and below the attempts of a row, px. */
const rowPadPx = (layout: FigureLayout): number => (isCrop(layout) ? 5 : layout === 'print' ? 9 : 13);
/** The launch method stands above its attempts where there is no room beside them. */
const headPx = (layout: FigureLayout): number => (layout === 'wide' ? 0 : layout === 'print' ? 14 : 18);
/** Characters of `best 0`, which the room beside the quickest was measured for. */
const SHORT_BEST = 6;
/** A reason beside a mark is cut at this width, px; a lower-case character is this share of its type wide. */
const ASIDE_LIMIT_PX = 300;
const LOWER_CASE_SHARE = 0.41;
/** What names beside the rows take of a wide picture, at least, px. */
const NAMES_PX = 150;
/** Room for the median's label under the attempts of a row. */
const MEDIAN_PX = 16;

/** Kept solid, set aside hollow, best and median labelled; within a row the day runs downwards. */
export function dayPlot(
  rows: readonly Row[],
  house: House,
  layout: FigureLayout,
  valueTitle: string,
): TopLevelSpec {
  const words = figureWords(house);
  const all = rows.flatMap(({ marks }) => marks);
  const reach = all.map(
    ({ value, uncertainty }) => [value - (uncertainty ?? 0), value + (uncertainty ?? 0)] as const,
  );
  const least = Math.min(...reach.map(([low]) => low));
  const most = Math.max(...reach.map(([, high]) => high));
  const spread = Math.max(most - least, 0.2);
  const size = SIZES[layout];
  const lane = LANE_PX[layout];
  const heightOf = ({ marks, median }: Row) =>
    2 * rowPadPx(layout) +
    headPx(layout) +
    marks.length * lane +
    (median === undefined || median.n < 2 ? 0 : MEDIAN_PX);
  const heightPx = rows.reduce((sum, row) => sum + heightOf(row), 0);
  const step = roundStep(spread * 1.15, layout === 'wide' ? 8 : 4);
  // Room left of the quickest for what is said of the best, which is longer in some languages.
  const longer = words.best('0').length / SHORT_BEST;
  const from = downTo(least - spread * (layout === 'wide' ? 0.14 * longer : 0.3), step);
  const to = upTo(most + spread * 0.04, step);
  const pxPerS = (plotWidthPx(layout) - NAMES_PX) / (to - from);
  const axes: { x: Axis; y: Axis } = {
    x: {
      title: valueTitle,
      from,
      to,
      ticks: ticksEvery(step, from, to),
      tickDecimals: stepDecimals(step),
    },
    y: { title: '', from: heightPx, to: 0 },
  };
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
  /** The reason too, where there is room for it. */
  const asideText = ({ attempt: { setAside } }: Mark, roomPx: number): string => {
    if (layout !== 'wide' || setAside === undefined) return words.setAside;
    const whole = words.setAsideWhy(reasonInWords(setAside, house));
    const widthPx = Math.min(ASIDE_LIMIT_PX, whole.length * size.axisPx * LOWER_CASE_SHARE);
    return widthPx > roomPx ? words.setAside : whole;
  };
  let top = 0;
  for (const row of rows) {
    const height = heightOf(row);
    const first = top + rowPadPx(layout) + headPx(layout);
    if (top > 0) breaks.push({ x: from, x2: to, y: top, y2: top });
    const keptCount = row.marks.filter(({ attempt }) => isKept(attempt)).length;
    const aside = row.marks.length - keptCount;
    const count = words.counts(keptCount, aside);
    const nameY = layout === 'wide' ? first + lane / 2 : top + rowPadPx(layout) + 4;
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
        const atRight = layout !== 'wide' || mark.value < (from + to) / 2;
        const reach = mark.uncertainty ?? 0;
        const roomPx = pxPerS * ((atRight ? to - mark.value : mark.value - from) - reach);
        (atRight ? labels.right : labels.left).push({
          ...point,
          x: mark.value + (atRight ? reach : -reach),
          text: asideText(mark, roomPx),
          colour: COLOUR.muted,
        });
        continue;
      }
      if (row.best?.attemptIds.includes(mark.attempt.id)) {
        dots.best.push(point);
        labels.best.push({
          ...point,
          x: mark.value - (mark.uncertainty ?? 0),
          text: words.best(printResult(row.best, house).text),
          colour: COLOUR.accent,
        });
      } else dots.kept.push(point);
    }
    if (row.median !== undefined && row.median.n > 1) {
      const foot = first + row.marks.length * lane + 3;
      medians.push({ x: row.median.value, x2: row.median.value, y: first - 3, y2: foot });
      labels.median.push({ x: row.median.value, y: foot, text: words.median(medianText(row, house)) });
    }
    top += height;
  }
  const small = { sizePx: size.axisPx };
  return plotSpec(layout, house.language, {
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
        limitPx: layout === 'wide' ? 190 : plotWidthPx(layout) - aboutPx(words.counts(10, 10), size.axisPx),
      }),
      ...labelLayers(labels.counts, { align: 'right', dx: layout === 'wide' ? -14 : 0, ...small }),
      ...labelLayers(labels.left, { align: 'right', dx: -7, ...small, halo: true, limitPx: ASIDE_LIMIT_PX }),
      ...labelLayers(labels.best, { align: 'right', dx: -7, ...small, weight: 600, halo: true }),
      ...labelLayers(labels.right, {
        align: 'left',
        dx: 7,
        ...small,
        halo: true,
        limitPx: layout === 'wide' ? ASIDE_LIMIT_PX : 60,
      }),
      ...labelLayers(labels.median, { align: 'center', baseline: 'top', dy: 3, ...small, halo: true }),
    ],
  });
}

/** The median of a row that has one. */
export const medianText = ({ median }: Row, house: House): string => printMedian(median!, house);
