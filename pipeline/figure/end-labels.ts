/** Labels at the ends of lines, in a column beside the plot. */
import { type FigureLayout, isCrop } from './figure.ts';
import { moveApart } from './move-apart.ts';
import { type Axis, drawn, type Layer, labelLayers, values } from './plot.ts';
import { SIZES } from './theme.ts';
import type { Point } from './thin.ts';

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

/** Height of a plot beside whose lines these names stand with one more line each: the layout's own, or what they need. */
export function heightWithLabels(named: readonly { readonly name: string }[], layout: FigureLayout): number {
  const { plotHeightPx, labelLeadingPx } = SIZES[layout];
  // A picture of fixed shape has no more height to give.
  if (isCrop(layout)) return plotHeightPx;
  const tallest = Math.max(1, ...named.map(({ name }) => labelLines(name, layout).length + 1));
  return Math.max(
    plotHeightPx,
    named.length * (tallest * labelLeadingPx + BETWEEN_LABELS_PX) - labelLeadingPx,
  );
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
