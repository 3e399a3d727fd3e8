/** An overlay as PNG: 8-bit RGBA with straight alpha, the same bytes on every run. */
import type { Lettering } from '../lettering/lettering.ts';
import { loadSharp } from '../load-sharp.ts';
import type { FrameSize, MadeOverlay } from './overlay.ts';

/** Level 6 without filtering: as small as the slower ones for flat pictures, several times as fast. */
export const PNG_OPTIONS = { compressionLevel: 6, adaptiveFiltering: false, palette: false } as const;

/** PNG bytes of an overlay at one frame size. */
export async function renderOverlay(
  made: Pick<MadeOverlay, 'svg'>,
  size: FrameSize,
  lettering: Lettering,
): Promise<Uint8Array> {
  const sharp = await loadSharp();
  // 72 dpi makes one user unit of the SVG one pixel.
  const png = await sharp(Buffer.from(made.svg(size, lettering)), { density: 72 })
    .ensureAlpha()
    .png(PNG_OPTIONS)
    .toBuffer();
  return new Uint8Array(png);
}
