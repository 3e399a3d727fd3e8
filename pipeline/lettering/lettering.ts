/** Text measured and outlined by one shaper, so that a label is as wide in the layout as it is on the picture. */
import type { Problem } from '../problem.ts';

export type Weight = 400 | 600 | 700;
export type FaceId = 'sans' | 'serif';

export interface TextStyle {
  readonly face: FaceId;
  readonly weight: Weight;
  readonly sizePx: number;
}

/** A glyph on its line; lengths in steps of an em (`stepsPerEm`), y downwards. */
export interface LetteredGlyph {
  /** The same for the same outline, whatever the text and its size: letters, digits and hyphens. */
  readonly name: string;
  readonly stepsPerEm: number;
  readonly x: number;
  readonly y: number;
  /** SVG path data from the glyph's own origin. */
  outline(): string;
}

export interface Lettering {
  /** Advance width in px, tabular digits, kerning as the font says. */
  width(text: string, style: TextStyle): number;
  /** SVG path data with the text's baseline starting at (x, y). */
  path(text: string, style: TextStyle, x: number, y: number): string;
  /**
   * Lines, each with its baseline starting at a place in px, as one path in whole hundredths of a px, each point
   * relative to the one before.
   */
  compactPath(
    lines: readonly { readonly text: string; readonly x: number; readonly y: number }[],
    style: TextStyle,
  ): string;
  /** The glyphs of a line in their order, so that each outline needs to be written only once. */
  glyphs(text: string, style: TextStyle): readonly LetteredGlyph[];
  /** Ascent and descent in px, both positive. */
  metrics(style: TextStyle): { readonly ascentPx: number; readonly descentPx: number };
  /** Characters of `text` that no font file of the face has; they are drawn as a plain box. */
  missing(text: string, style: TextStyle): readonly string[];
  /** One warning for each missing character measured or drawn so far, in the order met. */
  problems(): readonly Problem[];
}
