/** What every PNG is put together from (PNG, third edition, 5.2 and 5.3). */
import { crc32 } from 'node:zlib';

export const PNG_SIGNATURE = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);

/** Length, type, data and their CRC-32. */
export function pngChunk(type: string, data: Uint8Array): Uint8Array {
  const chunk = Buffer.allocUnsafe(12 + data.length);
  chunk.writeUInt32BE(data.length, 0);
  chunk.write(type, 4, 'latin1');
  chunk.set(data, 8);
  chunk.writeUInt32BE(crc32(chunk.subarray(4, 8 + data.length)), 8 + data.length);
  return chunk;
}

/** How the colours of an 8-bit picture are written (11.2.1). */
export const COLOUR_TYPE = { indexed: 3, straightAlpha: 6 } as const;

/** The first chunk: 8 bits a sample, no interlace. */
export function pngHeader(
  widthPx: number,
  heightPx: number,
  colourType: (typeof COLOUR_TYPE)[keyof typeof COLOUR_TYPE],
): Uint8Array {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(widthPx, 0);
  header.writeUInt32BE(heightPx, 4);
  header.set([8, colourType, 0, 0, 0], 8);
  return pngChunk('IHDR', header);
}

/** The last chunk. */
export const PNG_END = pngChunk('IEND', new Uint8Array());
