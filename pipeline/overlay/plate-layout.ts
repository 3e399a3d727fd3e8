/** Where everything on a plate stands: head beside or above its numbers, foot below. */
import type { Mark } from './marks.ts';
import type { PlateContent, ProseBody } from './plate.ts';
import {
  type Block,
  GAP,
  horizontalHairline,
  type Layer,
  moved,
  type PlateRoom,
  rectangle,
  verticalHairline,
} from './plate-block.ts';
import { factsBlock } from './plate-facts.ts';
import { columnsBlock, headlineBlock } from './plate-numbers.ts';
import { compactHeadBlock, footBlock, headBlock, proseUnderHead } from './plate-words.ts';

export interface PlateLayout {
  readonly marks: readonly Mark[];
  /** Whole pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Whether text was cut to fit. */
  readonly cut: boolean;
}

const PAD_X = 36;
const RULE_HEIGHT = 5;
/** A plate narrower than this looks lost under its own foot. */
const LEAST_WIDTH = 1080;
/** A plate is made wider for its foot by this much at most. */
const MOST_WIDENING = 1.3;
/** Share of the plate that is the head's at least, beside numbers. */
const HEAD_SHARE = { headline: 0.5, columns: 0.3, facts: 0.32 } as const;

/** The plate at one size; it may come out larger than the room, which the caller sees from width and height. */
export function layOutPlate(content: PlateContent, room: PlateRoom): PlateLayout {
  const { unitPx } = room;
  const layer: Layer = {
    ...room,
    style: (face, weight, units) => ({ face, weight, sizePx: units * unitPx }),
  };
  const innerPx = room.widthPx - 2 * PAD_X * unitPx;
  const footOf = (innerWidthPx: number): Block => footBlock(content.foot, innerWidthPx, layer);
  const usualPx = Math.min(innerPx, LEAST_WIDTH * unitPx - 2 * PAD_X * unitPx);
  const wholeWidth = room.upright || room.compact === true;
  const bodyOf = (leastPx: number): Block =>
    wholeWidth ? stacked(content, innerPx, layer) : sideBySide(content, leastPx, innerPx, layer);
  const plateInnerPx = wholeWidth
    ? innerPx
    : widthForFoot(Math.max(usualPx, bodyOf(usualPx).widthPx), innerPx, footOf);
  const body = bodyOf(plateInnerPx);
  const foot = footOf(plateInnerPx);
  const widthPx = wholeWidth ? room.widthPx : Math.ceil(plateInnerPx + 2 * PAD_X * unitPx);
  const bodyPx = Math.ceil(body.heightPx);
  const footPx = Math.ceil(foot.heightPx);
  const marks: Mark[] = [
    rectangle(0, 0, widthPx, bodyPx, 'paper'),
    rectangle(0, 0, widthPx, Math.max(1, Math.round(RULE_HEIGHT * unitPx)), 'accent'),
    ...moved(body.marks, PAD_X * unitPx, 0),
  ];
  if (footPx > 0) {
    marks.push(rectangle(0, bodyPx, widthPx, footPx, 'slate'), ...moved(foot.marks, PAD_X * unitPx, bodyPx));
  }
  return { marks, widthPx, heightPx: bodyPx + footPx, cut: body.cut || foot.cut };
}

/** The plate grows wider, step by step, where that saves the foot a line. */
function widthForFoot(leastPx: number, mostPx: number, footOf: (widthPx: number) => Block): number {
  let bestPx = leastPx;
  for (let widthPx = leastPx; widthPx <= mostPx; widthPx += leastPx / 50) {
    if (widthPx > leastPx * MOST_WIDENING) break;
    if (footOf(widthPx).heightPx < footOf(bestPx).heightPx) bestPx = widthPx;
  }
  return bestPx;
}

function sideBySide(content: PlateContent, leastPx: number, innerPx: number, layer: Layer): Block {
  const { unitPx } = layer;
  const gapPx = GAP * unitPx;
  const body = content.content;
  if (body.body === 'prose') return proseUnderHead(content, body, innerPx, layer);
  // Numbers first: they are never cut, and the head may have all that they leave.
  const mostPx = innerPx * (1 - HEAD_SHARE[body.body]) - gapPx;
  const numbersOf = (leastHeightPx: number): Block => numbersBlock(body, mostPx, 1, leastHeightPx, layer);
  const head = headBlock(content, innerPx - gapPx - numbersOf(0).widthPx, layer);
  const numbers = numbersOf(head.heightPx);
  const widthPx = Math.max(head.widthPx + gapPx + numbers.widthPx, leastPx);
  const heightPx = Math.max(head.heightPx, numbers.heightPx);
  // A headline number stands at the right edge, columns follow the head.
  const numbersX = body.body === 'headline' ? widthPx - numbers.widthPx : head.widthPx + gapPx;
  return {
    marks: [
      ...head.marks,
      verticalHairline(numbersX - gapPx / 2, heightPx, unitPx),
      ...moved(numbers.marks, numbersX, 0),
    ],
    widthPx,
    heightPx,
    cut: head.cut || numbers.cut,
  };
}

function numbersBlock(
  body: Exclude<PlateContent['content'], ProseBody>,
  maxWidthPx: number,
  rows: number,
  leastHeightPx: number,
  layer: Layer,
): Block {
  switch (body.body) {
    case 'headline':
      return headlineBlock(body, maxWidthPx, layer);
    case 'columns':
      return columnsBlock(body, maxWidthPx, rows, leastHeightPx, layer);
    case 'facts':
      return factsBlock(body, maxWidthPx, layer);
  }
}

function stacked(content: PlateContent, innerPx: number, layer: Layer): Block {
  const { unitPx } = layer;
  if (content.content.body === 'prose') return proseUnderHead(content, content.content, innerPx, layer);
  const head = layer.compact ? compactHeadBlock(content, innerPx, layer) : headBlock(content, innerPx, layer);
  const rows =
    !layer.compact && content.content.body === 'columns' && content.content.columns.length > 3 ? 2 : 1;
  const numbers = numbersBlock(content.content, innerPx, rows, 0, layer);
  return {
    marks: [
      ...head.marks,
      horizontalHairline(head.heightPx, innerPx, unitPx),
      ...moved(numbers.marks, 0, head.heightPx),
    ],
    widthPx: innerPx,
    heightPx: head.heightPx + numbers.heightPx,
    cut: head.cut || numbers.cut,
  };
}
