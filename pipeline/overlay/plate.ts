/** The plate that every lower third is set on: its content, how large it may be, and its picture. */
import type { Lettering } from '../lettering/lettering.ts';
import { tooMuchText } from '../problems/overlay.ts';
import { marksToSvg } from './marks.ts';
import type { FrameSize, MadeOverlay } from './overlay.ts';
import { layOutPlate, type PlateLayout } from './plate-layout.ts';
import { type PixelArea, safeArea } from './safe-area.ts';

/** One number with its uncertainty, large. */
export interface HeadlineBody {
  readonly body: 'headline';
  readonly head: string;
  readonly value: string;
  readonly unit: string;
  readonly uncertainty?: string;
}

/** Several numbers side by side. */
export interface ColumnsBody {
  readonly body: 'columns';
  readonly columns: readonly Column[];
}

export interface Column {
  readonly head: string;
  readonly value: string;
  readonly unit: string;
  /** Uncertainty first, then what else must be said of this number alone. */
  readonly notes: readonly string[];
  /** Set in the accent colour; at most one of a plate. */
  readonly strong?: boolean;
}

export interface ProseBody {
  readonly body: 'prose';
  readonly text: string;
}

export interface PlateContent {
  /** The small letter-spaced line at the top: the publication. */
  readonly label: string;
  readonly title: string;
  readonly subtitle?: string;
  readonly content: HeadlineBody | ColumnsBody | ProseBody;
  /** Phrases under the number: start rule, count, uncertainty, conditions; the most needed first. */
  readonly foot: readonly string[];
}

/** A plate may take the lower quarter of the picture, inside the graphics-safe area. */
export function plateArea(size: FrameSize): PixelArea {
  const safe = safeArea(size, 'graphics');
  return { ...safe, topPx: Math.max(safe.topPx, Math.ceil(size.heightPx * 0.75)) };
}

const UPRIGHT = 1.14;
/** Steps by which a plate that is too large is set smaller. */
const SHRINK = 0.97;
/** Share of the usual size below which a plate is told to be too small. */
const LEGIBLE = 0.7;
/** Share of the usual size below which lines are cut instead. */
const SMALLEST = 0.5;

export interface FittedPlate extends PlateLayout {
  /** Smaller than it is meant to be read. */
  readonly small: boolean;
}

/** The plate as large as its area allows: at its usual size where it fits, otherwise smaller throughout. */
export function fitPlate(content: PlateContent, size: FrameSize, lettering: Lettering): FittedPlate {
  const area = plateArea(size);
  const widthPx = area.rightPx - area.leftPx;
  const heightPx = area.bottomPx - area.topPx;
  // One unit is one pixel of a picture 1080 px on its shorter side; upright pictures are seen smaller.
  const tall = size.heightPx > size.widthPx;
  const usualPx = (Math.min(size.widthPx, size.heightPx) / 1080) * (tall ? UPRIGHT : 1);
  const layOut = (scale: number, upright: boolean): PlateLayout =>
    layOutPlate(content, { unitPx: usualPx * scale, widthPx, upright, lettering });
  const fits = (layout: PlateLayout): boolean => layout.heightPx <= heightPx && layout.widthPx <= widthPx;
  for (let scale = 1; scale >= SMALLEST; scale *= SHRINK) {
    for (const upright of [tall, !tall]) {
      const layout = layOut(scale, upright);
      if (fits(layout) && !layout.cut) return { ...layout, small: scale < LEGIBLE };
    }
  }
  // Nothing whole fits: the largest size at which the plate keeps to its area, with lines cut.
  for (let scale = 1; scale > 0.2; scale *= SHRINK) {
    const layout = layOut(scale, tall);
    if (fits(layout)) return { ...layout, small: scale < LEGIBLE };
  }
  throw new RangeError(`A plate does not fit into ${size.name}`);
}

/** A complete SVG of the frame's size with the plate at the lower left of its area. */
export function plateToSvg(content: PlateContent, size: FrameSize, lettering: Lettering): string {
  const area = plateArea(size);
  const layout = fitPlate(content, size, lettering);
  const marks = marksToSvg(layout.marks, area.leftPx, area.bottomPx - layout.heightPx, lettering);
  const { widthPx, heightPx } = size;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}" viewBox="0 0 ${widthPx} ${heightPx}">\n${marks}\n</svg>\n`;
}

/** An overlay that is one plate. */
export function plateOverlay(
  { kind, name, altText }: Pick<MadeOverlay, 'kind' | 'name' | 'altText'>,
  content: PlateContent,
): MadeOverlay {
  return {
    kind,
    name,
    altText,
    svg: (size, lettering) => plateToSvg(content, size, lettering),
    problems(size, lettering) {
      const { cut, small } = fitPlate(content, size, lettering);
      return cut || small ? [tooMuchText(name, size.name, cut)] : [];
    },
  };
}
