/**
 * Safe areas of a picture: where nothing is lost to a screen that cuts the edges.
 *
 * EBU R 95: 3.5 % of each edge for action, 5 % for graphics. SMPTE ST 2046-1 states the same areas as
 * 93 % and 90 % of width and height. Edges off the pixel grid are rounded inwards, so that the area is never too large.
 */
import type { FrameSize } from './overlay.ts';

export type SafeArea = 'action' | 'graphics';

/** Margin at each edge, thousandths of that side's length: whole numbers, so that 5 % of 1080 is 54 exactly. */
const MARGIN_PER_MILLE: Readonly<Record<SafeArea, number>> = { action: 35, graphics: 50 };

/** Whole pixels; `rightPx` and `bottomPx` are the first ones outside. */
export interface PixelArea {
  readonly leftPx: number;
  readonly topPx: number;
  readonly rightPx: number;
  readonly bottomPx: number;
}

/** Margins before rounding, px: left and right, top and bottom. */
export function safeMarginPx(
  size: FrameSize,
  area: SafeArea,
): { readonly xPx: number; readonly yPx: number } {
  const perMille = MARGIN_PER_MILLE[area];
  return { xPx: (size.widthPx * perMille) / 1000, yPx: (size.heightPx * perMille) / 1000 };
}

/** The safe area in whole pixels, rounded inwards. */
export function safeArea(size: FrameSize, area: SafeArea): PixelArea {
  const margin = safeMarginPx(size, area);
  const xPx = Math.ceil(margin.xPx);
  const yPx = Math.ceil(margin.yPx);
  return { leftPx: xPx, topPx: yPx, rightPx: size.widthPx - xPx, bottomPx: size.heightPx - yPx };
}
