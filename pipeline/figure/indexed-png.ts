/**
 * A flat picture as PNG with a table of its colours: a byte a pixel where three would stand, less than half the file.
 *
 * A figure is a few inks on one paper and the shades of their edges. Where these are 256 or fewer, as in black and
 * white, every pixel stays as it is; where there are more, the rarest give way to the nearest one kept.
 */
import { promisify } from 'node:util';
import { deflate } from 'node:zlib';
import { COLOUR_TYPE, PNG_END, PNG_SIGNATURE, pngChunk, pngHeader } from '../png-chunk.ts';

/** Pixels of 8-bit RGB, row by row. */
export interface RgbPicture {
  readonly rgb: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Device pixels to the inch, for programs that place pictures by their size. */
  readonly perInch: number;
}

/** Colours of a table at most (PNG, 11.2.2). */
const MOST_COLOURS = 256;
/** No red, green or blue moves by more, of 255: less than an eye tells on the edge of a letter. */
export const MOST_MOVED = 8;
/** Level 9 takes six times as long for 4 % fewer bytes. */
const DEFLATE = { level: 7, memLevel: 9 } as const;
const INCH_M = 0.0254;
const IN_METRES = 1;

const compress = promisify<Uint8Array, object, Buffer>(deflate);

/**
 * The same picture gives the same bytes.
 * @returns undefined where it has more colours than a table holds without moving one too far: a photograph
 */
export async function indexedPng(picture: RgbPicture): Promise<Uint8Array | undefined> {
  const { widthPx, heightPx, perInch } = picture;
  const counts = countColours(picture);
  const table = chooseColours(counts);
  if (table === undefined) return undefined;
  const places = new Map([...counts.keys()].map(colour => [colour, nearest(table, colour).place]));
  const size = Buffer.alloc(9);
  const perMetre = Math.round(perInch / INCH_M);
  size.writeUInt32BE(perMetre, 0);
  size.writeUInt32BE(perMetre, 4);
  size[8] = IN_METRES;
  return new Uint8Array(
    Buffer.concat([
      PNG_SIGNATURE,
      pngHeader(widthPx, heightPx, COLOUR_TYPE.indexed),
      pngChunk('pHYs', size),
      pngChunk('PLTE', Uint8Array.from(table.flatMap(partsOf))),
      pngChunk('IDAT', await compress(rowsOf(picture, places), DEFLATE)),
      PNG_END,
    ]),
  );
}

const partsOf = (colour: number): readonly number[] => [colour >> 16, (colour >> 8) & 255, colour & 255];

/** How often each colour stands in the picture, as red·2¹⁶ + green·2⁸ + blue. */
function countColours({ rgb }: RgbPicture): ReadonlyMap<number, number> {
  const counts = new Map<number, number>();
  let last = -1;
  let run = 0;
  const count = (): void => {
    if (run > 0) counts.set(last, (counts.get(last) ?? 0) + run);
  };
  for (let at = 0; at < rgb.length; at += 3) {
    const colour = (rgb[at]! << 16) | (rgb[at + 1]! << 8) | rgb[at + 2]!;
    if (colour === last) {
      run += 1;
      continue;
    }
    count();
    last = colour;
    run = 1;
  }
  count();
  return counts;
}

/** The most frequent colours first; one is left out only where a kept one is as near as it has to be. */
function chooseColours(counts: ReadonlyMap<number, number>): readonly number[] | undefined {
  const byCount = [...counts]
    .sort(([one, often], [other, asOften]) => asOften - often || one - other)
    .map(([colour]) => colour);
  for (let within = 0; within <= MOST_MOVED; within++) {
    const table: number[] = [];
    for (const colour of byCount) {
      if (within > 0 && nearest(table, colour).apart <= within) continue;
      table.push(colour);
      if (table.length > MOST_COLOURS) break;
    }
    if (table.length <= MOST_COLOURS) return table;
  }
  return undefined;
}

/** The colour of a table whose farthest part is least apart, the first of several. */
function nearest(
  table: readonly number[],
  colour: number,
): { readonly place: number; readonly apart: number } {
  const [red, green, blue] = [colour >> 16, (colour >> 8) & 255, colour & 255];
  let place = 0;
  let apart = 256;
  // Asked a million times a picture: by place, and no farther than a part that is farther than the nearest.
  for (let index = 0; index < table.length && apart > 0; index++) {
    const kept = table[index]!;
    const redApart = Math.abs((kept >> 16) - red);
    if (redApart >= apart) continue;
    const between = Math.max(redApart, Math.abs(((kept >> 8) & 255) - green), Math.abs((kept & 255) - blue));
    if (between < apart) {
      place = index;
      apart = between;
    }
  }
  return { place, apart };
}

/** Rows as PNG stores them: a filter byte of 0, for none, before the places of the pixels in the table. */
function rowsOf({ rgb, widthPx, heightPx }: RgbPicture, places: ReadonlyMap<number, number>): Uint8Array {
  const rows = new Uint8Array((widthPx + 1) * heightPx);
  let from = 0;
  let to = 0;
  let last = -1;
  let place = 0;
  for (let y = 0; y < heightPx; y++) {
    to += 1;
    for (let x = 0; x < widthPx; x++, from += 3) {
      const colour = (rgb[from]! << 16) | (rgb[from + 1]! << 8) | rgb[from + 2]!;
      if (colour !== last) {
        last = colour;
        place = places.get(colour)!;
      }
      rows[to++] = place;
    }
  }
  return rows;
}
