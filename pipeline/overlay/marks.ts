/** What a plate is drawn with: filled rectangles and outlined text, each in one of the named inks. */
import type { Lettering, TextStyle } from '../lettering/lettering.ts';
import { COLOUR } from '../look.ts';

/** Grounds, and what may stand on them. */
export type Ink = 'paper' | 'slate' | 'ink' | 'muted' | 'accent' | 'hairline' | 'onSlate';

interface InkValue {
  readonly colour: string;
  readonly alpha: number;
}

/**
 * Grounds let a little of the picture through, so that they sit in it rather than on it;
 * text is opaque. Contrast holds over white and over black pictures alike.
 */
export const INKS: Readonly<Record<Ink, InkValue>> = {
  paper: { colour: COLOUR.paper, alpha: 0.96 },
  slate: { colour: COLOUR.slate, alpha: 0.94 },
  ink: { colour: COLOUR.ink, alpha: 1 },
  muted: { colour: COLOUR.muted, alpha: 1 },
  accent: { colour: COLOUR.accent, alpha: 1 },
  hairline: { colour: COLOUR.hairline, alpha: 1 },
  onSlate: { colour: COLOUR.paper, alpha: 1 },
};

/** The ground each text ink is set on. */
export const GROUND_OF: Readonly<Record<'ink' | 'muted' | 'accent' | 'onSlate', 'paper' | 'slate'>> = {
  ink: 'paper',
  muted: 'paper',
  accent: 'paper',
  onSlate: 'slate',
};

/** Lengths in px from the plate's own top left corner. */
export type Mark = RectangleMark | TextMark;

export interface RectangleMark {
  readonly mark: 'rectangle';
  readonly xPx: number;
  readonly yPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly ink: Ink;
}

export interface TextMark {
  readonly mark: 'text';
  readonly text: string;
  readonly style: TextStyle;
  /** Start of the baseline. */
  readonly xPx: number;
  readonly yPx: number;
  readonly ink: keyof typeof GROUND_OF;
  /** Extra space after each character, em. */
  readonly trackingEm?: number;
}

/** Width of text set with extra space after each character but the last, px. */
export function trackedWidth(
  text: string,
  style: TextStyle,
  trackingEm: number,
  lettering: Lettering,
): number {
  const characters = [...text];
  const advance = characters.reduce((sum, character) => sum + lettering.width(character, style), 0);
  return advance + Math.max(0, characters.length - 1) * trackingEm * style.sizePx;
}

/** The marks as SVG elements, moved by (x, y). Text becomes paths; nothing of it is written as text. */
export function marksToSvg(marks: readonly Mark[], x: number, y: number, lettering: Lettering): string {
  return marks
    .map(mark => (mark.mark === 'text' ? textToSvg(mark, x, y, lettering) : rectangleToSvg(mark, x, y)))
    .join('\n');
}

function fill(ink: Ink): string {
  const { colour, alpha } = INKS[ink];
  return alpha === 1 ? `fill="${colour}"` : `fill="${colour}" fill-opacity="${alpha}"`;
}

function rectangleToSvg(mark: RectangleMark, x: number, y: number): string {
  // Whole pixels: an edge between two rows would be drawn half strong, and could touch a row outside the area.
  const left = Math.round(x + mark.xPx);
  const top = Math.round(y + mark.yPx);
  const width = Math.max(1, Math.round(x + mark.xPx + mark.widthPx) - left);
  const height = Math.max(1, Math.round(y + mark.yPx + mark.heightPx) - top);
  return `<rect x="${left}" y="${top}" width="${width}" height="${height}" ${fill(mark.ink)}/>`;
}

function textToSvg(mark: TextMark, x: number, y: number, lettering: Lettering): string {
  const { text, style, trackingEm } = mark;
  let path = '';
  if (trackingEm === undefined) {
    path = lettering.path(text, style, x + mark.xPx, y + mark.yPx);
  } else {
    let atPx = x + mark.xPx;
    for (const character of text) {
      path += lettering.path(character, style, atPx, y + mark.yPx);
      atPx += lettering.width(character, style) + trackingEm * style.sizePx;
    }
  }
  return `<path d="${path}" ${fill(mark.ink)}/>`;
}
