/** PNG by bands against libvips' reader and zlib's own checksums: the encoder shares nothing with either. */
import { crc32, deflateSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  adler32,
  bandsToPng,
  isWholePng,
  joinAdler,
  PNG_ENDS,
  rowBytes,
  rowsToBand,
} from '../../pipeline/sequence/png-bands.ts';
import { decodePng } from '../overlay/compare-pictures.ts';

/** Zlib's own: the last four bytes of a stream (RFC 1950). */
function adlerByZlib(bytes: Uint8Array): number {
  return deflateSync(bytes).readUInt32BE(deflateSync(bytes).length - 4);
}

/** Rows as PNG stores them, from RGBA. */
function rowsOf(rgba: Uint8Array, widthPx: number, heightPx: number): Uint8Array {
  const rows = new Uint8Array(rowBytes(widthPx) * heightPx);
  for (let y = 0; y < heightPx; y++) {
    rows.set(rgba.subarray(y * widthPx * 4, (y + 1) * widthPx * 4), y * rowBytes(widthPx) + 1);
  }
  return rows;
}

describe('PNG by bands', () => {
  it('reads back as the pixels that went in, wherever it is cut', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 40 }),
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 5 }),
        fc.infiniteStream(fc.integer({ min: 0, max: 255 })),
        async (widthPx, heights, stream) => {
          const heightPx = heights.reduce((sum, height) => sum + height, 0);
          const rgba = Uint8Array.from({ length: widthPx * heightPx * 4 }, () => Number(stream.next().value));
          const rows = rowsOf(rgba, widthPx, heightPx);
          let from = 0;
          const bands = [];
          for (const height of heights) {
            bands.push(await rowsToBand(rows.subarray(from, from + height * rowBytes(widthPx))));
            from += height * rowBytes(widthPx);
          }
          const png = bandsToPng(widthPx, heightPx, bands);
          const read = await decodePng(png);
          expect([read.widthPx, read.heightPx]).toEqual([widthPx, heightPx]);
          expect(Buffer.compare(read.rgba, rgba)).toBe(0);
          expect(isWholePng(png.subarray(0, PNG_ENDS.begin), png.subarray(-PNG_ENDS.end))).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('has chunks with their own length and CRC-32, and one zlib stream with its checksum', async () => {
    const rows = Uint8Array.from({ length: rowBytes(50) * 30 }, (_, k) =>
      k % rowBytes(50) === 0 ? 0 : k % 251,
    );
    const cut = rowBytes(50) * 11;
    const png = Buffer.from(
      bandsToPng(50, 30, [await rowsToBand(rows.subarray(0, cut)), await rowsToBand(rows.subarray(cut))]),
    );
    let data = Buffer.alloc(0);
    for (let at = 8; at < png.length; ) {
      const length = png.readUInt32BE(at);
      const type = png.toString('latin1', at + 4, at + 8);
      const body = png.subarray(at + 8, at + 8 + length);
      expect(png.readUInt32BE(at + 8 + length), type).toBe(crc32(png.subarray(at + 4, at + 8 + length)));
      if (type === 'IDAT') data = Buffer.concat([data, body]);
      at += 12 + length;
    }
    // RFC 1950, 2.2: the first two bytes are a multiple of 31 as one number.
    expect(data.readUInt16BE(0) % 31).toBe(0);
    expect(data.readUInt32BE(data.length - 4)).toBe(adlerByZlib(rows));
  });

  it('is refused where bands do not make up the picture', async () => {
    const band = await rowsToBand(new Uint8Array(rowBytes(4) * 2));
    expect(() => bandsToPng(4, 3, [band])).toThrow(RangeError);
  });
});

describe('Adler-32', () => {
  it('is zlib’s, of any bytes', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 20_000 }), bytes => {
        expect(adler32(bytes)).toBe(adlerByZlib(bytes));
      }),
    );
    // As large as sums get before the modulus is taken.
    const most = new Uint8Array(200_000).fill(255);
    expect(adler32(most)).toBe(adlerByZlib(most));
  });

  it('of two stretches joins to that of both', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 9000 }), fc.uint8Array({ maxLength: 9000 }), (first, second) => {
        const both = Buffer.concat([first, second]);
        expect(joinAdler(adler32(first), adler32(second), second.length)).toBe(adlerByZlib(both));
      }),
    );
    const zeros = new Uint8Array(3_000_000);
    const head = Uint8Array.of(1, 2, 3);
    expect(joinAdler(adler32(head), adler32(zeros), zeros.length)).toBe(
      adlerByZlib(Buffer.concat([head, zeros])),
    );
  });
});
