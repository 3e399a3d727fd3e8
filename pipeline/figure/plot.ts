/** The parts every plot is put together from, as vega-lite layers with their data inside. */
import type { TopLevelSpec } from 'vega-lite';
import { COLOUR } from '../look.ts';
import { localiseDigits } from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import type { FigureLayout } from './figure.ts';
import { moveApart } from './move-apart.ts';
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

/** Whole multiples of `step` from `from` to `to`. */
export function ticksEvery(step: number, from: number, to: number): readonly number[] {
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, nth) =>
    Number(((first + nth) * step).toPrecision(12)),
  );
}

const STEPS = [1, 2, 5] as const;

/** The smallest of 1, 2, 5 times a power of ten (20, 0.5 …) that gives at most `most` ticks over a span. */
export function roundStep(span: number, most: number): number {
  if (!(span > 0)) return 1;
  for (let power = Math.floor(Math.log10(span)) - 3; ; power += 1) {
    for (const step of STEPS) {
      const size = Number((step * 10 ** power).toPrecision(12));
      if (span / size <= most) return size;
    }
  }
}

/** The next multiple of a step at or above a value. */
export const upTo = (value: number, step: number): number =>
  Number((Math.ceil(value / step - 1e-9) * step).toPrecision(12));

/** The next multiple of a step at or below a value. */
export const downTo = (value: number, step: number): number =>
  Number((Math.floor(value / step + 1e-9) * step).toPrecision(12));

/** Decimals a step is written with: 0 for 2, 1 for 0.5. */
export const stepDecimals = (step: number): number => (String(step).split('.')[1] ?? '').length;

const drawn = (value: number): number => Math.round(value * 1e4) / 1e4;
const values = (rows: readonly object[]): Layer['data'] => ({ values: rows });
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

/** Straight lines, each from (x, y) to (x2, y2). */
export function ruleLayer(
  lines: readonly (Point & { readonly x2: number; readonly y2: number })[],
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
  boxes: readonly (Point & { readonly x2: number; readonly y2: number })[],
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

export interface EndLabel {
  /** Where the line ends. */
  readonly end: Point;
  readonly name: string;
  readonly detail?: string;
  readonly colour: string;
}

/**
 * Labels in a column right of the plot, level with the ends of their lines and moved apart where they would
 * touch; a hairline leads to each from its line's end.
 */
export function endLabelLayers(
  labels: readonly EndLabel[],
  axes: { readonly x: Axis; readonly y: Axis },
  heightPx: number,
  layout: FigureLayout,
): readonly Layer[] {
  const { labelPx, labelLeadingPx, labelLimitPx } = SIZES[layout];
  const span = axes.y.to - axes.y.from;
  const toPx = (y: number) => ((axes.y.to - y) / span) * heightPx;
  const toY = (px: number) => axes.y.to - (px / heightPx) * span;
  const blocks = labels.map(label => ({
    ...label,
    lines: [
      ...labelLines(label.name, layout).map(text => ({ text, weight: 600 as const })),
      ...(label.detail === undefined ? [] : [{ text: label.detail, weight: 400 as const }]),
    ],
  }));
  const tallest = Math.max(1, ...blocks.map(({ lines }) => lines.length));
  const places = moveApart(
    blocks.map(({ end }) => toPx(end.y)),
    tallest * labelLeadingPx + BETWEEN_LABELS_PX,
    (tallest * labelLeadingPx) / 2 - labelLeadingPx,
    heightPx - (tallest * labelLeadingPx) / 2 + labelLeadingPx / 2,
  );
  const lines = blocks.flatMap((block, index) =>
    block.lines.map(({ text, weight }, nth) => ({
      x: axes.x.to,
      y: toY(places[index]! + (nth - (block.lines.length - 1) / 2) * labelLeadingPx),
      text,
      weight,
      colour: block.colour,
    })),
  );
  const leaders = blocks.map((block, index) => ({
    end: block.end,
    colour: block.colour,
    y: toY(places[index]!),
  }));
  const style = {
    align: 'left' as const,
    dx: LEADER_PX + 4,
    sizePx: labelPx,
    limitPx: labelLimitPx,
  };
  return [
    ...leaders.map(({ end, y, colour }) => leaderLayer(end, axes.x.to, y, colour)),
    ...labelLayers(
      lines.filter(({ weight }) => weight === 600),
      { ...style, weight: 600 },
    ),
    ...labelLayers(
      lines.filter(({ weight }) => weight === 400),
      style,
    ),
  ];
}

const BETWEEN_LABELS_PX = 5;
/** Width of the strip between plot and labels in which the leaders bend. */
const LEADER_PX = 14;

/** From the line's end level to the edge of the plot, then across the strip to the label. */
function leaderLayer(end: Point, edgeX: number, labelY: number, colour: string): Layer {
  return {
    layer: [
      ...(edgeX - end.x > 1e-9
        ? [
            {
              mark: { type: 'rule', color: colour, strokeWidth: 0.6, strokeDash: [1, 2] },
              encoding: { x2: { field: 'x2' } },
              data: values([{ x: drawn(end.x), y: drawn(end.y), x2: drawn(edgeX) }]),
            },
          ]
        : []),
      {
        mark: { type: 'rule', color: colour, strokeWidth: 0.7, xOffset: 2, x2Offset: LEADER_PX },
        encoding: { x2: { field: 'x2' }, y2: { field: 'y2' } },
        data: values([{ x: drawn(edgeX), y: drawn(end.y), x2: drawn(edgeX), y2: drawn(labelY) }]),
      },
    ],
  };
}

/** Longest line of a label on the narrow layout, characters. */
const NARROW_CHARACTERS = 13;

/** A name on one line, or on two where the layout is narrow and it has a space to break at. */
function labelLines(name: string, layout: FigureLayout): readonly string[] {
  if (layout === 'wide' || name.length <= NARROW_CHARACTERS) return [name];
  const words = name.split(' ');
  let best: readonly string[] = [name];
  let shortest = name.length;
  for (let cut = 1; cut < words.length; cut += 1) {
    const lines = [words.slice(0, cut).join(' '), words.slice(cut).join(' ')];
    const longest = Math.max(...lines.map(line => line.length));
    if (longest < shortest) {
      shortest = longest;
      best = lines;
    }
  }
  return best;
}
