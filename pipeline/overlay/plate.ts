/** The plate that every lower third is set on: its content, how large it may be, and its picture. */
import type { Lettering } from '../lettering/lettering.ts';
import { tooMuchText } from '../problems/overlay.ts';
import { marksToSvg } from './marks.ts';
import type { FrameSize, MadeOverlay } from './overlay.ts';
import type { PlateRoom } from './plate-block.ts';
import { layOutPlate, type PlateLayout } from './plate-layout.ts';
import { type PixelArea, type SafeStandard, safeArea } from './safe-area.ts';
import { PLAIN_THEME, type PlateTheme } from './theme.ts';

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
  /** What the foot says instead where there is no room for this column. */
  readonly orInFoot?: string;
}

/** Short facts under each other, each after what it is: for credits. */
export interface FactsBody {
  readonly body: 'facts';
  readonly facts: readonly Fact[];
}

export interface Fact {
  readonly head: string;
  readonly text: string;
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
  readonly content: HeadlineBody | ColumnsBody | FactsBody | ProseBody;
  /** Phrases under the number: start rule, count, uncertainty, conditions; the most needed first. */
  readonly foot: readonly string[];
}

/** A plate may take the lower quarter of the picture, inside the graphics-safe area. */
export function plateArea(size: FrameSize, standard: SafeStandard = 'ebu-r95'): PixelArea {
  const safe = safeArea(size, 'graphics', standard);
  return { ...safe, topPx: Math.max(safe.topPx, Math.ceil(size.heightPx * 0.75)) };
}

const UPRIGHT = 1.14;
/** Steps by which a plate that is too large is set smaller. */
const SHRINK = 0.97;
/** Share of the usual size below which a column that may go to the foot does. */
const COMFORTABLE = 0.85;
/** Share of the usual size below which a plate is told to be too small. */
const LEGIBLE = 0.7;
/** Share of the usual size below which lines are cut instead. */
const SMALLEST = 0.5;
/** Width over height from which a picture has room beside the head, and below which it is upright. */
const SHAPES = { wide: 1.4, upright: 0.7 } as const;

type Composition = Pick<PlateRoom, 'upright' | 'compact'>;
const BESIDE: Composition = { upright: false };
const STACKED: Composition = { upright: true };
const COMPACT: Composition = { upright: false, compact: true };

/** Compositions a picture's shape allows, the one made for it first. */
function compositionsFor({ widthPx, heightPx }: FrameSize): readonly Composition[] {
  const shape = widthPx / heightPx;
  if (shape >= SHAPES.wide) return [BESIDE, STACKED];
  return shape < SHAPES.upright ? [STACKED, BESIDE, COMPACT] : [BESIDE, COMPACT, STACKED];
}

export interface FittedPlate extends PlateLayout {
  /** Share of the usual size. */
  readonly scale: number;
  /** Smaller than it is meant to be read. */
  readonly small: boolean;
}

/** The plate as large as its area allows: at its usual size where it fits, otherwise smaller throughout. */
export function fitPlate(
  content: PlateContent,
  size: FrameSize,
  lettering: Lettering,
  theme: PlateTheme = PLAIN_THEME,
): FittedPlate {
  const area = plateArea(size, theme.safeAreas);
  const widthPx = area.rightPx - area.leftPx;
  const heightPx = area.bottomPx - area.topPx;
  // One unit is one pixel of a picture 1080 px on its shorter side; upright pictures are seen smaller.
  const tall = size.heightPx / size.widthPx > 1 / SHAPES.upright;
  const usualPx = (Math.min(size.widthPx, size.heightPx) / 1080) * (tall ? UPRIGHT : 1);
  const compositions = compositionsFor(size);
  const fitting = (said: PlateContent, smallest: number, mayCut: boolean): FittedPlate | undefined => {
    for (let scale = 1; scale >= smallest; scale *= SHRINK) {
      for (const composition of mayCut ? compositions.slice(0, 1) : compositions) {
        const room: PlateRoom = { unitPx: usualPx * scale, widthPx, lettering, theme, ...composition };
        const layout = layOutPlate(said, room);
        const fits = layout.heightPx <= heightPx && layout.widthPx <= widthPx;
        if (fits && (mayCut || !layout.cut)) return { ...layout, scale, small: scale < LEGIBLE };
      }
    }
    return undefined;
  };
  const whole = fitting(content, SMALLEST, false);
  if (whole !== undefined && whole.scale >= COMFORTABLE) return whole;
  const brief = withoutSpare(content);
  const shorter = brief && fitting(brief, Math.max(SMALLEST, whole?.scale ?? 0), false);
  // Nothing whole fits: the largest size at which the plate keeps to its area, with lines cut.
  const found = shorter ?? whole ?? fitting(brief ?? content, 0.2, true);
  if (found === undefined) throw new RangeError(`A plate does not fit into ${size.name}`);
  return found;
}

/** The columns that may go said in the foot instead; undefined where there are none. */
function withoutSpare({ content, foot, ...rest }: PlateContent): PlateContent | undefined {
  if (content.body !== 'columns') return undefined;
  const inFoot = content.columns.flatMap(({ orInFoot }) => orInFoot ?? []);
  if (inFoot.length === 0) return undefined;
  const columns = content.columns.filter(({ orInFoot }) => orInFoot === undefined);
  return { ...rest, content: { body: 'columns', columns }, foot: [...foot, ...inFoot] };
}

/** A complete SVG of the frame's size with the plate in its corner of the area. */
export function plateToSvg(
  content: PlateContent,
  size: FrameSize,
  lettering: Lettering,
  theme: PlateTheme = PLAIN_THEME,
): string {
  const area = plateArea(size, theme.safeAreas);
  const layout = fitPlate(content, size, lettering, theme);
  const leftPx = theme.corner === 'left' ? area.leftPx : area.rightPx - layout.widthPx;
  const marks = marksToSvg(layout.marks, leftPx, area.bottomPx - layout.heightPx, lettering, theme.inks);
  const { widthPx, heightPx } = size;
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}" viewBox="0 0 ${widthPx} ${heightPx}">\n${marks}\n</svg>\n`;
}

/** An overlay that is one plate. */
export function plateOverlay(
  { kind, name, altText }: Pick<MadeOverlay, 'kind' | 'name' | 'altText'>,
  content: PlateContent,
  theme: PlateTheme,
): MadeOverlay {
  return {
    kind,
    name,
    altText,
    madeFrom: [content, theme],
    svg: (size, lettering) => plateToSvg(content, size, lettering, theme),
    problems(size, lettering) {
      const { cut, small } = fitPlate(content, size, lettering, theme);
      return cut || small ? [tooMuchText(name, size.name, cut)] : [];
    },
  };
}
