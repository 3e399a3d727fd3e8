import fc from 'fast-check';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { indexedPng, MOST_MOVED } from '../../pipeline/figure/indexed-png.ts';

const PER_INCH = 144;

async function decoded(png: Uint8Array) {
  const { data, info } = await sharp(png).removeAlpha().raw().toBuffer({ resolveWithObject: true });
  return { rgb: [...data], widthPx: info.width, heightPx: info.height };
}

/** Opaque pixels from their red, green and blue. */
const opaque = (rgb: readonly number[]): Uint8Array =>
  Uint8Array.from({ length: (rgb.length / 3) * 4 }, (_, at) =>
    at % 4 === 3 ? 255 : rgb[(at >> 2) * 3 + (at % 4)]!,
  );

/** As wide as there are pixels, one row. */
const rowOf = (rgb: readonly number[]) => ({
  rgba: opaque(rgb),
  widthPx: rgb.length / 3,
  heightPx: 1,
  perInch: PER_INCH,
});

const farthest = (one: readonly number[], other: readonly number[]): number =>
  one.reduce((most, part, index) => Math.max(most, Math.abs(part - other[index]!)), 0);

describe('a PNG with a table of its colours', () => {
  it('keeps every pixel of a picture of few colours', async () => {
    const byte = fc.integer({ min: 0, max: 255 });
    const pictures = fc
      .tuple(
        fc.array(fc.tuple(byte, byte, byte), { minLength: 1, maxLength: 256 }),
        fc.integer({ min: 1, max: 9 }),
      )
      .map(([colours, widthPx]) => {
        const heightPx = Math.ceil(colours.length / widthPx);
        const pixels = Array.from({ length: widthPx * heightPx }, (_, at) => colours[at % colours.length]!);
        const rgb = pixels.flat();
        return { rgb, picture: { rgba: opaque(rgb), widthPx, heightPx, perInch: PER_INCH } };
      });
    await fc.assert(
      fc.asyncProperty(pictures, async ({ rgb, picture }) => {
        const png = (await indexedPng(picture))!;
        const { widthPx, heightPx } = picture;
        expect(await decoded(png)).toEqual({ rgb, widthPx, heightPx });
        expect(await indexedPng(picture)).toEqual(png);
      }),
      { numRuns: 50 },
    );
  });

  it('moves no shade of three inks far, and the inks themselves not at all', async () => {
    const [paper, ...inks] = [
      [251, 249, 244],
      [27, 31, 36],
      [176, 58, 46],
      [31, 98, 143],
    ] as const;
    const shades = inks.flatMap(ink =>
      Array.from({ length: 256 }, (_, at) =>
        paper.map((part, i) => Math.round(part + ((ink[i]! - part) * at) / 255)),
      ),
    );
    const flat = [paper, ...inks].flatMap(colour => Array.from({ length: 500 }, () => colour));
    const rgb = [...flat, ...shades].flat();
    const png = (await indexedPng(rowOf(rgb)))!;
    const seen = await decoded(png);
    expect(seen.rgb.slice(0, flat.length * 3)).toEqual(flat.flat());
    expect(farthest(seen.rgb, rgb)).toBeGreaterThan(0);
    expect(farthest(seen.rgb, rgb)).toBeLessThanOrEqual(MOST_MOVED);
    expect((await sharp(png).metadata()).density).toBe(PER_INCH);
  });

  it('declines what is no flat picture', async () => {
    const far = Array.from({ length: 300 }, (_, at) => [(at % 7) * 40, (at % 11) * 25, (at % 13) * 20]);
    expect(await indexedPng(rowOf(far.flat()))).toBeUndefined();
  });
});
