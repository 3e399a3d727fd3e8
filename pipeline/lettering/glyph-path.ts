/** Shaped glyphs as SVG path data, in px or in whole hundredths of one. */

export interface Outline {
  readonly type: string;
  readonly values: readonly number[];
}

/** A glyph at its place on the line; lengths in em, y upwards. */
export interface PlacedGlyph {
  /** Of its face, weight and file: the same name is the same outline wherever it stands. */
  readonly name: string;
  readonly outline: readonly Outline[];
  readonly unitsPerEm: number;
  readonly xEm: number;
  readonly yEm: number;
}

/** 0.01 px: far below what a raster shows, and short files. */
const SCALE = 100;

/** Absolute, in px; every number in its shortest form at the path's resolution, never `-0`. */
export const glyphsToPath = (glyphs: readonly PlacedGlyph[], sizePx: number, x: number, y: number): string =>
  writePath(glyphs, sizePx, x, y, (begin, { type, values }, scale, originX, originY) => {
    let at = begin;
    written[at++] = type.charCodeAt(0);
    for (let index = 0; index < values.length; index += 2) {
      if (index > 0) written[at++] = SPACE;
      at = writeHundredths(written, at, Math.round((originX + values[index]! * scale) * SCALE));
      written[at++] = SPACE;
      at = writeHundredths(written, at, Math.round((originY - values[index + 1]! * scale) * SCALE));
    }
    return at;
  });

/** Steps of a shared outline in an em: a point is off by 0.002 em at most, 0.05 px in the largest letters of a figure. */
export const SHARED_STEPS = 250;

/** One glyph in steps of its em, y downwards, from its own origin: the same bytes wherever and however large it stands. */
export function glyphOutline({ outline, unitsPerEm }: PlacedGlyph): string {
  const steps = (value: number): number => Math.round((value / unitsPerEm) * SHARED_STEPS);
  let text = '';
  let said = '';
  const say = (command: string, ...numbers: readonly number[]): void => {
    // Neighbours of one command need it only once, except that what follows a move would be a line.
    const letter = command === said && command !== 'm' ? '' : command;
    text += letter;
    for (const [at, value] of numbers.entries())
      text += (at === 0 && letter !== '') || value < 0 ? value : ` ${value}`;
    said = command;
  };
  let [x, y, startX, startY] = [0, 0, 0, 0];
  for (const [index, { type, values }] of outline.entries()) {
    const command = type.toLowerCase();
    const to = values.map((value, at) => (at % 2 === 0 ? steps(value) : steps(-value)));
    if (command === 'z') {
      say('z');
      [x, y] = [startX, startY];
      continue;
    }
    const relative = to.map((value, at) => value - (at % 2 === 0 ? x : y));
    [x, y] = [to.at(-2)!, to.at(-1)!];
    if (command === 'm') [startX, startY] = [x, y];
    const [dx = 0, dy = 0] = relative;
    if (command !== 'l') say(command, ...relative);
    else if (outline[index + 1]?.type === 'Z' && x === startX && y === startY) continue;
    else if (dx === 0 && dy === 0) continue;
    else if (dy === 0) say('h', dx);
    else if (dx === 0) say('v', dy);
    else say('l', dx, dy);
  }
  return text;
}

/** Where a pen is and where its part of the path began, in whole hundredths. */
export interface Pen {
  x: number;
  y: number;
  startX: number;
  startY: number;
}

export const penAtOrigin = (): Pen => ({ x: 0, y: 0, startX: 0, startY: 0 });

/**
 * The same in whole hundredths, each point relative to where the pen is: a third of the bytes. Rounding does not add
 * up, because every step is between two rounded points. Moves the pen on.
 */
export const glyphsToCompactPath = (
  glyphs: readonly PlacedGlyph[],
  sizePx: number,
  x: number,
  y: number,
  pen: Pen,
): string =>
  writePath(glyphs, sizePx, x, y, (begin, { type, values }, scale, originX, originY) => {
    let at = begin;
    if (type === 'Z') {
      written[at++] = LETTER_Z;
      pen.x = pen.startX;
      pen.y = pen.startY;
      return at;
    }
    written[at++] = type.charCodeAt(0) + TO_LOWER_CASE;
    const { x: fromX, y: fromY } = pen;
    for (let index = 0; index < values.length; index += 2) {
      const toX = Math.round((originX + values[index]! * scale) * SCALE);
      const toY = Math.round((originY - values[index + 1]! * scale) * SCALE);
      if (index > 0 && toX >= fromX) written[at++] = SPACE;
      at = writeWhole(written, at, toX - fromX);
      if (toY >= fromY) written[at++] = SPACE;
      at = writeWhole(written, at, toY - fromY);
      pen.x = toX;
      pen.y = toY;
    }
    if (type === 'M') {
      pen.startX = pen.x;
      pen.startY = pen.y;
    }
    return at;
  });

/** Writes one command from `at` on, its points in px from where the glyph stands; where it ends. */
type WriteCommand = (at: number, command: Outline, scale: number, originX: number, originY: number) => number;

/** All commands of the glyphs, one after another. */
function writePath(
  glyphs: readonly PlacedGlyph[],
  sizePx: number,
  x: number,
  y: number,
  write: WriteCommand,
): string {
  let at = 0;
  for (const { outline, unitsPerEm, xEm, yEm } of glyphs) {
    for (const command of outline) {
      if (at > written.length - MOST_OF_A_COMMAND) written = longer(written);
      at = write(at, command, sizePx / unitsPerEm, x + xEm * sizePx, y - yEm * sizePx);
    }
  }
  return ASCII.decode(written.subarray(0, at));
}

const [SPACE, MINUS, POINT, DIGIT_0, LETTER_Z] = [0x20, 0x2d, 0x2e, 0x30, 0x7a];
const TO_LOWER_CASE = 0x20;
/** A curve has six numbers; each has a space before it, a sign, a point and at most sixteen digits. */
const MOST_OF_A_COMMAND = 128;
const ASCII = new TextDecoder('latin1');

/** Where a path is put together: its digits are written as bytes, which takes a third of the time of joining texts. */
let written = new Uint8Array(1 << 16);

function longer(bytes: Uint8Array<ArrayBuffer>): Uint8Array<ArrayBuffer> {
  const twice = new Uint8Array(bytes.length * 2);
  twice.set(bytes);
  return twice;
}

/** A whole number as text from `at` on; where it ends. */
function writeWhole(bytes: Uint8Array, at: number, value: number): number {
  let rest = value;
  let from = at;
  if (value < 0) {
    bytes[from++] = MINUS;
    rest = -value;
  }
  let end = from + 1;
  for (let power = 10; power <= rest; power *= 10) end += 1;
  for (let place = end - 1; place >= from; place--) {
    const tenth = Math.floor(rest / 10);
    bytes[place] = DIGIT_0 + rest - tenth * 10;
    rest = tenth;
  }
  return end;
}

/** So many hundredths as a decimal number without needless zeros from `at` on; where it ends. */
function writeHundredths(bytes: Uint8Array, at: number, hundredths: number): number {
  let from = at;
  if (hundredths < 0) bytes[from++] = MINUS;
  const size = Math.abs(hundredths);
  const units = Math.floor(size / 100);
  const rest = size - units * 100;
  let end = writeWhole(bytes, from, units);
  if (rest === 0) return end;
  const tenths = Math.floor(rest / 10);
  bytes[end++] = POINT;
  bytes[end++] = DIGIT_0 + tenths;
  if (rest > tenths * 10) bytes[end++] = DIGIT_0 + rest - tenths * 10;
  return end;
}
