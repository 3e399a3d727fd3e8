/** The picture sizes that overlays are drawn for. */
import type { FrameSize } from './overlay.ts';

const frame = (widthPx: number, heightPx: number): FrameSize => ({
  name: `${widthPx}x${heightPx}`,
  widthPx,
  heightPx,
});

/** High definition, ultra-high definition (both 16:9) and upright 9:16. */
export const FRAME_SIZES: readonly FrameSize[] = [frame(1920, 1080), frame(3840, 2160), frame(1080, 1920)];
