/**
 * Safe areas of a picture: where nothing is lost to a screen that cuts the edges.
 *
 * EBU R 95 gives margins, 3.5 % of each edge for action and 5 % for graphics; SMPTE ST 2046-1 gives the areas,
 * 93 % and 90 % of width and height. Today they agree. Both are written for 16:9; other shapes take the same shares.
 * Edges off the pixel grid are rounded inwards, so that the area is never too large.
 */
import type { FrameSize } from './overlay.ts';

export type SafeArea = 'action' | 'graphics';

/** Whose areas are kept to, as house.yaml names them. */
export type SafeStandard = 'ebu-r95' | 'smpte-st-2046-1';

interface SafeShares {
  /** As the document is cited. */
  readonly name: string;
  /** Margin at each edge, thousandths of that side's length: whole numbers, so that 5 % of 1080 is 54 exactly. */
  readonly marginPerMille: Readonly<Record<SafeArea, number>>;
}

export const SAFE_STANDARDS: Readonly<Record<SafeStandard, SafeShares>> = {
  'ebu-r95': {
    name: 'EBU R 95',
    marginPerMille: { action: 35, graphics: 50 },
  },
  'smpte-st-2046-1': {
    name: 'SMPTE ST 2046-1',
    marginPerMille: { action: (1000 - 930) / 2, graphics: (1000 - 900) / 2 },
  },
};

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
  standard: SafeStandard = 'ebu-r95',
): { readonly xPx: number; readonly yPx: number } {
  const perMille = SAFE_STANDARDS[standard].marginPerMille[area];
  return { xPx: (size.widthPx * perMille) / 1000, yPx: (size.heightPx * perMille) / 1000 };
}

/** The safe area in whole pixels, rounded inwards. */
export function safeArea(size: FrameSize, area: SafeArea, standard: SafeStandard = 'ebu-r95'): PixelArea {
  const margin = safeMarginPx(size, area, standard);
  const xPx = Math.ceil(margin.xPx);
  const yPx = Math.ceil(margin.yPx);
  return { leftPx: xPx, topPx: yPx, rightPx: size.widthPx - xPx, bottomPx: size.heightPx - yPx };
}
