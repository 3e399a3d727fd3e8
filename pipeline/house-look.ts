/** The colours of plates as a house sets them, and whether its text can be read over any picture. */
import { contrastRatio, hexToRgb, rgbToHex } from './colour.ts';
import { COLOUR } from './look.ts';

/** What house.yaml may say of colours, each `#rrggbb`. */
export interface LookColours {
  readonly ground?: string | undefined;
  readonly text?: string | undefined;
  readonly quiet_text?: string | undefined;
  readonly accent?: string | undefined;
  readonly foot_ground?: string | undefined;
  readonly foot_text?: string | undefined;
}
export type LookField = keyof LookColours;

export interface PlateColours extends Readonly<Record<LookField, string>> {
  /** Between columns: decoration, never text. */
  readonly hairline: string;
}

/** What is used for a field that house.yaml leaves out. */
export const PLAIN_COLOURS: PlateColours = {
  ground: COLOUR.paper,
  text: COLOUR.ink,
  quiet_text: COLOUR.muted,
  accent: COLOUR.accent,
  foot_ground: COLOUR.slate,
  foot_text: COLOUR.paper,
  hairline: COLOUR.hairline,
};

/** How much of the picture each ground keeps out: enough to read over snow and over night. */
export const GROUND_ALPHA = { ground: 0.96, foot_ground: 0.94 } as const;

/** WCAG 2.2, 1.4.3, for text. */
export const LEAST_CONTRAST = 4.5;

/** Share of the text colour in a hairline on a ground of the house's own. */
const HAIRLINE_SHARE = 0.22;

/** The house's colours with the plain ones where it sets none. */
export function plateColours(look: LookColours = {}): PlateColours {
  const set = Object.fromEntries(
    Object.entries(look).filter(([key, value]) => key in PLAIN_COLOURS && value),
  );
  const colours: PlateColours = { ...PLAIN_COLOURS, ...set };
  return colours.ground === PLAIN_COLOURS.ground && colours.text === PLAIN_COLOURS.text
    ? colours
    : { ...colours, hairline: mixed(colours.text, colours.ground, HAIRLINE_SHARE) };
}

/** A colour laid over another with this opacity, mixed as video programs mix: in the coded values. */
export function mixed(over: string, under: string, alpha: number): string {
  const below = hexToRgb(under);
  const [r, g, b] = hexToRgb(over).map((value, at) => value * alpha + below[at]! * (1 - alpha));
  return rgbToHex([r!, g!, b!]);
}

/** Each text with the ground it stands on. */
const TEXT_ON: readonly (readonly [text: LookField, ground: keyof typeof GROUND_ALPHA])[] = [
  ['text', 'ground'],
  ['quiet_text', 'ground'],
  ['accent', 'ground'],
  ['foot_text', 'foot_ground'],
];

export interface LookContrast {
  readonly text: LookField;
  readonly ground: LookField;
  /** The lower of both over a white and over a black picture. */
  readonly ratio: number;
}

/** Contrast of every text with its ground, over the picture it is worse over. */
export function lookContrasts(colours: PlateColours): readonly LookContrast[] {
  return TEXT_ON.map(([text, ground]) => ({
    text,
    ground,
    ratio: Math.min(
      ...['#ffffff', '#000000'].map(picture =>
        contrastRatio(colours[text], mixed(colours[ground], picture, GROUND_ALPHA[ground])),
      ),
    ),
  }));
}
