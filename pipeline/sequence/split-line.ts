/** The line under the running numbers: each split has its place from the beginning, and is filled in when reached. */
import type { Mark } from '../overlay/marks.ts';
import { type Block, type Layer, moved, rectangle, textMark } from '../overlay/plate-block.ts';
import type { RunningSplit } from './content.ts';
import type { SplitState } from './plan.ts';

/** A rectangle of the plate that is drawn again when its split is reached, and when it is no longer set off. */
export interface SplitPlace {
  /** Whole pixels from the plate's top left corner. */
  readonly xPx: number;
  readonly yPx: number;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Marks of each state from the place's own corner; the paper under them is not among them. */
  readonly marks: Readonly<Record<SplitState, readonly Mark[]>>;
}

export interface SplitLine extends Block {
  readonly places: readonly SplitPlace[];
}

const TEXT = { label: 23, value: 34, unit: 22, between: 12 } as const;
/** Heights of the place, units: label beside the value, or above it where plates are upright. */
const BESIDE = { height: 48, baseline: 34, bottom: 8 } as const;
const ABOVE = { height: 76, label: 26, baseline: 61, bottom: 8 } as const;
const PLACE_GAP = 14;
const PLACE_PAD = 12;
/** A place much wider than its words looks empty. */
const MOST_WIDENING = 1.3;

/** The line over the whole inner width; its places are equally wide and begin at its left. */
export function splitLine(splits: readonly RunningSplit[], innerPx: number, layer: Layer): SplitLine {
  const { unitPx } = layer;
  const shape = layer.upright ? ABOVE : BESIDE;
  const gapPx = Math.round(PLACE_GAP * unitPx);
  const blocks = splits.map(split => ({
    ahead: placeBlock(split, 'ahead', layer),
    held: placeBlock(split, 'held', layer),
    reached: placeBlock(split, 'reached', layer),
  }));
  const needsPx = Math.ceil(Math.max(...blocks.map(({ held }) => held.widthPx)));
  // The places reach past the inner edge by their own padding, so that the first label stands under the title.
  const padPx = Math.round(PLACE_PAD * unitPx);
  const sharePx = Math.floor((innerPx + 2 * padPx - gapPx * (splits.length - 1)) / splits.length);
  const widthPx = Math.min(sharePx, Math.ceil(needsPx * MOST_WIDENING));
  const heightPx = Math.round(shape.height * unitPx);
  return {
    marks: [rectangle(0, 0, innerPx, Math.max(1, Math.round(1.5 * unitPx)), 'hairline')],
    places: blocks.map((block, index) => ({
      xPx: index * (widthPx + gapPx) - padPx,
      yPx: Math.round(7 * unitPx),
      widthPx,
      heightPx,
      marks: {
        ahead: block.ahead.marks,
        held: [rectangle(0, 0, widthPx, heightPx, 'accent'), ...block.held.marks],
        reached: block.reached.marks,
      },
    })),
    widthPx: needsPx * splits.length + gapPx * (splits.length - 1) - 2 * padPx,
    heightPx: Math.round(7 * unitPx) + heightPx + shape.bottom * unitPx,
    cut: needsPx > widthPx,
  };
}

/** Label, value, unit and uncertainty of one split; the label alone while it is ahead. */
function placeBlock(split: RunningSplit, state: SplitState, layer: Layer): Block {
  const { unitPx, lettering, style } = layer;
  const ink = state === 'held' ? 'onAccent' : 'ink';
  const muted = state === 'held' ? 'onAccent' : 'muted';
  const label = style('sans', 600, TEXT.label);
  const value = style(layer.theme?.numberFace ?? 'serif', 600, TEXT.value);
  const unit = style('sans', 400, TEXT.unit);
  const shape = layer.upright ? ABOVE : BESIDE;
  const labelY = (layer.upright ? ABOVE.label : BESIDE.baseline) * unitPx;
  const marks: Mark[] = [textMark(split.label, label, 0, labelY, muted)];
  const labelPx = lettering.width(split.label, label);
  let x = layer.upright ? 0 : labelPx + TEXT.between * unitPx;
  for (const [text, textStyle, textInk] of [
    [split.value, value, ink],
    [split.unit, unit, ink],
    [split.uncertainty, unit, muted],
  ] as const) {
    if (text === '') continue;
    if (state !== 'ahead') marks.push(textMark(text, textStyle, x, shape.baseline * unitPx, textInk));
    x += lettering.width(text, textStyle) + 0.3 * TEXT.unit * unitPx;
  }
  const padPx = Math.round(PLACE_PAD * unitPx);
  return {
    marks: moved(marks, padPx, 0),
    widthPx: Math.max(x, labelPx) + 2 * padPx,
    heightPx: shape.height * unitPx,
    cut: false,
  };
}
