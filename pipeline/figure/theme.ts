/** How every figure looks: sizes of the layouts and the vega configuration made from `look.ts`. */
import type { Config } from 'vega-lite';
import { COLOUR, FACE, SERIES } from '../look.ts';
import { FIGURE_WIDTH_PX, type FigureLayout } from './figure.ts';

/** Measures of one layout, px. */
export interface LayoutSizes {
  /** Left and right of everything. */
  readonly marginPx: number;
  readonly titlePx: number;
  readonly titleLeadingPx: number;
  readonly deckPx: number;
  readonly deckLeadingPx: number;
  /** Axis numbers and titles. */
  readonly axisPx: number;
  /** Direct labels. */
  readonly labelPx: number;
  readonly labelLeadingPx: number;
  readonly footPx: number;
  readonly footLeadingPx: number;
  /** Height of a plot of ordinary shape, inside its axes. */
  readonly plotHeightPx: number;
  /** Longest direct label before it ends in an ellipsis. */
  readonly labelLimitPx: number;
}

/** What the pictures of fixed shape share. */
const CROP: LayoutSizes = {
  marginPx: 18,
  titlePx: 24,
  titleLeadingPx: 28.5,
  deckPx: 13,
  deckLeadingPx: 17,
  axisPx: 12,
  labelPx: 13,
  labelLeadingPx: 16,
  footPx: 11,
  footLeadingPx: 14.5,
  plotHeightPx: 200,
  labelLimitPx: 92,
};

export const SIZES: Readonly<Record<FigureLayout, LayoutSizes>> = {
  narrow: {
    marginPx: 16,
    titlePx: 18,
    titleLeadingPx: 23,
    deckPx: 13,
    deckLeadingPx: 17,
    axisPx: 12,
    labelPx: 12,
    labelLeadingPx: 15,
    footPx: 11,
    footLeadingPx: 15,
    plotHeightPx: 260,
    labelLimitPx: 84,
  },
  wide: {
    marginPx: 28,
    titlePx: 23,
    titleLeadingPx: 29,
    deckPx: 14,
    deckLeadingPx: 19,
    axisPx: 12,
    labelPx: 13,
    labelLeadingPx: 17,
    footPx: 11.5,
    footLeadingPx: 16,
    plotHeightPx: 320,
    labelLimitPx: 170,
  },
  // Printed at 96 px to the inch: 9.4 px is 7 pt, the smallest type on paper.
  print: {
    marginPx: 0,
    titlePx: 14.7,
    titleLeadingPx: 18,
    deckPx: 10.7,
    deckLeadingPx: 13.5,
    axisPx: 9.4,
    labelPx: 9.8,
    labelLeadingPx: 12,
    footPx: 9.4,
    footLeadingPx: 11.8,
    plotHeightPx: 200,
    labelLimitPx: 84,
  },
  square: { ...CROP, titlePx: 20, titleLeadingPx: 24, plotHeightPx: 156 },
  portrait: { ...CROP, titlePx: 22, titleLeadingPx: 26, plotHeightPx: 222 },
  story: { ...CROP, titlePx: 25, titleLeadingPx: 29.5, plotHeightPx: 240 },
  landscape: { ...CROP, titlePx: 20, titleLeadingPx: 24, plotHeightPx: 196 },
};

/** Left of the plot of a 16:9 picture stands a column of words this wide, with its gutter, px. */
export const LANDSCAPE_COLUMN_PX = 172;

/** What is left for axes and plot between the margins, px. */
export const plotWidthPx = (layout: FigureLayout): number =>
  FIGURE_WIDTH_PX[layout] - 2 * SIZES[layout].marginPx - (layout === 'landscape' ? LANDSCAPE_COLUMN_PX : 0);

/** Hue and dash of a series; more than there are start over, so no figure draws more in one plot. */
export function seriesStyle(index: number): { readonly colour: string; readonly dash: number[] } {
  const style = SERIES[index % SERIES.length]!;
  return { colour: style.colour, dash: [...style.dash] };
}

/** Most series one plot draws. */
export const MOST_SERIES = SERIES.length;

/** The configuration vega-lite compiles every figure with. */
export function vegaConfig(layout: FigureLayout): Config {
  const { axisPx, labelPx } = SIZES[layout];
  return {
    // The whole picture carries one alternative text; marks one by one would only be read out as noise.
    aria: false,
    background: 'transparent',
    padding: 0,
    font: FACE.chart,
    view: { stroke: null },
    axis: {
      labelFont: FACE.chart,
      labelFontSize: axisPx,
      labelColor: COLOUR.muted,
      labelPadding: 5,
      titleFont: FACE.chart,
      titleFontSize: axisPx,
      titleFontWeight: 400,
      titleColor: COLOUR.muted,
      domain: false,
      ticks: false,
      gridColor: COLOUR.hairline,
      gridWidth: 0.6,
      labelFlush: false,
    },
    axisX: {
      grid: false,
      domain: true,
      domainColor: COLOUR.ink,
      domainWidth: 0.8,
      ticks: true,
      tickColor: COLOUR.ink,
      tickWidth: 0.8,
      tickSize: 4,
      labelPadding: 4,
      titlePadding: 6,
      titleAnchor: 'end',
      titleAlign: 'right',
    },
    // The unit stands level above the numbers, where it is read without turning the head.
    axisY: { titleAngle: 0, titleAlign: 'left', titleAnchor: 'end', titleBaseline: 'bottom', titleY: -8 },
    line: { strokeWidth: 1.7, strokeCap: 'butt', strokeJoin: 'round' },
    rule: { strokeWidth: 0.8, color: COLOUR.ink },
    text: { font: FACE.chart, fontSize: labelPx, color: COLOUR.ink },
  };
}
