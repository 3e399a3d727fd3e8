/** Short facts of a plate under each other: what each is at the left, itself beside it. */
import { fitText } from './fit.ts';
import type { Mark } from './marks.ts';
import type { FactsBody } from './plate.ts';
import { type Block, HEAD_BOTTOM, type Layer, textMark } from './plate-block.ts';

const FACT = { head: 22, text: 24, baseline: 40, lineHeight: 32, gap: 20 } as const;
const COMPACT_BASELINE = 33;
/** A fact longer than this is cut: the plate is for reading in passing. */
const MOST_LINES = 2;

/** Facts as wide as they need, each text wrapped to two lines at most. */
export function factsBlock({ facts }: FactsBody, maxWidthPx: number, layer: Layer): Block {
  const { unitPx, lettering, style } = layer;
  const headStyle = style('sans', 600, FACT.head);
  const textStyle = style('sans', 400, FACT.text);
  const textX = Math.max(0, ...facts.map(({ head }) => lettering.width(head, headStyle))) + FACT.gap * unitPx;
  const marks: Mark[] = [];
  let y = (layer.compact ? COMPACT_BASELINE : FACT.baseline) * unitPx;
  let widthPx = 0;
  let cut = false;
  for (const { head, text } of facts) {
    marks.push(textMark(head, headStyle, 0, y, 'muted'));
    const rule = { maxWidthPx: maxWidthPx - textX, maxLines: MOST_LINES, smallest: 1 };
    const fitted = fitText(text, textStyle, rule, lettering);
    cut ||= fitted.cut;
    for (const line of fitted.lines) {
      marks.push(textMark(line, textStyle, textX, y, 'ink'));
      widthPx = Math.max(widthPx, textX + lettering.width(line, textStyle));
      y += FACT.lineHeight * unitPx;
    }
  }
  return {
    marks,
    widthPx,
    heightPx: y - FACT.lineHeight * unitPx + HEAD_BOTTOM * unitPx,
    cut: cut || widthPx > maxWidthPx,
  };
}
