/**
 * A made figure as a picture that stands alone: title, deck, plot, foot, on paper.
 *
 *     spec ─► scenegraph ─► SVG ─► page or crop ─► paper ─┬─► text as text (web fonts)
 *                                                         └─► text as outlines ─► PNG, PDF
 *
 * From the specification to the scenegraph it goes by `still-plot.ts`, and by `dataflow.ts` where that declines.
 */
import type { TopLevelSpec } from 'vega-lite';
import { loadLettering } from '../lettering/fonts.ts';
import type { Lettering } from '../lettering/lettering.ts';
import { FACE, type Paper } from '../look.ts';
import { composeCrop } from './compose-crop.ts';
import { composePage, type PlotMarks } from './compose-page.ts';
import { type CropLayout, type FigureLayout, isCrop, type MadeFigure, type NotMade } from './figure.ts';
import { measureTextWith } from './measure-text.ts';
import { outlineText, shareGlyphs } from './outline-text.ts';
import { onPaper, paperOf } from './paper.ts';
import { drawStill } from './still-plot.ts';
import { parseSvg, type SvgElement, type SvgNode, serialiseSvg, tidySvg } from './svg-tree.ts';

export { renderFigurePng } from './formats.ts';

export interface RenderedFigure {
  /** Text as text, in the families of `look.ts`; the page has to bring the web fonts. */
  readonly svg: string;
  /** Text as outlines: looks the same wherever it is drawn. */
  readonly svgOutlined: string;
  readonly widthPx: number;
  readonly heightPx: number;
  /** What the plot was shrunk by to fit a picture of fixed shape, 0 where nothing fits; 1 in page layouts. */
  readonly plotScale: number;
}

let loading: Promise<Lettering> | undefined;
/** Read once a process; the fonts never change while it runs. */
const sharedLettering = (): Promise<Lettering> => {
  loading ??= loadLettering();
  return loading;
};

/** A figure laid out once, to be had on any paper. */
export interface DrawnFigure extends Pick<RenderedFigure, 'widthPx' | 'heightPx' | 'plotScale'> {
  on(paper: Paper): Pick<RenderedFigure, 'svg' | 'svgOutlined'>;
  /** As `svgOutlined` looks, each glyph written once: for files that readers load. */
  shared(paper: Paper): string;
}

/**
 * The figure in one layout. The width is that of the layout; the height follows from the text, in a crop from its
 * shape. The same figure and lettering give the same bytes. Without `given` the fonts are read on the first call.
 */
export async function drawFigure(
  made: MadeFigure,
  layout: FigureLayout,
  given?: Lettering,
): Promise<DrawnFigure> {
  const lettering = given ?? (await sharedLettering());
  const marks = await plotOf(made.spec[layout], layout, lettering);
  const { picture, plotScale } = isCrop(layout)
    ? composeCrop(made, layout, marks, lettering)
    : { picture: composePage(made, layout, marks, lettering), plotScale: 1 };
  const outlined = outlineText(picture, lettering) as SvgElement;
  return {
    widthPx: Number(picture.attributes.width),
    heightPx: Number(picture.attributes.height),
    plotScale,
    on: paper => ({
      svg: serialiseSvg(onPaper(picture, paper)),
      svgOutlined: serialiseSvg(onPaper(outlined, paper)),
    }),
    shared: paper => serialiseSvg(onPaper(shareGlyphs(picture, lettering), paper)),
  };
}

/** The SVG of a plot: at once where it is one of ours, otherwise by vega's whole dataflow. */
export async function drawPlot(
  spec: TopLevelSpec,
  layout: FigureLayout,
  lettering: Lettering,
): Promise<string> {
  measureTextWith(lettering);
  const still = drawStill(spec, layout);
  if (still !== undefined) return still;
  // Almost never: loading the whole of vega takes longer than drawing a figure.
  const { drawByDataflow } = await import('./dataflow.ts');
  return await drawByDataflow(spec, layout, lettering);
}

async function plotOf(spec: TopLevelSpec, layout: FigureLayout, lettering: Lettering): Promise<PlotMarks> {
  const plot = parseSvg(await drawPlot(spec, layout, lettering));
  return { marks: plotMarks(plot), heightPx: Number(plot.attributes.height) };
}

/** The figure in one layout on one paper. */
export async function renderFigure(
  made: MadeFigure,
  layout: FigureLayout,
  given?: Lettering,
  paper: Paper = paperOf(layout),
): Promise<RenderedFigure> {
  const { on, shared: _, ...drawn } = await drawFigure(made, layout, given);
  return { ...drawn, ...on(paper) };
}

/** Below this share of its size the letters of a plot are too small for a phone. */
const SMALLEST_PLOT = 0.7;

/** Whether a picture of fixed shape shows its plot legibly. */
export const isLegible = ({ plotScale }: Pick<RenderedFigure, 'plotScale'>): boolean =>
  plotScale >= SMALLEST_PLOT;

/** The figure as one of the pictures of fixed shape; a reason where its plot does not fit without getting too small. */
export async function renderCrop(
  made: MadeFigure,
  layout: CropLayout,
  given?: Lettering,
  paper: Paper = paperOf(layout),
): Promise<RenderedFigure | NotMade> {
  const picture = await renderFigure(made, layout, given, paper);
  return isLegible(picture)
    ? picture
    : { reason: `There is more in this figure than a ${layout} picture shows legibly.` };
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
