/**
 * PNG put together from bands of rows, each compressed by itself, so that a frame compresses only the rows that
 * changed. A deflate stream may be cut at any full flush (RFC 1951, 3.2.4; RFC 1950 for the frame around it), and
 * PNG joins the data of all its IDAT chunks (PNG, third edition, 10.1 and 11.2.3): a band is one chunk.
 *
 * 8-bit RGBA, straight alpha, no filter, no interlace, level 6: flat plates come out as small as with filters.
 */
import { promisify } from 'node:util';
import { constants, deflateRaw } from 'node:zlib';
import { COLOUR_TYPE, PNG_END, PNG_SIGNATURE, pngChunk, pngHeader } from '../png-chunk.ts';

/** Rows ready to stand in a PNG. */
export interface PngBand {
  /** A complete IDAT chunk. */
  readonly chunk: Uint8Array;
  /** Of the rows before compression, as zlib checks them. */
  readonly adler: number;
  readonly lengthBytes: number;
}

/** Level 6, as said in the zlib header's flags, with a 32 KB window. */
const ZLIB_HEADER = Uint8Array.of(0x78, 0x9c);
/** An empty last block of fixed codes: it ends the deflate stream. */
const LAST_BLOCK = Uint8Array.of(0x03, 0x00);
const BYTES_PER_PIXEL = 4;
const ADLER_MODULUS = 65_521;
/** Most bytes whose sums stay below 2³² before the modulus is taken (zlib's NMAX). */
const ADLER_RUN = 5552;

const compress = promisify<Uint8Array, object, Buffer>(deflateRaw);

/** Rows of RGBA as PNG stores them: a filter byte of 0, for none, before each. */
export const rowBytes = (widthPx: number): number => 1 + widthPx * BYTES_PER_PIXEL;

/** Compresses whole rows, each with its filter byte. Same rows, same bytes. */
export async function rowsToBand(rows: Uint8Array): Promise<PngBand> {
  const bytes = await compress(rows, { level: 6, memLevel: 9, finishFlush: constants.Z_FULL_FLUSH });
  return { chunk: pngChunk('IDAT', bytes), adler: adler32(rows), lengthBytes: rows.length };
}

/** A complete PNG file of bands from top to bottom. @throws RangeError unless they are as many rows as the picture has. */
export function bandsToPng(widthPx: number, heightPx: number, bands: readonly PngBand[]): Uint8Array {
  let adler = 1;
  let lengthBytes = 0;
  for (const band of bands) {
    adler = joinAdler(adler, band.adler, band.lengthBytes);
    lengthBytes += band.lengthBytes;
  }
  if (lengthBytes !== rowBytes(widthPx) * heightPx) throw new RangeError('Bands do not make up the picture');
  const end = new Uint8Array(6);
  end.set(LAST_BLOCK);
  new DataView(end.buffer).setUint32(2, adler);
  return Buffer.concat([
    PNG_SIGNATURE,
    pngHeader(widthPx, heightPx, COLOUR_TYPE.straightAlpha),
    pngChunk('IDAT', ZLIB_HEADER),
    ...bands.map(({ chunk }) => chunk),
    pngChunk('IDAT', end),
    PNG_END,
  ]);
}

/** Whether a file's bytes begin and end as a whole PNG does. */
export const isWholePng = (begin: Uint8Array, end: Uint8Array): boolean =>
  Buffer.compare(begin, PNG_SIGNATURE) === 0 && Buffer.compare(end, PNG_END) === 0;

/** Bytes of a file's beginning and end that `isWholePng` asks for. */
export const PNG_ENDS = { begin: PNG_SIGNATURE.length, end: PNG_END.length } as const;

/** Checksum of RFC 1950, 8.2. */
export function adler32(bytes: Uint8Array): number {
  let a = 1;
  let b = 0;
  for (let from = 0; from < bytes.length; from += ADLER_RUN) {
    const to = Math.min(from + ADLER_RUN, bytes.length);
    for (let index = from; index < to; index++) {
      a += bytes[index]!;
      b += a;
    }
    a %= ADLER_MODULUS;
    b %= ADLER_MODULUS;
  }
  return b * 65_536 + a;
}

/**
 * Checksum of two stretches of bytes after each other from the checksums of both and the length of the second:
 * every byte of the second adds the first's sum once more.
 */
export function joinAdler(first: number, second: number, secondLength: number): number {
  const sum = (first % 65_536) - 1;
  const a = (sum + (second % 65_536) + ADLER_MODULUS) % ADLER_MODULUS;
  const carried = (sum * (secondLength % ADLER_MODULUS)) % ADLER_MODULUS;
  const b =
    (Math.floor(first / 65_536) + Math.floor(second / 65_536) + carried + ADLER_MODULUS) % ADLER_MODULUS;
  return b * 65_536 + a;
}
