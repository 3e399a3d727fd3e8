/** The strip of a day: a row a launch method, a lane an attempt, its value along. */

import type { TopLevelSpec } from 'vega-lite';
import { COLOUR } from '../look.ts';
import type { Attempt, House, Result } from '../result/result.ts';
import { reasonInWords } from '../result/words/set-aside.ts';
import { printMedian, printResult } from '../result/words.ts';
import { isKept } from './choose.ts';
import { type FigureLayout, isCrop } from './figure.ts';
import { aboutPx } from './panel.ts';
import { dotLayer, type Label, type Line, labelLayers, plotSpec, ruleLayer } from './plot.ts';
import { type RowScale, rowGrid } from './rows.ts';
import { plotWidthPx, SIZES } from './theme.ts';
import type { Point } from './thin.ts';
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
  const size = SIZES[layout];
  const isWide = layout === 'wide';
  const tops: number[] = [];
  let heightPx = 0;
  for (const row of rows) {
    tops.push(heightPx);
    heightPx += heightPxOf(row, layout);
  }
  const scale = { ...valueSpan(rows, house, layout), heightPx };
  const { from, to, step } = scale;
  const drawn = rows.map((row, index) => rowShapes(row, tops[index]!, scale, house, layout));
  const lines = (of: keyof Shapes['lines']) => drawn.flatMap(row => row.lines[of]);
  const dots = (of: keyof Shapes['dots']) => drawn.flatMap(row => row.dots[of]);
  const labels = (of: keyof Shapes['labels']) => drawn.flatMap(row => row.labels[of]);
  const small = { sizePx: size.axisPx };
  return plotSpec(layout, house.language, {
    x: { title: valueTitle, from, to, ticks: ticksEvery(step, from, to), tickDecimals: stepDecimals(step) },
    y: { title: '', from: heightPx, to: 0 },
    heightPx,
    layers: [
      ...rowGrid(scale, tops.slice(1)),
      ruleLayer(lines('medians'), { colour: COLOUR.ink, width: 1.2 }),
      ruleLayer(lines('uncertainties'), { colour: COLOUR.muted, width: 0.8 }),
      dotLayer(dots('aside'), { colour: COLOUR.ink, areaPx: 50, hollow: true, width: 1.2 }),
      dotLayer(dots('kept'), { colour: COLOUR.ink, areaPx: 58 }),
      dotLayer(dots('best'), { colour: COLOUR.accent, areaPx: 78 }),
      ...labelLayers(labels('names'), {
        align: isWide ? 'right' : 'left',
        dx: isWide ? -14 : 0,
        sizePx: size.labelPx,
        weight: 600,
        limitPx: isWide ? 190 : plotWidthPx(layout) - aboutPx(words.counts(10, 10), size.axisPx),
      }),
      ...labelLayers(labels('counts'), { align: 'right', dx: isWide ? -14 : 0, ...small }),
      ...labelLayers(labels('left'), {
        align: 'right',
        dx: -7,
        ...small,
        halo: true,
        limitPx: ASIDE_LIMIT_PX,
      }),
      ...labelLayers(labels('best'), { align: 'right', dx: -7, ...small, weight: 600, halo: true }),
      ...labelLayers(labels('right'), {
        align: 'left',
        dx: 7,
        ...small,
        halo: true,
        limitPx: isWide ? ASIDE_LIMIT_PX : 60,
      }),
      ...labelLayers(labels('median'), { align: 'center', baseline: 'top', dy: 3, ...small, halo: true }),
    ],
  });
}

const hasMedian = ({ median }: Row): boolean => median !== undefined && median.n > 1;

const heightPxOf = (row: Row, layout: FigureLayout): number =>
  2 * rowPadPx(layout) +
  headPx(layout) +
  row.marks.length * LANE_PX[layout] +
  (hasMedian(row) ? MEDIAN_PX : 0);

/** From the least to the most of all rows with their uncertainty, s. */
function valueSpan(rows: readonly Row[], house: House, layout: FigureLayout): Omit<RowScale, 'heightPx'> {
  const reaches = rows.flatMap(({ marks }) =>
    marks.map(({ value, uncertainty = 0 }) => [value - uncertainty, value + uncertainty] as const),
  );
  const least = Math.min(...reaches.map(([low]) => low));
  const most = Math.max(...reaches.map(([, high]) => high));
  const spread = Math.max(most - least, 0.2);
  const step = roundStep(spread * 1.15, layout === 'wide' ? 8 : 4);
  // Room left of the quickest for what is said of the best, which is longer in some languages.
  const longer = figureWords(house).best('0').length / SHORT_BEST;
  const from = downTo(least - spread * (layout === 'wide' ? 0.14 * longer : 0.3), step);
  const to = upTo(most + spread * 0.04, step);
  return { from, to, step };
}

/** What a row draws, by the layer it goes to: values along, px from the top down. */
interface Shapes {
  readonly lines: Readonly<Record<'uncertainties' | 'medians', readonly Line[]>>;
  readonly dots: Readonly<Record<'kept' | 'aside' | 'best', readonly Point[]>>;
  readonly labels: Readonly<
    Record<'names' | 'counts' | 'best' | 'left' | 'right' | 'median', readonly Label[]>
  >;
}

function rowShapes(
  row: Row,
  topPx: number,
  { from, to }: RowScale,
  house: House,
  layout: FigureLayout,
): Shapes {
  const words = figureWords(house);
  const { axisPx, labelLeadingPx } = SIZES[layout];
  const isWide = layout === 'wide';
  const lane = LANE_PX[layout];
  const firstPx = topPx + rowPadPx(layout) + headPx(layout);
  const placed = row.marks.map(({ attempt, value, uncertainty }, index) => {
    const y = firstPx + (index + 0.5) * lane;
    return { attempt, x: value, y, reach: uncertainty ?? 0, isUncertain: uncertainty !== undefined };
  });
  const kept = placed.filter(({ attempt }) => isKept(attempt));
  const aside = placed.filter(({ attempt }) => !isKept(attempt));
  const best = kept.filter(({ attempt }) => row.best?.attemptIds.includes(attempt.id));
  const pxPerS = (plotWidthPx(layout) - NAMES_PX) / (to - from);
  /** The reason too, where there is room for it. */
  const asideText = ({ setAside }: Attempt, roomPx: number): string => {
    if (!isWide || setAside === undefined) return words.setAside;
    const whole = words.setAsideWhy(reasonInWords(setAside, house));
    const widthPx = Math.min(ASIDE_LIMIT_PX, whole.length * axisPx * LOWER_CASE_SHARE);
    return widthPx > roomPx ? words.setAside : whole;
  };
  // Beside the mark, to the side where there is more room.
  const isRight = (x: number): boolean => !isWide || x < (from + to) / 2;
  const reasons = (right: boolean): readonly Label[] =>
    aside
      .filter(({ x }) => isRight(x) === right)
      .map(({ attempt, x, y, reach }) => ({
        x: x + (right ? reach : -reach),
        y,
        text: asideText(attempt, pxPerS * ((right ? to - x : x - from) - reach)),
        colour: COLOUR.muted,
      }));
  const nameY = isWide ? firstPx + lane / 2 : topPx + rowPadPx(layout) + 4;
  const footPx = firstPx + row.marks.length * lane + 3;
  const medianX = hasMedian(row) ? [row.median!.value] : [];
  return {
    lines: {
      uncertainties: placed
        .filter(({ isUncertain }) => isUncertain)
        .map(({ x, y, reach }) => ({ x: x - reach, x2: x + reach, y, y2: y })),
      medians: medianX.map(x => ({ x, x2: x, y: firstPx - 3, y2: footPx })),
    },
    dots: { kept: kept.filter(one => !best.includes(one)), aside, best },
    labels: {
      names: [{ x: from, y: nameY, text: row.name }],
      counts: [
        {
          x: isWide ? from : to,
          y: isWide ? nameY + labelLeadingPx : nameY,
          text: words.counts(kept.length, aside.length),
          colour: COLOUR.muted,
        },
      ],
      best: best.map(({ x, y, reach }) => ({
        x: x - reach,
        y,
        text: words.best(printResult(row.best!, house).text),
        colour: COLOUR.accent,
      })),
      left: reasons(false),
      right: reasons(true),
      median: medianX.map(x => ({ x, y: footPx, text: words.median(medianText(row, house)) })),
    },
  };
}

/** The median of a row that has one. */
export const medianText = ({ median }: Row, house: House): string => printMedian(median!, house);
