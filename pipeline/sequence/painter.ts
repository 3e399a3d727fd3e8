/**
 * Frames as PNG. The plate is drawn once and every digit once; a frame copies digits into their cells and
 * compresses only the rows they stand in. Everything else of the file is the same bytes in every frame.
 */
import { createHash } from 'node:crypto';
import sharp from 'sharp';
import type { Lettering } from '../lettering/lettering.ts';
import { type Mark, marksToSvg, type TextMark } from '../overlay/marks.ts';
import type { FrameSize } from '../overlay/overlay.ts';
import { rectangle, textMark } from '../overlay/plate-block.ts';
import { cellsText } from './content.ts';
import type { NumberField } from './layout.ts';
import type { FrameValues, SequencePlan, SplitState } from './plan.ts';
import { bandsToPng, type PngBand, rowBytes, rowsToBand } from './png-bands.ts';
import type { FittedRunningPlate } from './running-plate.ts';

export interface Painter {
  /** A complete PNG file of the frame's size. */
  png(values: FrameValues): Promise<Uint8Array>;
  /** SHA-256, hexadecimal, of everything the pictures are made from: same key, same pictures. */
  key(values: Iterable<FrameValues>): string;
}

/** Rows `fromPx` to `toPx` of the picture, drawn anew for each word of `wordOf`. */
interface LiveBand {
  readonly fromPx: number;
  readonly toPx: number;
  wordOf(values: FrameValues): string;
  /** Puts what the word says onto rows that hold the empty plate. */
  draw(rows: Uint8Array, word: string): void;
}

/** RGBA pixels, straight alpha. */
interface Pixels {
  readonly rgba: Uint8Array;
  readonly widthPx: number;
  readonly heightPx: number;
}

const STATES: readonly SplitState[] = ['ahead', 'held', 'reached'];
/** Between the parts of a word; no number has it. */
const BETWEEN = '|';
/** Compressed bands kept at most, so that a clock standing still is compressed once. */
const KEPT_BANDS = 8;

/** Draws what all frames share. Takes about a tenth of a second; holds a few MB for as long as it is used. */
export async function createPainter(
  plan: SequencePlan,
  plate: FittedRunningPlate,
  size: FrameSize,
  lettering: Lettering,
): Promise<Painter> {
  const svgs: string[] = [];
  const draw = async (marks: readonly Mark[], widthPx: number, heightPx: number): Promise<Pixels> => {
    const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${heightPx}">${marksToSvg(marks, 0, 0, lettering, plate.theme.inks)}</svg>`;
    svgs.push(svg);
    // 72 dpi makes one user unit of the SVG one pixel.
    const rgba = await sharp(Buffer.from(svg), { density: 72 }).ensureAlpha().raw().toBuffer();
    return { rgba, widthPx, heightPx };
  };

  const empty = await draw(plate.marks, plate.widthPx, plate.heightPx);
  const live = [await numbersBand(plan, plate, size, draw, lettering), await splitsBand(plate, size, draw)];
  // Sorted: several pictures are drawn at once, and which is begun first is nobody's business.
  const madeFrom = [size, plate.leftPx, plate.topPx, process.versions.zlib, sharp.versions, ...svgs.sort()];
  const drawnKey = createHash('sha256').update(JSON.stringify(madeFrom)).digest('hex');

  const emptyRows = (fromPx: number, toPx: number): Uint8Array => {
    const rows = new Uint8Array(rowBytes(size.widthPx) * (toPx - fromPx));
    put(rows, size, empty, plate.leftPx, plate.topPx - fromPx);
    return rows;
  };
  const still = async (fromPx: number, toPx: number): Promise<readonly PngBand[]> =>
    fromPx === toPx ? [] : [await rowsToBand(emptyRows(fromPx, toPx))];

  // From top to bottom: what never changes, and between it what does.
  const bands: ((values: FrameValues) => Promise<readonly PngBand[]>)[] = [];
  let fromPx = 0;
  for (const band of live) {
    const above = await still(fromPx, band.fromPx);
    const template = emptyRows(band.fromPx, band.toPx);
    const kept = new Map<string, Promise<PngBand>>();
    bands.push(async values => {
      const word = band.wordOf(values);
      let made = kept.get(word);
      if (made === undefined) {
        const rows = template.slice();
        band.draw(rows, word);
        made = rowsToBand(rows);
        kept.set(word, made);
        if (kept.size > KEPT_BANDS) kept.delete(kept.keys().next().value ?? '');
      }
      return [...above, await made];
    });
    fromPx = band.toPx;
  }
  const below = await still(fromPx, size.heightPx);

  return {
    async png(values) {
      const made = await Promise.all(bands.map(band => band(values)));
      return bandsToPng(size.widthPx, size.heightPx, [...made.flat(), ...below]);
    },
    key(all) {
      const hash = createHash('sha256').update(drawnKey);
      for (const values of all) hash.update(`${live.map(band => band.wordOf(values)).join(' ')}\n`);
      return hash.digest('hex');
    },
  };
}

type Draw = (marks: readonly Mark[], widthPx: number, heightPx: number) => Promise<Pixels>;

/** The rows of clock, speed and distance. */
async function numbersBand(
  plan: SequencePlan,
  plate: FittedRunningPlate,
  size: FrameSize,
  draw: Draw,
  lettering: Lettering,
): Promise<LiveBand> {
  const { numbers } = plate;
  const topPx = Math.min(...numbers.map(({ yPx }) => yPx));
  const bottomPx = Math.max(...numbers.map(({ yPx, cellHeightPx }) => yPx + cellHeightPx));
  const inks = await Promise.all(
    numbers.map(async field => ({
      running: await characterPictures(field, 'ink', draw, lettering),
      // A clock that has stopped stands in the accent, so that its value is not taken for a passing one.
      stopped: await characterPictures(field, field.id === 'clock' ? 'accent' : 'ink', draw, lettering),
    })),
  );
  return {
    fromPx: plate.topPx + topPx,
    toPx: plate.topPx + bottomPx,
    wordOf: values =>
      [
        values.clockUnits === undefined ? 'stopped' : 'running',
        ...numbers.map(({ id, shape }) => cellsText(id, shape, values, plan)),
      ].join(BETWEEN),
    draw(rows, word) {
      const [ink, ...texts] = word.split(BETWEEN);
      for (const [index, field] of numbers.entries()) {
        const sheet = inks[index]?.[ink === 'stopped' ? 'stopped' : 'running'];
        for (const [cell, { xPx }] of field.cells.entries()) {
          // A space is the empty plate, which stands there already.
          const picture = sheet?.get(texts[index]?.[cell] ?? ' ');
          if (picture) put(rows, size, picture, plate.leftPx + xPx, field.yPx - topPx);
        }
      }
    },
  };
}

/** A picture of every character that may stand in the field's cells, on paper. */
async function characterPictures(
  field: NumberField,
  ink: TextMark['ink'],
  draw: Draw,
  lettering: Lettering,
): Promise<ReadonlyMap<string, Pixels>> {
  const { style, characters, cellHeightPx, baselinePx } = field;
  const pictures = new Map<string, Pixels>();
  for (const { character, widthPx } of characters) {
    const marginPx = (widthPx - lettering.width(character, style)) / 2;
    const marks = [
      rectangle(0, 0, widthPx, cellHeightPx, 'paper'),
      textMark(character, style, marginPx, baselinePx, ink),
    ];
    pictures.set(character, await draw(marks, widthPx, cellHeightPx));
  }
  return pictures;
}

/** The rows of the split line. */
async function splitsBand(plate: FittedRunningPlate, size: FrameSize, draw: Draw): Promise<LiveBand> {
  const { splits } = plate;
  const topPx = Math.min(...splits.map(({ yPx }) => yPx));
  const bottomPx = Math.max(...splits.map(({ yPx, heightPx }) => yPx + heightPx));
  const drawn = await Promise.all(
    splits.map(({ marks, widthPx, heightPx }) =>
      Promise.all(
        STATES.map(state =>
          draw([rectangle(0, 0, widthPx, heightPx, 'paper'), ...marks[state]], widthPx, heightPx),
        ),
      ),
    ),
  );
  return {
    fromPx: plate.topPx + topPx,
    toPx: plate.topPx + bottomPx,
    wordOf: values => values.splits.map(state => STATES.indexOf(state)).join(''),
    draw(rows, word) {
      for (const [index, { xPx, yPx }] of splits.entries()) {
        const picture = drawn[index]?.[Number(word[index])];
        if (picture) put(rows, size, picture, plate.leftPx + xPx, yPx - topPx);
      }
    },
  };
}

/** Copies a picture onto PNG rows with its top left corner at (x, y); what is above or below the rows is left out. */
function put(rows: Uint8Array, size: FrameSize, picture: Pixels, x: number, y: number): void {
  const stride = rowBytes(size.widthPx);
  const rowLength = picture.widthPx * 4;
  const first = Math.max(0, -y);
  const last = Math.min(picture.heightPx, rows.length / stride - y);
  for (let row = first; row < last; row++) {
    const from = row * rowLength;
    rows.set(picture.rgba.subarray(from, from + rowLength), (y + row) * stride + 1 + x * 4);
  }
}
