/**
 * A flat picture as PNG with a table of its colours: a byte a pixel where three would stand, less than half the file.
 *
 * A figure is a few inks on one paper and the shades of their edges. Where these are 256 or fewer, as in black and
 * white, every pixel stays as it is; where there are more, the rarest give way to the nearest one kept.
 */
import { promisify } from 'node:util';
import { deflate } from 'node:zlib';
import { COLOUR_TYPE, PNG_END, PNG_SIGNATURE, pngChunk, pngHeader } from '../png-chunk.ts';

/** Opaque pixels, row by row. */
export interface FlatPicture {
  /** Red, green, blue and an alpha that nobody reads, a byte each. */
  readonly rgba: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Device pixels to the inch, for programs that place pictures by their size. */
  readonly perInch: number;
}

/** Colours of a table at most (PNG, 11.2.2). */
const MOST_COLOURS = 256;
/** No red, green or blue moves by more, of 255: less than an eye tells on the edge of a letter. */
export const MOST_MOVED = 8;
/** Level 7 takes nearly twice as long for 2 % fewer bytes, level 9 eleven times as long for 5 %. */
const DEFLATE = { level: 5, memLevel: 9 } as const;
const INCH_M = 0.0254;
const IN_METRES = 1;

const compress = promisify<Uint8Array, object, Buffer>(deflate);

/**
 * The same picture gives the same bytes.
 * @returns undefined where it has more colours than a table holds without moving one too far: a photograph
 */
export async function indexedPng(picture: FlatPicture): Promise<Uint8Array | undefined> {
  const { widthPx, heightPx, perInch } = picture;
  const runs = runsOf(picture);
  const table = chooseColours(runs);
  if (table === undefined) return undefined;
  const places = runs.colours.map(colour => nearest(table, colour).place);
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
      pngChunk('IDAT', await compress(rowsOf(picture, runs, places), DEFLATE)),
      PNG_END,
    ]),
  );
}

const partsOf = (colour: number): readonly number[] => [colour >> 16, (colour >> 8) & 255, colour & 255];

/** A picture as stretches of one colour: most pixels are as the one before, and are looked at once. */
interface Runs {
  /** Each colour once, as red·2¹⁶ + green·2⁸ + blue. */
  readonly colours: readonly number[];
  /** How many pixels have it. */
  readonly counts: readonly number[];
  /** Place in `colours` of each stretch, and where it ends: the pixel after its last. */
  readonly stretches: readonly number[];
  readonly ends: readonly number[];
}

function runsOf({ rgba, widthPx, heightPx }: FlatPicture): Runs {
  const pixels = new Uint32Array(rgba.buffer, rgba.byteOffset, widthPx * heightPx);
  const placeOf = new Map<number, number>();
  const counts: number[] = [];
  const stretches: number[] = [];
  const ends: number[] = [];
  for (let begin = 0; begin < pixels.length; ) {
    const pixel = pixels[begin]!;
    let end = begin + 1;
    while (end < pixels.length && pixels[end] === pixel) end += 1;
    const colour = (rgba[4 * begin]! << 16) | (rgba[4 * begin + 1]! << 8) | rgba[4 * begin + 2]!;
    let place = placeOf.get(colour);
    if (place === undefined) {
      place = placeOf.size;
      placeOf.set(colour, place);
      counts.push(0);
    }
    counts[place]! += end - begin;
    stretches.push(place);
    ends.push(end);
    begin = end;
  }
  return { colours: [...placeOf.keys()], counts, stretches, ends };
}

/** The most frequent colours first; one is left out only where a kept one is as near as it has to be. */
function chooseColours({ colours, counts }: Runs): readonly number[] | undefined {
  const byCount = colours
    .map((colour, place) => ({ colour, count: counts[place]! }))
    .sort((one, other) => other.count - one.count || one.colour - other.colour)
    .map(({ colour }) => colour);
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
function rowsOf(
  { widthPx, heightPx }: FlatPicture,
  { stretches, ends }: Runs,
  places: readonly number[],
): Uint8Array {
  const rows = new Uint8Array((widthPx + 1) * heightPx);
  let to = 1;
  let rowEnd = widthPx;
  let at = 0;
  for (const [index, end] of ends.entries()) {
    const place = places[stretches[index]!]!;
    while (at < end) {
      const until = Math.min(end, rowEnd);
      // Rows are full of the first colour, the most frequent one, before any is written.
      if (place > 0) rows.fill(place, to, to + until - at);
      to += until - at;
      at = until;
      if (at === rowEnd) {
        rowEnd += widthPx;
        to += 1;
      }
    }
  }
  return rows;
}
