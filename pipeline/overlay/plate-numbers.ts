/** The numbers of a plate: one large, or several in columns. Sizes are in units of the plate. */
import type { FaceId, TextStyle } from '../lettering/lettering.ts';
import { type FitRule, fitText } from './fit.ts';
import type { Mark, TextMark } from './marks.ts';
import type { Column, ColumnsBody, HeadlineBody } from './plate.ts';
import {
  type Block,
  FOOT_BETWEEN,
  GAP,
  HEAD_BOTTOM,
  type Layer,
  moved,
  textMark,
  verticalHairline,
} from './plate-block.ts';
import { PLAIN_THEME } from './theme.ts';

const NUMBER = { head: 25, headBaseline: 40, size: 92, toBaseline: 82, unit: 44, uncertainty: 34 } as const;
const COLUMN = {
  head: 24,
  size: 58,
  unit: 28,
  note: 22,
  headBaseline: 40,
  toValue: 58,
  toNote: 31,
  bottom: HEAD_BOTTOM,
};
/** In a row under a head of one line, where height is what there is least of. */
const COMPACT_COLUMN = {
  head: 23,
  size: 52,
  unit: 26,
  note: 22,
  headBaseline: 31,
  toValue: 48,
  toNote: 28,
  bottom: 17,
};
/** Columns of a compact row are drawn apart to fill the width, up to this, units. */
const MOST_COMPACT_GAP = 150;
const numberFace = ({ theme = PLAIN_THEME }: Layer): FaceId => theme.numberFace;
/** Space between a value, its unit and its uncertainty, em of the value. */
const AFTER_VALUE = 0.16;

/** One large number on the baseline of its unit and its uncertainty, under what it is of. */
export function headlineBlock(body: HeadlineBody, maxWidthPx: number, layer: Layer): Block {
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
    style(numberFace(layer), 700, NUMBER.size),
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
export function columnsBlock(
  body: ColumnsBody,
  maxWidthPx: number,
  rows: number,
  leastHeightPx: number,
  layer: Layer,
): Block {
  const { unitPx } = layer;
  let gapPx = (layer.compact ? 40 : GAP) * unitPx;
  const perRow = Math.max(1, Math.ceil(body.columns.length / rows));
  const mostPx = (maxWidthPx - (perRow - 1) * gapPx) / perRow;
  const cellsWithin = (widthPx: number): readonly Block[] =>
    body.columns.map(column => columnBlock(column, widthPx, rows > 1, layer));
  // Beside a head a wide column may take what narrow ones leave; only where all are too wide does each get a share.
  const free = layer.upright ? undefined : cellsWithin(maxWidthPx);
  const freePx = free?.reduce((sum, cell) => sum + cell.widthPx + gapPx, -gapPx) ?? Number.POSITIVE_INFINITY;
  const cells = free !== undefined && freePx <= maxWidthPx ? free : cellsWithin(mostPx);
  if (layer.compact && cells.length > 1) {
    const needsPx = cells.reduce((sum, cell) => sum + cell.widthPx, 0);
    const sparePx = (maxWidthPx - needsPx) / (cells.length - 1);
    gapPx = Math.max(gapPx, Math.min(MOST_COMPACT_GAP * unitPx, sparePx));
  }
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
      if (index > 0)
        marks.push(
          ...moved(
            [verticalHairline(x - gapPx / 2, rowPx, unitPx, layer.compact ? 12 : undefined)],
            0,
            rowTop,
          ),
        );
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
  const shape = layer.compact ? COMPACT_COLUMN : COLUMN;
  const rule: FitRule = { maxWidthPx, maxLines: 1, smallest: 0.8 };
  const head = fitText(column.head, style('sans', 600, shape.head), rule, lettering);
  const headY = shape.headBaseline * unitPx;
  let y = headY + shape.toValue * unitPx;
  const marks: Mark[] = [textMark(head.lines[0] ?? '', head.style, 0, headY, 'muted')];
  const noteStyle = style('sans', 400, shape.note);
  const valueStyle = style(numberFace(layer), 600, shape.size);
  const beside = noteBeside && column.notes.length === 1 ? (column.notes[0] ?? '') : '';
  const x = numberMarks(
    column.value,
    [
      [column.unit, style('sans', 400, shape.unit), 'ink'],
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
    y += shape.toNote * unitPx;
    marks.push(textMark(notes.lines[0] ?? '', notes.style, 0, y, 'muted'));
    widthPx = Math.max(widthPx, notes.widthPx);
    cut ||= notes.cut;
  }
  return { marks, widthPx, heightPx: y + shape.bottom * unitPx, cut: cut || widthPx > maxWidthPx };
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
