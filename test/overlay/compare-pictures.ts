/**
 * Two pictures compared in what each can differ in, separately: size, alpha, and colour where it can be seen.
 * Colour under alpha 0 is nobody's business; everything else counts in full.
 */
import sharp from 'sharp';

/** 8-bit RGBA, row after row. */
export interface Picture {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly rgba: Uint8Array;
}

export interface PictureDifference {
  readonly sameSize: boolean;
  /** Largest difference of alpha, 0 to 255; 255 where the sizes differ. */
  readonly alpha: number;
  /** Largest difference of red, green or blue where both are visible at all; 255 where the sizes differ. */
  readonly colour: number;
  /** Pixels that differ in anything that can be seen. */
  readonly pixels: number;
}

export async function decodePng(png: Uint8Array): Promise<Picture> {
  const { data, info } = await sharp(png).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return { widthPx: info.width, heightPx: info.height, rgba: new Uint8Array(data) };
}

/** The transparency alone, a byte a pixel, row after row; 255 throughout where a picture has none. */
export async function alphaOf(
  png: Uint8Array,
): Promise<Omit<Picture, 'rgba'> & { readonly alpha: Uint8Array }> {
  const { data, info } = await sharp(png)
    .ensureAlpha()
    .extractChannel('alpha')
    .raw()
    .toBuffer({ resolveWithObject: true });
  if (info.channels !== 1) throw new Error(`${info.channels} channels where one was asked for`);
  return { widthPx: info.width, heightPx: info.height, alpha: new Uint8Array(data) };
}

export function comparePictures(a: Picture, b: Picture): PictureDifference {
  if (a.widthPx !== b.widthPx || a.heightPx !== b.heightPx) {
    return { sameSize: false, alpha: 255, colour: 255, pixels: Math.max(a.rgba.length, b.rgba.length) / 4 };
  }
  let alpha = 0;
  let colour = 0;
  let pixels = 0;
  const [wholeA, wholeB] = [a, b].map(
    ({ rgba }) => new Uint32Array(rgba.buffer, rgba.byteOffset, rgba.length / 4),
  );
  for (let pixel = 0; pixel < wholeA!.length; pixel++) {
    // Nearly all of two pictures worth comparing are the same.
    if (wholeA![pixel] === wholeB![pixel]) continue;
    const at = 4 * pixel;
    const alphaA = a.rgba[at + 3]!;
    const alphaB = b.rgba[at + 3]!;
    const alphaHere = Math.abs(alphaA - alphaB);
    let colourHere = 0;
    if (alphaA > 0 && alphaB > 0) {
      for (let channel = 0; channel < 3; channel++) {
        colourHere = Math.max(colourHere, Math.abs(a.rgba[at + channel]! - b.rgba[at + channel]!));
      }
    }
    if (alphaHere > 0 || colourHere > 0) pixels++;
    alpha = Math.max(alpha, alphaHere);
    colour = Math.max(colour, colourHere);
  }
  return { sameSize: true, alpha, colour, pixels };
}
