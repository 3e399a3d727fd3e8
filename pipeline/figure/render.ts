/**
 * A made figure as a picture that stands alone: title, deck, plot, foot, on paper.
 *
 *     spec ─► vega-lite ─► vega ─► scenegraph ─► SVG ─┬─► text as text (web fonts)
 *                                                    └─► text as outlines ─► PNG
 */
import sharp from 'sharp';
import * as vega from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';
import { loadLettering } from '../lettering/fonts.ts';
import type { Lettering, TextStyle } from '../lettering/lettering.ts';
import { COLOUR, FACE } from '../look.ts';
import { FIGURE_WIDTH_PX, type FigureLayout, type MadeFigure } from './figure.ts';
import { outlineText, textStyle } from './outline-text.ts';
import { element, parseSvg, type SvgElement, type SvgNode, serialiseSvg, tidySvg } from './svg-tree.ts';
import { SIZES, vegaConfig } from './theme.ts';
import { wrapBalanced, wrapWithoutWidow } from './wrap.ts';

export interface RenderedFigure {
  /** Text as text, in the families of `look.ts`; the page has to bring the web fonts. */
  readonly svg: string;
  /** Text as outlines: looks the same wherever it is drawn. */
  readonly svgOutlined: string;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Whatever vega-lite and vega had to say; a figure of ours gives them no reason. */
export type Complaint = (message: string) => void;

/** The vega specification of a plot, deterministic. */
export function compileSpec(
  spec: TopLevelSpec,
  layout: FigureLayout,
  complain: Complaint = () => {},
): vega.Spec {
  const told = (...messages: readonly unknown[]) => {
    complain(messages.map(String).join(' '));
    return logger;
  };
  const silent = () => logger;
  const logger = { level: silent, error: told, warn: told, info: silent, debug: silent };
  return compile(spec, { config: vegaConfig(layout), logger: logger as never }).spec;
}

/**
 * Vega measures text through one function for the whole process (vega-scenegraph `textMetrics`): this puts
 * the exact one there. Bounded by the mark's own limit, since vega lays out what is left after the ellipsis.
 */
function measureTextWith(lettering: Lettering): void {
  textMetrics.width = (item, text) => {
    const width = lettering.width(
      String(text ?? ''),
      textStyle(item.font, item.fontWeight, item.fontSize ?? DEFAULT_SIZE_PX),
    );
    return item.limit !== undefined && item.limit > 0 ? Math.min(item.limit, width) : width;
  };
}

/** A text mark as far as its width depends on it. */
interface MeasuredText {
  readonly font?: string;
  readonly fontWeight?: string | number;
  readonly fontSize?: number;
  readonly limit?: number;
}
/** Exported by vega but absent from its types. */
const { textMetrics } = vega as unknown as {
  readonly textMetrics: { width: (item: MeasuredText, text: unknown) => number };
};
/** Of a text mark that names no size (vega-scenegraph). */
const DEFAULT_SIZE_PX = 11;

let loading: Promise<Lettering> | undefined;
/** Read once a process; the fonts never change while it runs. */
const sharedLettering = (): Promise<Lettering> => {
  loading ??= loadLettering();
  return loading;
};

/** The plot laid out, as a vega view; `complain` hears of warnings. */
export async function layOutPlot(
  spec: TopLevelSpec,
  layout: FigureLayout,
  lettering: Lettering,
  complain: Complaint = () => {},
): Promise<vega.View> {
  measureTextWith(lettering);
  const view = new vega.View(vega.parse(compileSpec(spec, layout, complain)), { renderer: 'none' });
  await view.runAsync();
  // A label inside the plot reaches farther out the narrower the plot gets: fitting once is not enough.
  for (let round = 0; round < MOST_FITTINGS; round += 1) {
    const before = view.width();
    await view.resize().runAsync();
    if (Math.abs(view.width() - before) < 0.5) break;
  }
  return view;
}

const MOST_FITTINGS = 12;

/**
 * The figure in one layout. The width is that of the layout; the height follows from the text.
 * The same figure and lettering give the same bytes. Without `given` the fonts are read on the first call.
 */
export async function renderFigure(
  made: MadeFigure,
  layout: FigureLayout,
  given?: Lettering,
): Promise<RenderedFigure> {
  const lettering = given ?? (await sharedLettering());
  const view = await layOutPlot(made.spec[layout], layout, lettering);
  const plot = parseSvg(await view.toSVG());
  view.finalize();
  const picture = composeFigure(made, layout, plot, lettering);
  return {
    svg: serialiseSvg(picture),
    svgOutlined: serialiseSvg(outlineText(picture, lettering)),
    widthPx: Number(picture.attributes.width),
    heightPx: Number(picture.attributes.height),
  };
}

/** PNG bytes of an outlined SVG at `scale` device pixels to the px; the same bytes on every run. */
export async function renderFigurePng(svgOutlined: string, scale: number): Promise<Uint8Array> {
  const png = await sharp(new TextEncoder().encode(svgOutlined), { density: 72 * scale })
    .removeAlpha()
    .png({ compressionLevel: 9, adaptiveFiltering: false, palette: false })
    .toBuffer();
  return new Uint8Array(png);
}

/** Space between the blocks, px. */
const GAP = { top: 18, titleToDeck: 5, headToPlot: 16, plotToFoot: 14, ruleToFoot: 6, bottom: 14 } as const;

function composeFigure(
  made: MadeFigure,
  layout: FigureLayout,
  plot: SvgElement,
  lettering: Lettering,
): SvgElement {
  const size = SIZES[layout];
  const widthPx = FIGURE_WIDTH_PX[layout];
  const insidePx = widthPx - 2 * size.marginPx;
  const left = size.marginPx;
  const title: TextStyle = { face: 'serif', weight: 600, sizePx: size.titlePx };
  const deck: TextStyle = { face: 'sans', weight: 400, sizePx: size.deckPx };
  const foot: TextStyle = { face: 'sans', weight: 400, sizePx: size.footPx };
  const widthIn = (style: TextStyle) => (text: string) => lettering.width(text, style);

  const blocks: SvgNode[] = [];
  let y: number = GAP.top;
  const addLines = (lines: readonly string[], style: TextStyle, leadingPx: number, fill: string) => {
    // Half the leading above and below the line, as in print: blocks then keep even distances.
    const { ascentPx, descentPx } = lettering.metrics(style);
    const baseline = (leadingPx + ascentPx - descentPx) / 2;
    for (const line of lines) {
      blocks.push(
        element(
          'text',
          {
            x: left,
            y: y + baseline,
            'font-family': style.face === 'serif' ? `${FACE.text}, serif` : undefined,
            'font-size': style.sizePx,
            'font-weight': style.weight === 400 ? undefined : String(style.weight),
            fill,
          },
          [line],
        ),
      );
      y += leadingPx;
    }
  };

  addLines(wrapBalanced(made.title, insidePx, widthIn(title)), title, size.titleLeadingPx, COLOUR.ink);
  if (made.deck !== undefined) {
    y += GAP.titleToDeck;
    addLines(wrapWithoutWidow(made.deck, insidePx, widthIn(deck)), deck, size.deckLeadingPx, COLOUR.muted);
  }
  y += GAP.headToPlot;
  blocks.push(element('g', { transform: `translate(${left},${Math.round(y)})` }, plotMarks(plot)));
  y = Math.round(y) + Number(plot.attributes.height) + GAP.plotToFoot;
  blocks.push(
    element('path', {
      d: `M${left},${Math.round(y) + 0.5}H${widthPx - left}`,
      stroke: COLOUR.hairline,
      'stroke-width': '1',
      fill: 'none',
    }),
  );
  y = Math.round(y) + 1 + GAP.ruleToFoot;
  for (const line of made.foot) {
    addLines(wrapWithoutWidow(line, insidePx, widthIn(foot)), foot, size.footLeadingPx, COLOUR.muted);
  }
  const heightPx = Math.ceil(y + GAP.bottom);
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: widthPx,
      height: heightPx,
      viewBox: `0 0 ${widthPx} ${heightPx}`,
      role: 'img',
      'aria-label': made.altText,
      'font-family': `${FACE.chart}, sans-serif`,
    },
    [element('path', { d: `M0,0H${widthPx}V${heightPx}H0Z`, fill: COLOUR.paper }), ...blocks],
  );
}

/** Vega's marks without its ground and frame, its one family left to the picture around it. */
function plotMarks(plot: SvgElement): readonly SvgNode[] {
  const dropFamily = (node: SvgNode): SvgNode => {
    if (typeof node === 'string') return node;
    const { 'font-family': family, ...attributes } = node.attributes;
    const kept = family === undefined || family === FACE.chart ? attributes : node.attributes;
    return { ...node, attributes: kept, children: node.children.map(dropFamily) };
  };
  return plot.children
    .flatMap(child => (typeof child === 'string' || child.name === 'rect' ? [] : tidySvg(child)))
    .map(dropFamily);
}
