/** Where everything on a running plate stands: what never changes as marks, what does as fields of fixed cells. */
import type { TextStyle } from '../lettering/lettering.ts';
import type { Mark } from '../overlay/marks.ts';
import {
  type Block,
  GAP,
  HEAD_BOTTOM,
  type Layer,
  moved,
  type PlateRoom,
  rectangle,
  textMark,
  verticalHairline,
} from '../overlay/plate-block.ts';
import { footBlock, headBlock } from '../overlay/plate-words.ts';
import { type RunningContent, type RunningNumber, UNKNOWN } from './content.ts';
import { type SplitPlace, splitLine } from './split-line.ts';

/** A number whose digits each have a cell of their own, so that none moves when another changes. */
export interface NumberField {
  readonly id: RunningNumber['id'];
  readonly style: TextStyle;
  /** What may stand in a cell, and the width of its picture: digits are equally wide, a decimal sign is narrower. */
  readonly characters: readonly { readonly character: string; readonly widthPx: number }[];
  /** One for each character of the number's shape; whole pixels from the plate's top left corner. */
  readonly cells: readonly { readonly xPx: number }[];
  readonly shape: string;
  readonly yPx: number;
  readonly cellHeightPx: number;
  /** From the cell's top. */
  readonly baselinePx: number;
}

export interface RunningLayout {
  readonly marks: readonly Mark[];
  readonly numbers: readonly NumberField[];
  readonly splits: readonly SplitPlace[];
  /** Whole pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly cut: boolean;
}

const DIGITS = '0123456789';
const PAD_X = 36;
const RULE_HEIGHT = 5;
const LEAST_WIDTH = 1080;
const NUMBER = { head: 24, headBaseline: 40, toBaseline: 80, unit: 28, afterValue: 9 } as const;
const SIZE = { clock: 88, other: 58 } as const;
/** Numbers farther apart no longer read as one line, units. */
const MOST_GAP = 150;
/** Top and bottom of a cell from its baseline, em: digits stand between 0 and 0.7, a decimal comma hangs below. */
const CELL = { above: 0.74, below: 0.2 } as const;

interface NumberBlock extends Block {
  readonly fields: readonly NumberField[];
}

/** The plate at one size; it may come out larger than the room, which the caller sees from width and height. */
export function layOutRunningPlate(content: RunningContent, room: PlateRoom): RunningLayout {
  const { unitPx } = room;
  const layer: Layer = {
    ...room,
    style: (face, weight, units) => ({ face, weight, sizePx: units * unitPx }),
  };
  const padPx = Math.round(PAD_X * unitPx);
  const mostPx = room.widthPx - 2 * padPx;
  const numbers = numbersBlock(content.numbers, room.upright ? mostPx : 0, layer);
  const head = headBlock(content, room.upright ? mostPx : mostPx - numbers.widthPx - GAP * unitPx, layer);
  const bodyPx = room.upright
    ? Math.max(head.widthPx, numbers.widthPx)
    : head.widthPx + GAP * unitPx + numbers.widthPx;
  const leastPx = LEAST_WIDTH * unitPx - 2 * padPx;
  const splitsOf = (innerPx: number) => splitLine(content.splits, innerPx, layer);
  const wantedPx = Math.max(
    bodyPx,
    leastPx,
    splitsOf(mostPx).widthPx,
    footBlock(content.foot, mostPx, layer).widthPx,
  );
  const innerPx = room.upright ? mostPx : Math.ceil(Math.min(mostPx, wantedPx));
  const splits = splitsOf(innerPx);
  const foot = footBlock(content.foot, innerPx, layer);

  const numbersX = Math.round(room.upright ? 0 : innerPx - numbers.widthPx);
  const numbersY = room.upright ? Math.round(head.heightPx - 12 * unitPx) : 0;
  const bodyHeightPx = Math.ceil(
    room.upright ? numbersY + numbers.heightPx : Math.max(head.heightPx, numbers.heightPx),
  );
  const splitsPx = Math.ceil(splits.heightPx);
  const footPx = Math.ceil(foot.heightPx);
  const widthPx = room.upright ? room.widthPx : innerPx + 2 * padPx;
  const paperPx = bodyHeightPx + splitsPx;
  const lines: readonly Mark[] = room.upright
    ? []
    : [verticalHairline(numbersX - (GAP / 2) * unitPx, bodyHeightPx, unitPx)];
  const marks: readonly Mark[] = [
    rectangle(0, 0, widthPx, paperPx, 'paper'),
    rectangle(0, 0, widthPx, Math.max(1, Math.round(RULE_HEIGHT * unitPx)), 'accent'),
    ...moved([...head.marks, ...lines, ...moved(numbers.marks, numbersX, numbersY)], padPx, 0),
    ...moved(splits.marks, padPx, bodyHeightPx),
    rectangle(0, paperPx, widthPx, footPx, 'slate'),
    ...moved(foot.marks, padPx, paperPx),
  ];
  return {
    marks,
    numbers: numbers.fields.map(field => ({
      ...field,
      yPx: field.yPx + numbersY,
      cells: field.cells.map(({ xPx }) => ({ xPx: xPx + padPx + numbersX })),
    })),
    splits: splits.places.map(place => ({ ...place, xPx: place.xPx + padPx, yPx: place.yPx + bodyHeightPx })),
    widthPx,
    heightPx: paperPx + footPx,
    cut: head.cut || foot.cut || splits.cut || innerPx + 0.5 < bodyPx,
  };
}

/** Clock, speed and distance side by side on one baseline, spread over `leastPx` where they need less. */
function numbersBlock(numbers: readonly RunningNumber[], leastPx: number, layer: Layer): NumberBlock {
  const { unitPx } = layer;
  const blocks = numbers.map(number => numberBlock(number, layer));
  const needsPx = blocks.reduce((sum, { widthPx }) => sum + Math.ceil(widthPx), 0);
  const gapPx = Math.max(
    GAP * unitPx,
    Math.min(MOST_GAP * unitPx, (leastPx - needsPx) / (numbers.length - 1)),
  );
  const marks: Mark[] = [];
  const fields: NumberField[] = [];
  let x = 0;
  let heightPx = 0;
  for (const [index, block] of blocks.entries()) {
    heightPx = Math.max(heightPx, block.heightPx);
    if (index > 0) {
      x += Math.round(gapPx);
      marks.push(verticalHairline(x - gapPx / 2, block.heightPx, unitPx));
    }
    marks.push(...moved(block.marks, x, 0));
    fields.push(
      ...block.fields.map(field => ({ ...field, cells: field.cells.map(({ xPx }) => ({ xPx: xPx + x })) })),
    );
    x += Math.ceil(block.widthPx);
  }
  return { marks, fields, widthPx: x, heightPx, cut: false };
}

/** One number under what it is of: a cell for each digit, the decimal sign and the unit standing still between them. */
function numberBlock(number: RunningNumber, layer: Layer): NumberBlock {
  const { unitPx, lettering, style } = layer;
  const clock = number.id === 'clock';
  const valueStyle = style(
    layer.theme?.numberFace ?? 'serif',
    clock ? 700 : 600,
    clock ? SIZE.clock : SIZE.other,
  );
  const headStyle = style('sans', 600, NUMBER.head);
  const headY = NUMBER.headBaseline * unitPx;
  const y = Math.round(headY + NUMBER.toBaseline * unitPx);
  const digits = [...DIGITS, UNKNOWN].map(digit => lettering.width(digit, valueStyle));
  const cellWidthPx = Math.ceil(Math.max(...digits));
  const marks: Mark[] = [textMark(number.head, headStyle, 0, headY, 'muted')];
  const signs = [...new Set(number.shape.replaceAll('0', ''))];
  const characters = [
    ...[...DIGITS, UNKNOWN].map(character => ({ character, widthPx: cellWidthPx })),
    ...signs.map(character => ({ character, widthPx: Math.ceil(lettering.width(character, valueStyle)) })),
  ];
  const cells: { xPx: number }[] = [];
  let x = 0;
  for (const character of number.shape) {
    cells.push({ xPx: x });
    x += characters.find(each => each.character === character)?.widthPx ?? cellWidthPx;
  }
  const unitStyle = style('sans', 400, NUMBER.unit * (clock ? 1.4 : 1));
  const unitX = x + NUMBER.afterValue * unitPx;
  marks.push(textMark(number.unit, unitStyle, unitX, y, 'ink'));
  const above = Math.ceil(CELL.above * valueStyle.sizePx);
  const field: NumberField = {
    id: number.id,
    style: valueStyle,
    characters,
    cells,
    shape: number.shape,
    yPx: y - above,
    cellHeightPx: above + Math.ceil(CELL.below * valueStyle.sizePx),
    baselinePx: above,
  };
  return {
    marks,
    fields: [field],
    widthPx: Math.max(
      unitX + lettering.width(number.unit, unitStyle),
      lettering.width(number.head, headStyle),
    ),
    heightPx: y + HEAD_BOTTOM * unitPx,
    cut: false,
  };
}
