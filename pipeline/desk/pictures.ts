/** Figures, lower thirds and tables of one test as they will go out. */
import { FIGURE_LAYOUTS, type FigureLayout, type MadeFigure } from '../figure/figure.ts';
import { FIGURES, isFigureKind } from '../figure/figures.ts';
import { renderFigure, renderFigurePng } from '../figure/render.ts';
import { loadLettering } from '../lettering/fonts.ts';
import { OVERLAYS } from '../overlay/overlays.ts';
import { renderOverlay } from '../overlay/render.ts';
import { ProblemError } from '../problem.ts';
import { cannotBeShown, nothingThere } from '../problems/desk.ts';
import { tableToHtml } from '../table/html.ts';
import { isTableKind, TABLES } from '../table/tables.ts';
import type { OpenTest } from './desk.ts';

/** @throws ProblemError where there is no such figure, or the test does not give it */
export function figureOf({ result, publication, others }: OpenTest, kind: string): MadeFigure {
  if (!isFigureKind(kind) || result === undefined) throw new ProblemError(nothingThere('figure', kind));
  const { house } = publication;
  const made = FIGURES[kind].make(result, house, { startRule: house.headline_start_rule }, others);
  if ('reason' in made) throw new ProblemError(cannotBeShown('This figure', made.reason));
  return made;
}

const isLayout = (word: string): word is FigureLayout => (FIGURE_LAYOUTS as readonly string[]).includes(word);

/** SVG with its letters as outlines. @throws ProblemError as `figureOf`, and for an unknown layout */
export async function figureSvg(open: OpenTest, kind: string, layout: string): Promise<string> {
  if (!isLayout(layout)) throw new ProblemError(nothingThere('layout', layout));
  return (await renderFigure(figureOf(open, kind), layout, await loadLettering())).svgOutlined;
}

export const figurePng = async (open: OpenTest, kind: string, layout: string): Promise<Uint8Array> =>
  renderFigurePng(await figureSvg(open, kind, layout), 2);

const SIZE = /^([1-9]\d{2,4})x([1-9]\d{2,4})$/;

/** A lower third by its name. @throws ProblemError where there is no such one, or the size is none */
export async function overlayPng(
  { result, publication, others }: OpenTest,
  name: string,
  size: string,
): Promise<Uint8Array> {
  const found = SIZE.exec(size);
  const [widthPx, heightPx] = [Number(found?.[1]), Number(found?.[2])];
  if (!found || widthPx > 15_999 || heightPx > 15_999)
    throw new ProblemError(nothingThere('size of picture', size));
  const made = Object.values(OVERLAYS)
    .flatMap(overlay => (result === undefined ? [] : overlay.make(result, publication.house, others)))
    .find(overlay => overlay.name === name);
  if (made === undefined) throw new ProblemError(nothingThere('lower third', name));
  return await renderOverlay(made, { name: size, widthPx, heightPx }, await loadLettering());
}

/** A complete `<table>`. @throws ProblemError where there is no such table */
export function tableHtml({ result, publication, others }: OpenTest, kind: string): string {
  if (!isTableKind(kind) || result === undefined) throw new ProblemError(nothingThere('table', kind));
  const { house } = publication;
  return tableToHtml(TABLES[kind].make(result, house, others), house);
}
