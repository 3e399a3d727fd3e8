/** A picture of one fixed shape for social pages: the finding large, the plot, a line on how, the publication. */
import type { Lettering, TextStyle } from '../lettering/lettering.ts';
import { COLOUR } from '../look.ts';
import { type PlotMarks, sheet } from './compose-page.ts';
import { CROP_SIZE, type CropLayout, type MadeFigure } from './figure.ts';
import { element, type SvgElement, type SvgNode } from './svg-tree.ts';
import { textLines } from './text-lines.ts';
import { LANDSCAPE_COLUMN_PX, plotWidthPx, SIZES } from './theme.ts';
import { wrapBalanced, wrapWithoutWidow } from './wrap.ts';

/** What stays clear of everything, px: a 9:16 picture is covered by its page's own names and buttons there. */
const CLEAR: Readonly<Record<CropLayout, { readonly top: number; readonly bottom: number }>> = {
  square: { top: 14, bottom: 12 },
  portrait: { top: 18, bottom: 14 },
  story: { top: 72, bottom: 84 },
  landscape: { top: 18, bottom: 14 },
};
/** Most lines a title takes before its type gets smaller. */
const MOST_LINES: Readonly<Record<CropLayout, number>> = { square: 3, portrait: 3, story: 4, landscape: 6 };
const SMALLEST_TITLE_PX = 15;
const GUTTER_PX = 18;
const GAP = { titleToPlot: 12, plotToRule: 9, ruleToFoot: 5, footToName: 2 } as const;

/** The whole picture on light paper; `plotScale` is what a plot too high was shrunk by, 0 where even the words have no room. */
export function composeCrop(
  made: MadeFigure,
  layout: CropLayout,
  plot: PlotMarks,
  lettering: Lettering,
): { readonly picture: SvgElement; readonly plotScale: number } {
  const size = SIZES[layout];
  const { widthPx, heightPx } = CROP_SIZE[layout];
  const clear = CLEAR[layout];
  const left = size.marginPx;
  const aside = layout === 'landscape';
  const columnPx = aside ? LANDSCAPE_COLUMN_PX - GUTTER_PX : widthPx - 2 * left;

  const title = titleLines(made.title, layout, columnPx, lettering);
  const foot = footOf(made, columnPx, size.footPx, lettering);
  const footHeightPx = foot.length * size.footLeadingPx + GAP.footToName;
  const footY = heightPx - clear.bottom - footHeightPx;
  const blocks: SvgNode[] = [
    ...textLines(
      title.lines,
      { x: left, y: clear.top, style: title.style, leadingPx: title.leadingPx, fill: COLOUR.ink },
      lettering,
    ),
    rule(left, left + columnPx, footY - GAP.ruleToFoot),
    ...foot.flatMap(({ text, style }, index) =>
      textLines(
        [text],
        {
          x: left,
          y: footY + index * size.footLeadingPx + (style.weight === 600 ? GAP.footToName : 0),
          style,
          leadingPx: size.footLeadingPx,
          fill: style.weight === 600 ? COLOUR.ink : COLOUR.muted,
        },
        lettering,
      ),
    ),
  ];

  const topPx = aside ? clear.top : clear.top + title.lines.length * title.leadingPx + GAP.titleToPlot;
  const bottomPx = aside ? heightPx - clear.bottom : footY - GAP.ruleToFoot - GAP.plotToRule;
  const titleEndsPx = clear.top + title.lines.length * title.leadingPx;
  const wordsFit = titleEndsPx <= footY - GAP.ruleToFoot;
  const plotScale = wordsFit ? Math.max(0, Math.min(1, (bottomPx - topPx) / plot.heightPx)) : 0;
  const x = (aside ? left + LANDSCAPE_COLUMN_PX : left) + ((1 - plotScale) * plotWidthPx(layout)) / 2;
  const y = Math.round(topPx + (bottomPx - topPx - plotScale * plot.heightPx) / 2);
  const shrunk = plotScale === 1 ? '' : `scale(${Math.floor(plotScale * 1e4) / 1e4})`;
  blocks.push(element('g', { transform: `translate(${Math.round(x)},${y})${shrunk}` }, plot.marks));
  return { picture: sheet(widthPx, heightPx, made.altText, blocks), plotScale };
}

const rule = (from: number, to: number, y: number): SvgElement =>
  element('path', {
    d: `M${from},${Math.round(y) + 0.5}H${to}`,
    stroke: COLOUR.hairline,
    'stroke-width': '1',
    fill: 'none',
  });

/** The title in the largest type, down from the layout's own, that takes no more lines than there is room for. */
function titleLines(
  text: string,
  layout: CropLayout,
  columnPx: number,
  lettering: Lettering,
): {
  readonly lines: readonly string[];
  readonly style: TextStyle;
  readonly leadingPx: number;
} {
  const { titlePx, titleLeadingPx } = SIZES[layout];
  for (let sizePx = titlePx; ; sizePx -= 1) {
    const style: TextStyle = { face: 'serif', weight: 600, sizePx };
    const lines = wrapBalanced(text, columnPx, words => lettering.width(words, style));
    if (lines.length <= MOST_LINES[layout] || sizePx <= SMALLEST_TITLE_PX) {
      return { lines, style, leadingPx: Math.round((sizePx * titleLeadingPx) / titlePx) };
    }
  }
}

/** The figure's own lines for a crop, or the last two of its foot; the publication's line is the heavier one. */
function footOf(
  made: MadeFigure,
  columnPx: number,
  sizePx: number,
  lettering: Lettering,
): readonly { readonly text: string; readonly style: TextStyle }[] {
  const lines = made.cropFoot ?? made.foot.slice(-2);
  return lines.flatMap((line, index) => {
    const style: TextStyle = { face: 'sans', weight: index === lines.length - 1 ? 600 : 400, sizePx };
    return wrapWithoutWidow(line, columnPx, words => lettering.width(words, style)).map(text => ({
      text,
      style,
    }));
  });
}
