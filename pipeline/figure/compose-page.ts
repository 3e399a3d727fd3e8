/** A plot with title, deck and foot around it, as high as they need. */
import type { Lettering, TextStyle } from '../lettering/lettering.ts';
import { COLOUR, FACE } from '../look.ts';
import { FIGURE_WIDTH_PX, type MadeFigure, type PageLayout } from './figure.ts';
import { element, type SvgElement, type SvgNode } from './svg-tree.ts';
import { textLines } from './text-lines.ts';
import { SIZES } from './theme.ts';
import { wrapBalanced, wrapWithoutWidow } from './wrap.ts';

/** The marks of a plot that has been laid out; as wide as its layout says. */
export interface PlotMarks {
  readonly marks: readonly SvgNode[];
  readonly heightPx: number;
}

/** Space between the blocks, px. */
interface Gaps {
  readonly top: number;
  readonly titleToDeck: number;
  readonly headToPlot: number;
  readonly plotToFoot: number;
  readonly ruleToFoot: number;
  readonly bottom: number;
}
const SCREEN_GAPS: Gaps = {
  top: 18,
  titleToDeck: 5,
  headToPlot: 16,
  plotToFoot: 14,
  ruleToFoot: 6,
  bottom: 14,
};
const GAPS: Readonly<Record<PageLayout, Gaps>> = {
  narrow: SCREEN_GAPS,
  wide: SCREEN_GAPS,
  // The sheet around a printed column is its margin.
  print: { top: 1, titleToDeck: 3, headToPlot: 11, plotToFoot: 9, ruleToFoot: 4, bottom: 1 },
};

/** The whole picture on light paper. */
export function composePage(
  made: MadeFigure,
  layout: PageLayout,
  plot: PlotMarks,
  lettering: Lettering,
): SvgElement {
  const size = SIZES[layout];
  const gap = GAPS[layout];
  const widthPx = FIGURE_WIDTH_PX[layout];
  const insidePx = widthPx - 2 * size.marginPx;
  const left = size.marginPx;
  const title: TextStyle = { face: 'serif', weight: 600, sizePx: size.titlePx };
  const deck: TextStyle = { face: 'sans', weight: 400, sizePx: size.deckPx };
  const foot: TextStyle = { face: 'sans', weight: 400, sizePx: size.footPx };
  const widthIn = (style: TextStyle) => (text: string) => lettering.width(text, style);

  const blocks: SvgNode[] = [];
  let y: number = gap.top;
  const addLines = (lines: readonly string[], style: TextStyle, leadingPx: number, fill: string) => {
    blocks.push(...textLines(lines, { x: left, y, style, leadingPx, fill }, lettering));
    y += lines.length * leadingPx;
  };

  addLines(wrapBalanced(made.title, insidePx, widthIn(title)), title, size.titleLeadingPx, COLOUR.ink);
  if (made.deck !== undefined) {
    y += gap.titleToDeck;
    addLines(wrapWithoutWidow(made.deck, insidePx, widthIn(deck)), deck, size.deckLeadingPx, COLOUR.muted);
  }
  y += gap.headToPlot;
  blocks.push(element('g', { transform: `translate(${left},${Math.round(y)})` }, plot.marks));
  y = Math.round(y) + plot.heightPx + gap.plotToFoot;
  blocks.push(
    element('path', {
      d: `M${left},${Math.round(y) + 0.5}H${widthPx - left}`,
      stroke: COLOUR.hairline,
      'stroke-width': '1',
      fill: 'none',
    }),
  );
  y = Math.round(y) + 1 + gap.ruleToFoot;
  for (const line of made.foot) {
    addLines(wrapWithoutWidow(line, insidePx, widthIn(foot)), foot, size.footLeadingPx, COLOUR.muted);
  }
  return sheet(widthPx, Math.ceil(y + gap.bottom), made.altText, blocks);
}

/** The root of a picture: light paper, its alternative text, what stands on it. */
export function sheet(
  widthPx: number,
  heightPx: number,
  altText: string,
  blocks: readonly SvgNode[],
): SvgElement {
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: widthPx,
      height: heightPx,
      viewBox: `0 0 ${widthPx} ${heightPx}`,
      role: 'img',
      'aria-label': altText,
      'font-family': `${FACE.chart}, sans-serif`,
    },
    [element('path', { d: `M0,0H${widthPx}V${heightPx}H0Z`, fill: COLOUR.paper }), ...blocks],
  );
}
