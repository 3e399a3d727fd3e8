/** A part of a plate: marks with the room they take, and the few marks that every part is made of. */
import type { FaceId, Lettering, TextStyle, Weight } from '../lettering/lettering.ts';
import type { Mark, TextMark } from './marks.ts';
import type { PlateTheme } from './theme.ts';

export interface PlateRoom {
  /** Length of one unit, px. */
  readonly unitPx: number;
  readonly widthPx: number;
  /** Taller than wide: head above the numbers instead of beside them. */
  readonly upright: boolean;
  readonly lettering: Lettering;
  /** About as wide as tall: head on one line, above all numbers in one row. */
  readonly compact?: boolean;
  /** Plain where absent. */
  readonly theme?: PlateTheme;
}

/** Marks of one part of a plate, from that part's own top left corner, and the room they take. */
export interface Block {
  readonly marks: readonly Mark[];
  readonly widthPx: number;
  readonly heightPx: number;
  readonly cut: boolean;
}

/** The room with type set in its units. */
export type Layer = PlateRoom & {
  readonly style: (face: FaceId, weight: Weight, units: number) => TextStyle;
};

/** Between head and numbers, and between columns, units. */
export const GAP = 56;
/** Between the last baseline of a part and its lower edge, units. */
export const HEAD_BOTTOM = 21;
/** Between two facts on one line. */
export const FOOT_BETWEEN = '\u2002·\u2002';

/** A line of text from the start of its baseline. */
export const textMark = (
  text: string,
  style: TextStyle,
  xPx: number,
  yPx: number,
  ink: TextMark['ink'],
): TextMark => ({ mark: 'text', text, style, xPx, yPx, ink });

/** A filled rectangle. */
export const rectangle = (
  xPx: number,
  yPx: number,
  widthPx: number,
  heightPx: number,
  ink: 'paper' | 'slate' | 'accent' | 'hairline',
): Mark => ({ mark: 'rectangle', xPx, yPx, widthPx, heightPx, ink });

/** A hairline between two columns, with air above and below. */
export const verticalHairline = (xPx: number, heightPx: number, unitPx: number, airUnits = 24): Mark =>
  rectangle(
    xPx,
    airUnits * unitPx,
    Math.max(1, Math.round(1.5 * unitPx)),
    heightPx - (airUnits + 18) * unitPx,
    'hairline',
  );

/** A hairline over the whole width. */
export const horizontalHairline = (yPx: number, widthPx: number, unitPx: number): Mark =>
  rectangle(0, yPx, widthPx, Math.max(1, Math.round(1.5 * unitPx)), 'hairline');

/** The same marks elsewhere. */
export const moved = (marks: readonly Mark[], xPx: number, yPx: number): readonly Mark[] =>
  marks.map(mark => ({ ...mark, xPx: mark.xPx + xPx, yPx: mark.yPx + yPx }));
