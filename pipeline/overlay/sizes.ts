/** The picture sizes that overlays are drawn for. */
import type { House } from '../result/result.ts';
import type { FrameSize } from './overlay.ts';

const frame = (widthPx: number, heightPx: number): FrameSize => ({
  name: `${widthPx}x${heightPx}`,
  widthPx,
  heightPx,
});

/** High definition, ultra-high definition (both 16:9) and upright 9:16: where house.yaml names no sizes. */
export const FRAME_SIZES: readonly FrameSize[] = [frame(1920, 1080), frame(3840, 2160), frame(1080, 1920)];

/** Square and 4:5, as pictures posted on their own are cut. */
export const POSTED_SIZES: readonly FrameSize[] = [frame(1080, 1080), frame(1080, 1350)];

/** The sizes a house asks for, each once, in its order. */
export function houseFrameSizes({ video }: Pick<House, 'video'>): readonly FrameSize[] {
  const names = [...new Set(video?.sizes ?? [])];
  if (names.length === 0) return FRAME_SIZES;
  return names.map(name => {
    const [widthPx = 0, heightPx = 0] = name.split('x').map(Number);
    return frame(widthPx, heightPx);
  });
}
