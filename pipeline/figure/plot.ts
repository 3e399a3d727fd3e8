/** The parts every plot is put together from, as vega-lite layers with their data inside. */
import type { TopLevelSpec } from 'vega-lite';
import { COLOUR } from '../look.ts';
import { localiseDigits } from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import type { FigureLayout } from './figure.ts';
import { plotWidthPx, SIZES } from './theme.ts';
import { type Point, thinLine } from './thin.ts';

/** One vega-lite layer; `plotSpec` gives it the shared axes. */
export type Layer = Readonly<Record<string, unknown>>;

export interface Axis {
  /** Unit, or quantity and unit; empty for no title. */
  readonly title: string;
  readonly from: number;
  readonly to: number;
  /** Absent: no axis is drawn. */
  readonly ticks?: readonly number[];
  readonly tickDecimals?: number;
}

export interface PlotParts {
  readonly x: Axis;
  readonly y: Axis;
  /** Inside the axes, px. */
  readonly heightPx: number;
  /** From back to front. */
  readonly layers: readonly Layer[];
}

/**
 * The whole plot: as wide as the layout gives, labels beyond the last tick included; as high as told.
 * Drawn coordinates are rounded to a thousandth of the axis, far below what paper shows.
 */
export function plotSpec(layout: FigureLayout, language: string, parts: PlotParts): TopLevelSpec {
  const spec = {
    autosize: { type: 'fit-x', contains: 'padding' },
    width: plotWidthPx(layout),
    height: parts.heightPx,
    data: { values: [] },
    encoding: {
      x: channel('x', parts.x, language),
      y: channel('y', parts.y, language),
    },
    layer: parts.layers,
  };
  return spec as unknown as TopLevelSpec;
}

function channel(field: 'x' | 'y', axis: Axis, language: string): Record<string, unknown> {
  return {
    field,
    type: 'quantitative',
    scale: { domain: [axis.from, axis.to], nice: false, zero: false },
    axis:
      axis.ticks === undefined
        ? null
        : {
            title: axis.title === '' ? null : axis.title,
            values: axis.ticks,
            labelExpr: tickText(axis.ticks, axis.tickDecimals ?? 0, language),
          },
  };
}

/** Finished texts for ticks: digits are rounded by the one rounding of the pipeline, not by the chart. */
function tickText(ticks: readonly number[], decimals: number, language: string): string {
  const texts = ticks.map(tick =>
    tick === 0 ? '0' : localiseDigits(roundToDecimals(tick, decimals), language),
  );
  return `${JSON.stringify(texts)}[indexof(${JSON.stringify(ticks)}, datum.value)]`;
}

/** A coordinate as it is written, to 0.0001 of its unit. */
export const drawn = (value: number): number => Math.round(value * 1e4) / 1e4;
/** Rows as a layer holds them. */
export const values = (rows: readonly object[]): Layer['data'] => ({ values: rows });
const rounded = (points: readonly Point[]): readonly Point[] =>
  points.map(({ x, y }) => ({ x: drawn(x), y: drawn(y) }));

/** A thinned line in one colour and dash. */
export function lineLayer(
  points: readonly Point[],
  axes: { readonly x: Axis; readonly y: Axis },
  style: {
    readonly colour: string;
    readonly dash?: readonly number[];
    readonly width?: number;
    readonly opacity?: number;
  },
): Layer {
  // A quarter of a pixel on the wide layout: below what can be seen.
  const tolerance = { x: (axes.x.to - axes.x.from) / 2600, y: (axes.y.to - axes.y.from) / 1300 };
  return {
    mark: {
      type: 'line',
      color: style.colour,
      ...(style.dash === undefined || style.dash.length === 0 ? {} : { strokeDash: style.dash }),
      ...(style.width === undefined ? {} : { strokeWidth: style.width }),
      ...(style.opacity === undefined ? {} : { strokeOpacity: style.opacity }),
    },
    encoding: { order: { value: null } },
    data: values(rounded(thinLine(points, tolerance))),
  };
}

/** From (x, y) to (x2, y2). */
export interface Line extends Point {
  readonly x2: number;
  readonly y2: number;
}

/** Straight lines. */
export function ruleLayer(
  lines: readonly Line[],
  style: { readonly colour?: string; readonly width?: number; readonly dash?: readonly number[] } = {},
): Layer {
  return {
    mark: {
      type: 'rule',
      color: style.colour ?? COLOUR.ink,
      strokeWidth: style.width ?? 0.8,
      ...(style.dash === undefined ? {} : { strokeDash: style.dash }),
    },
    encoding: { x2: { field: 'x2' }, y2: { field: 'y2' } },
    data: values(
      lines.map(({ x, y, x2, y2 }) => ({ x: drawn(x), y: drawn(y), x2: drawn(x2), y2: drawn(y2) })),
    ),
  };
}

/** A filled area between (x, y) and (x2, y2). */
export function areaLayer(
  boxes: readonly Line[],
  style: { readonly colour: string; readonly opacity: number },
): Layer {
  return {
    mark: { type: 'rect', color: style.colour, opacity: style.opacity },
    encoding: { x2: { field: 'x2' }, y2: { field: 'y2' } },
    data: values(boxes),
  };
}

/** A band between two lines over x. */
export function bandLayer(
  rows: readonly { readonly x: number; readonly y: number; readonly y2: number }[],
  style: { readonly colour: string; readonly opacity: number },
): Layer {
  return {
    mark: { type: 'area', color: style.colour, opacity: style.opacity },
    encoding: { y2: { field: 'y2' } },
    data: values(rows.map(({ x, y, y2 }) => ({ x: drawn(x), y: drawn(y), y2: drawn(y2) }))),
  };
}

/** Round marks; `hollow` shows paper inside. `areaPx` is their area as vega counts it. */
export function dotLayer(
  points: readonly Point[],
  style: {
    readonly colour: string;
    readonly areaPx: number;
    readonly hollow?: boolean;
    readonly width?: number;
  },
): Layer {
  return {
    mark: {
      type: 'point',
      shape: 'circle',
      size: style.areaPx,
      filled: true,
      fill: style.hollow === true ? COLOUR.paper : style.colour,
      stroke: style.colour,
      strokeWidth: style.width ?? (style.hollow === true ? 1.3 : 0),
      opacity: 1,
    },
    data: values(rounded(points)),
  };
}

export interface Label extends Point {
  readonly text: string;
  readonly colour?: string;
}

export interface LabelStyle {
  readonly align: 'left' | 'center' | 'right';
  readonly baseline?: 'top' | 'middle' | 'bottom' | 'alphabetic';
  readonly dx?: number;
  readonly dy?: number;
  readonly sizePx: number;
  readonly weight?: 400 | 600;
  readonly limitPx?: number;
  /** Paper around the letters, where lines pass behind them. */
  readonly halo?: boolean;
}

/** Words in the plot. A label may be longer than the plot is wide to the right: the plot then narrows. */
export function labelLayers(labels: readonly Label[], style: LabelStyle): readonly Layer[] {
  const mark = {
    type: 'text',
    align: style.align,
    baseline: style.baseline ?? 'middle',
    fontSize: style.sizePx,
    ...(style.dx === undefined ? {} : { dx: style.dx }),
    ...(style.dy === undefined ? {} : { dy: style.dy }),
    ...(style.weight === undefined ? {} : { fontWeight: style.weight }),
    ...(style.limitPx === undefined ? {} : { limit: style.limitPx }),
  };
  const data = values(
    labels.map(({ x, y, text, colour }) => ({
      x: drawn(x),
      y: drawn(y),
      text,
      colour: colour ?? COLOUR.ink,
    })),
  );
  const encoding = { text: { field: 'text', type: 'nominal' } };
  return [
    ...(style.halo === true
      ? [
          {
            mark: {
              ...mark,
              color: COLOUR.paper,
              stroke: COLOUR.paper,
              strokeWidth: 3.5,
              strokeJoin: 'round',
            },
            encoding,
            data,
          },
        ]
      : []),
    { mark, encoding: { ...encoding, color: { field: 'colour', type: 'nominal', scale: null } }, data },
  ];
}

/** The level of the headline speed across a plot over time or distance, with what is read where a line crosses it. */
export function headlineLevel(
  from: number,
  to: number,
  speed: number,
  text: string,
  layout: FigureLayout,
): readonly Layer[] {
  return [
    ruleLayer([{ x: from, x2: to, y: speed, y2: speed }], { colour: COLOUR.ink, width: 0.7 }),
    ...labelLayers([{ x: from, y: speed, text, colour: COLOUR.muted }], {
      align: 'left',
      baseline: 'bottom',
      dx: 2,
      dy: -4,
      sizePx: SIZES[layout].axisPx,
    }),
  ];
}
