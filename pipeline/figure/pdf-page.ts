/** A figure with its caption under it, ready to be a page of a PDF document. */
import type { Lettering, TextStyle } from '../lettering/lettering.ts';
import { PALETTES, type Paper } from '../look.ts';
import type { MadeFigure, PageLayout } from './figure.ts';
import { outlineText } from './outline-text.ts';
import { paperOf } from './paper.ts';
import type { PdfPage } from './pdf.ts';
import { renderFigure } from './render.ts';
import { element, parseSvg, serialiseSvg } from './svg-tree.ts';
import { textLines } from './text-lines.ts';
import { SIZES } from './theme.ts';
import { wrapWithoutWidow } from './wrap.ts';

const TO_CAPTION_PX = 14;
/** Captions are set a little larger than the lines inside the picture. */
const CAPTION_SHARE = 1.12;

/** `caption`: the figure's own unless told, such as one with a number in front. */
export async function figurePdfPage(
  made: MadeFigure,
  lettering: Lettering,
  {
    layout = 'print',
    paper = paperOf(layout),
    caption = made.caption,
  }: { readonly layout?: PageLayout; readonly paper?: Paper; readonly caption?: string } = {},
): Promise<PdfPage> {
  const picture = await renderFigure(made, layout, lettering, paper);
  const { footPx } = SIZES[layout];
  const style: TextStyle = {
    face: 'serif',
    weight: 400,
    sizePx: Math.round(footPx * CAPTION_SHARE * 10) / 10,
  };
  const leadingPx = Math.round(style.sizePx * 1.35 * 10) / 10;
  const lines = wrapWithoutWidow(caption, picture.widthPx, text => lettering.width(text, style));
  // Under the picture is the sheet, which is white.
  const fill = PALETTES.mono.ink;
  const block = textLines(
    lines,
    { x: 0, y: picture.heightPx + TO_CAPTION_PX, style, leadingPx, fill },
    lettering,
  );
  const heightPx = Math.ceil(picture.heightPx + TO_CAPTION_PX + lines.length * leadingPx);
  const { children } = parseSvg(picture.svgOutlined);
  const svg = element('svg', { width: picture.widthPx, height: heightPx }, [
    ...children,
    ...block.map(line => outlineText(line, lettering)),
  ]);
  return {
    svgOutlined: serialiseSvg(svg),
    widthPx: picture.widthPx,
    heightPx,
    altText: `${made.title}. ${made.altText} ${caption}`,
  };
}
