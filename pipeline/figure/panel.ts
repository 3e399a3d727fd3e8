/** Plots put together from several panels: all in px from the top left of the plot. */
import { COLOUR } from '../look.ts';
import { localiseDigits } from '../result/words.ts';
import { roundToDecimals } from '../round.ts';
import { type Axis, type Label, type Layer, labelLayers, ruleLayer } from './plot.ts';
import type { Point } from './thin.ts';

/** Width of an average character as a share of the type's size, on the wide side. */
export const CHARACTER_SHARE = 0.56;
/** About how wide some words will be, px; on the wide side. */
export const aboutPx = (text: string, sizePx: number): number => text.length * sizePx * CHARACTER_SHARE;

/** A rectangle with scales of its own. */
export interface Panel {
  readonly left: number;
  readonly top: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Left to right. */
  readonly x: { readonly from: number; readonly to: number };
  /** Bottom to top. */
  readonly y: { readonly from: number; readonly to: number };
}

/** Axes of a plot whose coordinates are px, y downward; neither is drawn. */
export const pxAxes = (widthPx: number, heightPx: number): { readonly x: Axis; readonly y: Axis } => ({
  x: { title: '', from: 0, to: widthPx },
  y: { title: '', from: heightPx, to: 0 },
});

/** A value's place in the plot. */
export const placeIn = (
  { left, top, widthPx, heightPx, x, y }: Panel,
  point: Point,
): { readonly x: number; readonly y: number } => ({
  x: left + ((point.x - x.from) / (x.to - x.from)) * widthPx,
  y: top + ((y.to - point.y) / (y.to - y.from)) * heightPx,
});

/** Hairlines across a panel at its ticks, and their numbers left of it. */
export function gridLayers(
  panel: Panel,
  ticks: readonly number[],
  style: { readonly decimals: number; readonly sizePx: number; readonly language: string },
): readonly Layer[] {
  const at = ticks.map(tick => ({ tick, y: placeIn(panel, { x: panel.x.from, y: tick }).y }));
  return [
    ruleLayer(
      at.map(({ y }) => ({ x: panel.left, x2: panel.left + panel.widthPx, y, y2: y })),
      { colour: COLOUR.hairline, width: 0.6 },
    ),
    ...labelLayers(
      at.map(({ tick, y }) => ({
        x: panel.left,
        y,
        text: tick === 0 ? '0' : localiseDigits(roundToDecimals(tick, style.decimals), style.language),
        colour: COLOUR.muted,
      })),
      { align: 'right', dx: -5, sizePx: style.sizePx },
    ),
  ];
}

/** The axis along the bottom of a panel with finished texts; words that would touch are left out. */
export function bottomAxisLayers(
  panel: Panel,
  ticks: readonly { readonly value: number; readonly text: string }[],
  sizePx: number,
): readonly Layer[] {
  const bottom = panel.top + panel.heightPx;
  const labels: Label[] = [];
  const marks: { x: number; x2: number; y: number; y2: number }[] = [];
  let free = Number.NEGATIVE_INFINITY;
  for (const { value, text } of ticks) {
    const { x } = placeIn(panel, { x: value, y: panel.y.from });
    marks.push({ x, x2: x, y: bottom, y2: bottom + 4 });
    const half = aboutPx(text, sizePx) / 2;
    if (x - half < free) continue;
    free = x + half + 6;
    // Words at the left end stay inside.
    labels.push({ x: Math.max(x, half), y: bottom + 7, text, colour: COLOUR.muted });
  }
  return [
    ruleLayer([{ x: panel.left, x2: panel.left + panel.widthPx, y: bottom, y2: bottom }], { width: 0.8 }),
    ruleLayer(marks, { width: 0.8 }),
    ...labelLayers(labels, { align: 'center', baseline: 'top', sizePx }),
  ];
}
