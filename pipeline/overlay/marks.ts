/** What a plate is drawn with: filled rectangles, outlined text in one of the named inks, and a picture. */
import { GROUND_ALPHA, PLAIN_COLOURS, type PlateColours } from '../house-look.ts';
import type { Lettering, TextStyle } from '../lettering/lettering.ts';

/** Grounds, and what may stand on them. */
export type Ink = 'paper' | 'slate' | 'ink' | 'muted' | 'accent' | 'hairline' | 'onSlate' | 'onAccent';

interface InkValue {
  readonly colour: string;
  readonly alpha: number;
}

export type Inks = Readonly<Record<Ink, InkValue>>;

/**
 * Grounds let a little of the picture through, so that they sit in it rather than on it;
 * text is opaque. Contrast holds over white and over black pictures alike.
 */
export function coloursToInks(colours: PlateColours): Inks {
  const opaque = (colour: string): InkValue => ({ colour, alpha: 1 });
  return {
    paper: { colour: colours.ground, alpha: GROUND_ALPHA.ground },
    slate: { colour: colours.foot_ground, alpha: GROUND_ALPHA.foot_ground },
    ink: opaque(colours.text),
    muted: opaque(colours.quiet_text),
    accent: opaque(colours.accent),
    hairline: opaque(colours.hairline),
    onSlate: opaque(colours.foot_text),
    // The accent can be read on the ground, so the ground can be read on the accent.
    onAccent: opaque(colours.ground),
  };
}

/** The inks of a house that sets no colours. */
export const INKS: Inks = coloursToInks(PLAIN_COLOURS);

/** The ground each text ink is set on. */
export const GROUND_OF: Readonly<
  Record<'ink' | 'muted' | 'accent' | 'onSlate' | 'onAccent', 'paper' | 'slate' | 'accent'>
> = {
  ink: 'paper',
  muted: 'paper',
  accent: 'paper',
  onSlate: 'slate',
  onAccent: 'accent',
};

/** Lengths in px from the plate's own top left corner. */
export type Mark = RectangleMark | TextMark | PictureMark;

/** A PNG made by this program; never a file as it came. */
export interface PictureMark {
  readonly mark: 'picture';
  readonly xPx: number;
  readonly yPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly pngBase64: string;
}

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
export function marksToSvg(
  marks: readonly Mark[],
  x: number,
  y: number,
  lettering: Lettering,
  inks: Inks = INKS,
): string {
  return marks
    .map(mark => {
      if (mark.mark === 'text') return textToSvg(mark, x, y, lettering, inks);
      return mark.mark === 'picture' ? pictureToSvg(mark, x, y) : rectangleToSvg(mark, x, y, inks);
    })
    .join('\n');
}

function fill(ink: Ink, inks: Inks): string {
  const { colour, alpha } = inks[ink];
  return alpha === 1 ? `fill="${colour}"` : `fill="${colour}" fill-opacity="${alpha}"`;
}

/** Whole pixels: an edge between two rows would be drawn half strong, and could touch a row outside the area. */
function wholePixels(mark: RectangleMark | PictureMark, x: number, y: number): string {
  const left = Math.round(x + mark.xPx);
  const top = Math.round(y + mark.yPx);
  const width = Math.max(1, Math.round(x + mark.xPx + mark.widthPx) - left);
  const height = Math.max(1, Math.round(y + mark.yPx + mark.heightPx) - top);
  return `x="${left}" y="${top}" width="${width}" height="${height}"`;
}

const rectangleToSvg = (mark: RectangleMark, x: number, y: number, inks: Inks): string =>
  `<rect ${wholePixels(mark, x, y)} ${fill(mark.ink, inks)}/>`;

const pictureToSvg = (mark: PictureMark, x: number, y: number): string =>
  `<image ${wholePixels(mark, x, y)} href="data:image/png;base64,${mark.pngBase64}"/>`;

function textToSvg(mark: TextMark, x: number, y: number, lettering: Lettering, inks: Inks): string {
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
  return `<path d="${path}" ${fill(mark.ink, inks)}/>`;
}
