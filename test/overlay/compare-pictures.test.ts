import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { comparePictures, decodePng, type Picture } from './compare-pictures.ts';

const picture = (widthPx: number, heightPx: number, pixel: readonly number[]): Picture => ({
  widthPx,
  heightPx,
  rgba: Uint8Array.from({ length: widthPx * heightPx * 4 }, (_, index) => pixel[index % 4]!),
});
const withPixel = (base: Picture, index: number, pixel: readonly number[]): Picture => {
  const rgba = base.rgba.slice();
  rgba.set(pixel, index * 4);
  return { ...base, rgba };
};
const BASE = picture(3, 2, [200, 100, 50, 128]);

describe('the comparer of pictures', () => {
  it('finds nothing between a picture and itself', () => {
    expect(comparePictures(BASE, BASE)).toEqual({ sameSize: true, alpha: 0, colour: 0, pixels: 0 });
  });

  it('sees another size, also where the count of pixels is the same', () => {
    expect(comparePictures(BASE, picture(2, 3, [200, 100, 50, 128])).sameSize).toBe(false);
  });

  it('sees alpha alone', () => {
    const other = withPixel(BASE, 4, [200, 100, 50, 120]);
    expect(comparePictures(BASE, other)).toEqual({ sameSize: true, alpha: 8, colour: 0, pixels: 1 });
  });

  it('sees each colour channel alone', () => {
    for (const [channel, pixel] of [
      [210, 100, 50, 128],
      [200, 90, 50, 128],
      [200, 100, 60, 128],
    ].entries()) {
      expect(comparePictures(BASE, withPixel(BASE, channel, pixel))).toEqual({
        sameSize: true,
        alpha: 0,
        colour: 10,
        pixels: 1,
      });
    }
  });

  it('does not mind colours that nobody sees, but sees a pixel vanish', () => {
    const clear = picture(3, 2, [0, 0, 0, 0]);
    expect(comparePictures(clear, picture(3, 2, [9, 9, 9, 0])).pixels).toBe(0);
    expect(comparePictures(BASE, withPixel(BASE, 0, [200, 100, 50, 0]))).toMatchObject({
      alpha: 128,
      pixels: 1,
    });
  });

  it('reads alpha and colour of a PNG as they were written', async () => {
    const png = await sharp(BASE.rgba, { raw: { width: 3, height: 2, channels: 4 } })
      .png()
      .toBuffer();
    expect(comparePictures(BASE, await decodePng(png)).pixels).toBe(0);
  });
});
