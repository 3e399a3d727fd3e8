/** Where everything on a plate stands. Lengths are given in units of the plate and become px here. */
import type { FaceId, Lettering, TextStyle, Weight } from '../lettering/lettering.ts';
import { cutLine, type FitRule, fitText, wrapParts, wrapWords } from './fit.ts';
import { type Mark, type TextMark, trackedWidth } from './marks.ts';
import type { Column, ColumnsBody, HeadlineBody, PlateContent, ProseBody } from './plate.ts';

export interface PlateLayout {
  readonly marks: readonly Mark[];
  /** Whole pixels. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Whether text was cut to fit. */
  readonly cut: boolean;
}

export interface PlateRoom {
  /** Length of one unit, px. */
  readonly unitPx: number;
  readonly widthPx: number;
  /** Taller than wide: head above the numbers instead of beside them. */
  readonly upright: boolean;
  readonly lettering: Lettering;
}

const PAD_X = 36;
const RULE_HEIGHT = 5;
const GAP = 56;
const LABEL = { size: 20, tracking: 0.14, baseline: 38 } as const;
const TITLE = { size: 46, above: 13, lineHeight: 1.06, smallest: 0.66, wrapped: 0.74 } as const;
const SUBTITLE = { size: 27, toBaseline: 37 } as const;
const HEAD_BOTTOM = 21;
const NUMBER = { head: 25, headBaseline: 40, size: 92, toBaseline: 82, unit: 44, uncertainty: 34 } as const;
/** Space between a value, its unit and its uncertainty, em of the value. */
const AFTER_VALUE = 0.16;
const COLUMN = { head: 24, size: 58, unit: 28, note: 22, headBaseline: 40, toValue: 58, toNote: 31 } as const;
const PROSE = { size: 29, lineHeight: 40 } as const;
const FOOT = { size: 23, lineHeight: 31, pad: 12 } as const;
const FOOT_BETWEEN = '\u2002·\u2002';
/** A plate narrower than this looks lost under its own foot. */
const LEAST_WIDTH = 1080;
/** A plate is made wider for its foot by this much at most. */
const MOST_WIDENING = 1.3;
/** Share of the plate that is the head's at least, beside numbers. */
const HEAD_SHARE = { headline: 0.5, columns: 0.3 } as const;

/** Marks of one part of a plate, from that part's own top left corner, and the room they take. */
interface Block {
  readonly marks: readonly Mark[];
  readonly widthPx: number;
  readonly heightPx: number;
  readonly cut: boolean;
}

type Layer = PlateRoom & { readonly style: (face: FaceId, weight: Weight, units: number) => TextStyle };

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
  const bodyOf = (leastPx: number): Block =>
    room.upright ? stacked(content, innerPx, layer) : sideBySide(content, leastPx, innerPx, layer);
  const plateInnerPx = room.upright
    ? innerPx
    : widthForFoot(Math.max(usualPx, bodyOf(usualPx).widthPx), innerPx, footOf);
  const body = bodyOf(plateInnerPx);
  const foot = footOf(plateInnerPx);
  const widthPx = room.upright ? room.widthPx : Math.ceil(plateInnerPx + 2 * PAD_X * unitPx);
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
  const numbersOf = (leastHeightPx: number): Block =>
    body.body === 'headline'
      ? headlineBlock(body, mostPx, layer)
      : columnsBlock(body, mostPx, 1, leastHeightPx, layer);
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

function stacked(content: PlateContent, innerPx: number, layer: Layer): Block {
  const { unitPx } = layer;
  if (content.content.body === 'prose') return proseUnderHead(content, content.content, innerPx, layer);
  const head = headBlock(content, innerPx, layer);
  const rows = content.content.body === 'columns' && content.content.columns.length > 3 ? 2 : 1;
  const numbers =
    content.content.body === 'headline'
      ? headlineBlock(content.content, innerPx, layer)
      : columnsBlock(content.content, innerPx, rows, 0, layer);
  const line = rectangle(0, head.heightPx, innerPx, Math.max(1, Math.round(1.5 * unitPx)), 'hairline');
  return {
    marks: [...head.marks, line, ...moved(numbers.marks, 0, head.heightPx)],
    widthPx: innerPx,
    heightPx: head.heightPx + numbers.heightPx,
    cut: head.cut || numbers.cut,
  };
}

/** Label, title and subtitle, one under the other. */
function headBlock(content: PlateContent, maxWidthPx: number, layer: Layer): Block {
  const { unitPx, lettering, style } = layer;
  const labelStyle = style('sans', 600, LABEL.size);
  const label = cutTracked(content.label.toUpperCase(), labelStyle, maxWidthPx, lettering);
  let y = LABEL.baseline * unitPx;
  const marks: Mark[] = [{ ...textMark(label, labelStyle, 0, y, 'accent'), trackingEm: LABEL.tracking }];
  let widthPx = trackedWidth(label, labelStyle, LABEL.tracking, lettering);
  const title = fitText(
    content.title,
    style('serif', 600, TITLE.size),
    { maxWidthPx, maxLines: 2, smallest: TITLE.smallest, largestWrapped: TITLE.wrapped },
    lettering,
  );
  for (const [index, line] of title.lines.entries()) {
    y +=
      index === 0 ? title.style.sizePx * 0.8 + TITLE.above * unitPx : title.style.sizePx * TITLE.lineHeight;
    marks.push(textMark(line, title.style, 0, y, 'ink'));
  }
  widthPx = Math.max(widthPx, title.widthPx);
  let cut = title.cut;
  if (content.subtitle !== undefined) {
    const rule: FitRule = { maxWidthPx, maxLines: 1, smallest: 0.8 };
    const subtitle = fitText(content.subtitle, style('sans', 400, SUBTITLE.size), rule, lettering);
    y += SUBTITLE.toBaseline * unitPx;
    marks.push(textMark(subtitle.lines[0] ?? '', subtitle.style, 0, y, 'muted'));
    widthPx = Math.max(widthPx, subtitle.widthPx);
    cut ||= subtitle.cut;
  }
  return { marks, widthPx, heightPx: y + HEAD_BOTTOM * unitPx, cut };
}

/** One large number on the baseline of its unit and its uncertainty, under what it is of. */
function headlineBlock(body: HeadlineBody, maxWidthPx: number, layer: Layer): Block {
  const { unitPx, lettering, style } = layer;
  const head = fitText(
    body.head,
    style('sans', 600, NUMBER.head),
    { maxWidthPx, maxLines: 1, smallest: 0.8 },
    lettering,
  );
  const headY = NUMBER.headBaseline * unitPx;
  const y = headY + NUMBER.toBaseline * unitPx;
  const marks: Mark[] = [textMark(head.lines[0] ?? '', head.style, 0, headY, 'muted')];
  const x = numberMarks(
    body.value,
    [
      [body.unit, style('sans', 400, NUMBER.unit), 'ink'],
      [body.uncertainty ?? '', style('sans', 400, NUMBER.uncertainty), 'muted'],
    ],
    style('serif', 700, NUMBER.size),
    'ink',
    0,
    y,
    marks,
    layer,
  );
  return {
    marks,
    widthPx: Math.max(x, head.widthPx),
    heightPx: y + HEAD_BOTTOM * unitPx,
    cut: head.cut,
  };
}

/** Columns in one row or two, each row's columns as wide as the widest. */
function columnsBlock(
  body: ColumnsBody,
  maxWidthPx: number,
  rows: number,
  leastHeightPx: number,
  layer: Layer,
): Block {
  const { unitPx } = layer;
  const gapPx = GAP * unitPx;
  const perRow = Math.max(1, Math.ceil(body.columns.length / rows));
  const mostPx = (maxWidthPx - (perRow - 1) * gapPx) / perRow;
  const cellsWithin = (widthPx: number): readonly Block[] =>
    body.columns.map(column => columnBlock(column, widthPx, rows > 1, layer));
  // Beside a head a wide column may take what narrow ones leave; only where all are too wide does each get a share.
  const free = layer.upright ? undefined : cellsWithin(maxWidthPx);
  const freePx = free?.reduce((sum, cell) => sum + cell.widthPx + gapPx, -gapPx) ?? Number.POSITIVE_INFINITY;
  const cells = free !== undefined && freePx <= maxWidthPx ? free : cellsWithin(mostPx);
  // In a stack the columns share the width; beside a head each takes what it needs.
  const sharedPx = layer.upright ? mostPx : undefined;
  const marks: Mark[] = [];
  let widthPx = 0;
  let rowTop = 0;
  for (let first = 0; first < cells.length; first += perRow) {
    const row = cells.slice(first, first + perRow);
    const rowPx = Math.max(leastHeightPx, ...row.map(cell => cell.heightPx));
    let x = 0;
    for (const [index, cell] of row.entries()) {
      if (index > 0) marks.push(...moved([verticalHairline(x - gapPx / 2, rowPx, unitPx)], 0, rowTop));
      marks.push(...moved(cell.marks, x, rowTop));
      x += (sharedPx ?? cell.widthPx) + gapPx;
    }
    widthPx = Math.max(widthPx, x - gapPx);
    // Rows under each other need less air than a row between head and foot.
    rowTop += first + perRow < cells.length ? rowPx - 10 * unitPx : rowPx;
  }
  return { marks, widthPx, heightPx: rowTop, cut: cells.some(cell => cell.cut) };
}

function columnBlock(column: Column, maxWidthPx: number, noteBeside: boolean, layer: Layer): Block {
  const { unitPx, lettering, style } = layer;
  const rule: FitRule = { maxWidthPx, maxLines: 1, smallest: 0.8 };
  const head = fitText(column.head, style('sans', 600, COLUMN.head), rule, lettering);
  const headY = COLUMN.headBaseline * unitPx;
  let y = headY + COLUMN.toValue * unitPx;
  const marks: Mark[] = [textMark(head.lines[0] ?? '', head.style, 0, headY, 'muted')];
  const noteStyle = style('sans', 400, COLUMN.note);
  const valueStyle = style('serif', 600, COLUMN.size);
  const beside = noteBeside && column.notes.length === 1 ? (column.notes[0] ?? '') : '';
  const x = numberMarks(
    column.value,
    [
      [column.unit, style('sans', 400, COLUMN.unit), 'ink'],
      [beside, noteStyle, 'muted'],
    ],
    valueStyle,
    column.strong ? 'accent' : 'ink',
    0,
    y,
    marks,
    layer,
  );
  let widthPx = Math.max(head.widthPx, x);
  let cut = head.cut;
  const under = beside === '' ? column.notes.join(FOOT_BETWEEN) : '';
  if (under !== '') {
    const notes = fitText(under, noteStyle, rule, lettering);
    y += COLUMN.toNote * unitPx;
    marks.push(textMark(notes.lines[0] ?? '', notes.style, 0, y, 'muted'));
    widthPx = Math.max(widthPx, notes.widthPx);
    cut ||= notes.cut;
  }
  return { marks, widthPx, heightPx: y + HEAD_BOTTOM * unitPx, cut: cut || widthPx > maxWidthPx };
}

/** A value followed by smaller words on the same baseline; returns where they end. */
function numberMarks(
  value: string,
  after: readonly (readonly [text: string, style: TextStyle, ink: TextMark['ink']])[],
  valueStyle: TextStyle,
  valueInk: TextMark['ink'],
  x: number,
  y: number,
  marks: Mark[],
  { lettering }: Layer,
): number {
  marks.push(textMark(value, valueStyle, x, y, valueInk));
  let atPx = x + lettering.width(value, valueStyle);
  for (const [text, style, ink] of after) {
    if (text === '') continue;
    atPx += valueStyle.sizePx * AFTER_VALUE;
    marks.push(textMark(text, style, atPx, y, ink));
    atPx += lettering.width(text, style);
  }
  return atPx;
}

/** Head, and under it a text over the whole width. */
function proseUnderHead(content: PlateContent, body: ProseBody, innerPx: number, layer: Layer): Block {
  const { unitPx, lettering, style } = layer;
  const head = headBlock(content, innerPx, layer);
  const prose = style('sans', 400, PROSE.size);
  const lines = wrapWords(body.text, prose, innerPx, lettering);
  let y = head.heightPx - HEAD_BOTTOM * unitPx + 5 * unitPx;
  const marks: Mark[] = [...head.marks];
  let widthPx = head.widthPx;
  let cut = head.cut;
  for (const line of lines) {
    const fitting = cutLine(line, prose, innerPx, lettering);
    cut ||= fitting !== line;
    y += PROSE.lineHeight * unitPx;
    marks.push(textMark(fitting, prose, 0, y, 'ink'));
    widthPx = Math.max(widthPx, lettering.width(fitting, prose));
  }
  return { marks, widthPx, heightPx: y + HEAD_BOTTOM * unitPx, cut };
}

/** The phrases of the foot, broken between phrases where the line is full, otherwise between words. */
function footBlock(phrases: readonly string[], maxWidthPx: number, layer: Layer): Block {
  const { unitPx, lettering, style } = layer;
  if (phrases.length === 0) return { marks: [], widthPx: 0, heightPx: 0, cut: false };
  const text = style('sans', 400, FOOT.size);
  const lines = wrapParts(phrases, FOOT_BETWEEN, text, maxWidthPx, lettering).flatMap(line =>
    lettering.width(line, text) <= maxWidthPx ? [line] : wrapWords(line, text, maxWidthPx, lettering),
  );
  const fitting = lines.map(line => cutLine(line, text, maxWidthPx, lettering));
  const marks = fitting.map((line, index) =>
    textMark(line, text, 0, (FOOT.pad + FOOT.size + index * FOOT.lineHeight - 2) * unitPx, 'onSlate'),
  );
  return {
    marks,
    widthPx: Math.max(...fitting.map(line => lettering.width(line, text))),
    heightPx: (2 * FOOT.pad + FOOT.size + (lines.length - 1) * FOOT.lineHeight) * unitPx,
    cut: fitting.some((line, index) => line !== lines[index]),
  };
}

/** Letter-spaced text, or as much of it as leaves room for an ellipsis. */
function cutTracked(text: string, style: TextStyle, maxWidthPx: number, lettering: Lettering): string {
  if (trackedWidth(text, style, LABEL.tracking, lettering) <= maxWidthPx) return text;
  const characters = [...text];
  while (characters.length > 0) {
    characters.pop();
    const shorter = `${characters.join('').trimEnd()}…`;
    if (trackedWidth(shorter, style, LABEL.tracking, lettering) <= maxWidthPx) return shorter;
  }
  return '';
}

const textMark = (
  text: string,
  style: TextStyle,
  xPx: number,
  yPx: number,
  ink: TextMark['ink'],
): TextMark => ({ mark: 'text', text, style, xPx, yPx, ink });

const rectangle = (
  xPx: number,
  yPx: number,
  widthPx: number,
  heightPx: number,
  ink: 'paper' | 'slate' | 'accent' | 'hairline',
): Mark => ({ mark: 'rectangle', xPx, yPx, widthPx, heightPx, ink });

/** A hairline between two columns, with air above and below. */
const verticalHairline = (xPx: number, heightPx: number, unitPx: number): Mark =>
  rectangle(xPx, 24 * unitPx, Math.max(1, Math.round(1.5 * unitPx)), heightPx - 42 * unitPx, 'hairline');

const moved = (marks: readonly Mark[], xPx: number, yPx: number): readonly Mark[] =>
  marks.map(mark => ({ ...mark, xPx: mark.xPx + xPx, yPx: mark.yPx + yPx }));
