/** The running plate as large as its area allows: the lower quarter of the picture, inside the graphics-safe area. */
import type { Lettering } from '../lettering/lettering.ts';
import type { FrameSize } from '../overlay/overlay.ts';
import { plateArea } from '../overlay/plate.ts';
import { PLAIN_THEME, type PlateTheme } from '../overlay/theme.ts';
import { ProblemError } from '../problem.ts';
import { sizeTooSmall } from '../problems/sequence.ts';
import type { RunningContent } from './content.ts';
import { layOutRunningPlate, type RunningLayout } from './layout.ts';

export interface FittedRunningPlate extends RunningLayout {
  readonly theme: PlateTheme;
  /** Of the plate's top left corner in the picture, whole pixels. */
  readonly leftPx: number;
  readonly topPx: number;
  /** Smaller than it is meant to be read. */
  readonly small: boolean;
}

const UPRIGHT = 1.14;
/** Steps by which a plate that is too large is set smaller. */
const SHRINK = 0.98;
/** Share of the usual size below which a plate is told to be too small; down to it the picture's own arrangement is kept. */
const LEGIBLE = 0.7;
/** Share of the usual size below which there is no plate. */
const SMALLEST = 0.4;

/**
 * The plate at its usual size where it fits, otherwise smaller throughout; in pictures taller than wide with its
 * head above the numbers first, otherwise beside them. @throws ProblemError where a size has no room for it.
 */
export function fitRunningPlate(
  content: RunningContent,
  size: FrameSize,
  lettering: Lettering,
  theme: PlateTheme = PLAIN_THEME,
): FittedRunningPlate {
  const area = plateArea(size, theme.safeAreas);
  const widthPx = area.rightPx - area.leftPx;
  const heightPx = area.bottomPx - area.topPx;
  const tall = size.heightPx > size.widthPx;
  // One unit is one pixel of a picture 1080 px on its shorter side; upright pictures are seen smaller.
  const usualPx = (Math.min(size.widthPx, size.heightPx) / 1080) * (tall ? UPRIGHT : 1);
  const fitted = (scale: number, upright: boolean, whole: boolean): FittedRunningPlate | undefined => {
    const layout = layOutRunningPlate(content, {
      unitPx: usualPx * scale,
      widthPx,
      upright,
      lettering,
      theme,
    });
    const fits = layout.heightPx <= heightPx && layout.widthPx <= widthPx;
    if (!fits || (whole && layout.cut)) return undefined;
    const topPx = area.bottomPx - layout.heightPx;
    const leftPx = theme.corner === 'right' ? area.rightPx - layout.widthPx : area.leftPx;
    return { ...layout, theme, leftPx, topPx, small: scale < LEGIBLE };
  };
  const search = (smallest: number, arrangements: readonly boolean[], whole: boolean) => {
    for (let scale = 1; scale >= smallest; scale *= SHRINK) {
      for (const upright of arrangements) {
        const plate = fitted(scale, upright, whole);
        if (plate !== undefined) return plate;
      }
    }
    return undefined;
  };
  const plate =
    search(LEGIBLE, [tall], true) ??
    search(SMALLEST, [tall, !tall], true) ??
    search(SMALLEST, [tall, !tall], false);
  if (plate !== undefined) return plate;
  throw new ProblemError(sizeTooSmall(size.name));
}
