/** Lines of text as SVG, one under another. */
import type { Lettering, TextStyle } from '../lettering/lettering.ts';
import { FACE } from '../look.ts';
import { element, type SvgElement } from './svg-tree.ts';

export interface TextBlock {
  readonly x: number;
  /** Top of the first line's leading, px. */
  readonly y: number;
  readonly style: TextStyle;
  readonly leadingPx: number;
  readonly fill: string;
}

/** One `<text>` a line. Half the leading stands above and below, as in print: blocks then keep even distances. */
export function textLines(
  lines: readonly string[],
  { x, y, style, leadingPx, fill }: TextBlock,
  lettering: Lettering,
): readonly SvgElement[] {
  const { ascentPx, descentPx } = lettering.metrics(style);
  const baseline = (leadingPx + ascentPx - descentPx) / 2;
  return lines.map((line, index) =>
    element(
      'text',
      {
        x,
        y: y + index * leadingPx + baseline,
        'font-family': style.face === 'serif' ? `${FACE.text}, serif` : undefined,
        'font-size': style.sizePx,
        'font-weight': style.weight === 400 ? undefined : String(style.weight),
        fill,
      },
      [line],
    ),
  );
}
