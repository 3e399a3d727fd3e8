/** Speed over time of many runs, a small panel each, beside the quickest of them. */

import type { TopLevelSpec } from 'vega-lite';
import { COLOUR } from '../look.ts';
import { withUnit } from '../result/words.ts';
import { type FigureLayout, isCrop } from './figure.ts';
import { aboutPx, bottomAxisLayers, gridLayers, type Panel, placeIn, pxAxes } from './panel.ts';
import { dotLayer, type Layer, labelLayers, lineLayer, plotSpec } from './plot.ts';
import { firstPassing, type RunSeries } from './run-series.ts';
import { plotWidthPx, SIZES } from './theme.ts';
import type { Point } from './thin.ts';
import { roundStep, ticksEvery } from './ticks.ts';
import { figureWords } from './words/shared.ts';

export interface PanelRun {
  readonly name: string;
  /** Where there is no room for the name. */
  readonly number: number;
  /** Its figure, or why it has none. */
  readonly detail: string;
  readonly series: RunSeries;
  readonly kept: boolean;
}

/** Most panels of one figure. */
export const MOST_PANELS = 24;

const COLUMNS: Readonly<Record<FigureLayout, number>> = {
  narrow: 2,
  wide: 4,
  print: 2,
  square: 4,
  portrait: 3,
  story: 3,
  landscape: 4,
};
const PANEL_HEIGHT_PX: Readonly<Record<FigureLayout, number>> = {
  narrow: 84,
  wide: 104,
  print: 60,
  square: 30,
  portrait: 40,
  story: 52,
  landscape: 34,
};

/** Panels in the order given, left to right and down; the first run is drawn thin in every panel. */
export function speedPanels(
  runs: readonly PanelRun[],
  toSpeed: number,
  endS: number,
  layout: FigureLayout,
  language: string,
): TopLevelSpec {
  const { axisPx, labelPx, labelLeadingPx } = SIZES[layout];
  const widthPx = plotWidthPx(layout);
  const columns = Math.min(COLUMNS[layout], runs.length);
  const rows = Math.ceil(runs.length / columns);
  const gutterPx = aboutPx('100', axisPx) + 6;
  const betweenPx = 10;
  const panelPx = (widthPx - gutterPx - (columns - 1) * betweenPx) / columns;
  const headPx = 2 * labelLeadingPx + 4;
  const rowPx = headPx + PANEL_HEIGHT_PX[layout] + 12;
  const heightPx = rows * rowPx + axisPx + 10;
  const axes = pxAxes(widthPx, heightPx);
  const topSpeed = Math.max(
    toSpeed,
    ...runs.flatMap(({ series }) => series.speed.filter((_, index) => series.timeS[index]! <= endS)),
  );
  const stepS = roundStep(endS, columns > 2 ? 3 : 5);
  const limitPx = panelPx;
  const layers = runs.flatMap(({ name, number, detail, series, kept }, index): Layer[] => {
    const column = index % columns;
    const row = Math.floor(index / columns);
    const panel: Panel = {
      left: gutterPx + column * (panelPx + betweenPx),
      top: row * rowPx + headPx,
      widthPx: panelPx,
      heightPx: PANEL_HEIGHT_PX[layout],
      x: { from: 0, to: endS },
      y: { from: 0, to: topSpeed },
    };
    const line = (of: RunSeries): readonly Point[] =>
      of.timeS
        .map((x, at) => ({ x, y: of.speed[at]! }))
        .filter(({ x }) => x >= 0 && x <= endS)
        .map(point => placeIn(panel, point));
    const passed = firstPassing(series.timeS, series.speed, toSpeed);
    const lowest = index + columns >= runs.length;
    const label = { align: 'left' as const, baseline: 'bottom' as const, limitPx };
    return [
      ...gridLayers(panel, column === 0 ? [0, toSpeed] : [], { decimals: 0, sizePx: axisPx, language }),
      ...(column === 0
        ? []
        : gridLayers(panel, [0, toSpeed], { decimals: 0, sizePx: axisPx, language }).slice(0, 1)),
      lineLayer(line(runs[0]!.series), axes, { colour: COLOUR.muted, width: 0.8 }),
      lineLayer(line(series), axes, {
        colour: index === 0 ? COLOUR.accent : COLOUR.ink,
        width: 1.7,
        ...(kept ? {} : { dash: [3, 2] }),
      }),
      ...(passed === undefined || passed > endS
        ? []
        : [
            dotLayer([placeIn(panel, { x: passed, y: toSpeed })], {
              colour: index === 0 ? COLOUR.accent : COLOUR.ink,
              areaPx: 24,
              hollow: true,
            }),
          ]),
      ...labelLayers(
        [
          {
            x: panel.left,
            y: panel.top - 4 - labelLeadingPx,
            text: isCrop(layout) ? figureWords(language).number(number) : name,
          },
        ],
        {
          ...label,
          sizePx: labelPx,
          weight: 600,
        },
      ),
      ...labelLayers([{ x: panel.left, y: panel.top - 4, text: detail, colour: COLOUR.muted }], {
        ...label,
        sizePx: axisPx,
      }),
      ...(lowest
        ? bottomAxisLayers(
            panel,
            // The last number would stand over the edge.
            ticksEvery(stepS, 0, endS - stepS / 4).map((value, nth) => ({
              value,
              text: nth === 1 ? withUnit(String(value), 's') : String(value),
            })),
            axisPx,
          )
        : []),
    ];
  });
  return plotSpec(layout, language, { ...axes, heightPx, layers });
}
