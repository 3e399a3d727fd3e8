/** Pictures of the gallery by their address. */
import {
  CROP_LAYOUTS,
  FIGURE_LAYOUTS,
  type FigureLayout,
  isCrop,
  type MadeFigure,
  type NotMade,
} from '../../pipeline/figure/figure.ts';
import { FIGURE_KINDS, FIGURES, isFigureKind } from '../../pipeline/figure/figures.ts';
import { paperOf } from '../../pipeline/figure/paper.ts';
import { renderCrop, renderFigure } from '../../pipeline/figure/render.ts';
import type { Lettering } from '../../pipeline/lettering/lettering.ts';
import type { Paper } from '../../pipeline/look.ts';
import type { MadeOverlay } from '../../pipeline/overlay/overlay.ts';
import { OVERLAYS } from '../../pipeline/overlay/overlays.ts';
import { FRAME_SIZES } from '../../pipeline/overlay/sizes.ts';
import { choiceOf, type GalleryCase } from './cases.ts';

export const PAPERS: readonly Paper[] = ['light', 'dark', 'mono'];
/** The paper a layout is shown on when this one is looked at: print has its own unless it is asked for dark. */
export const shownOn = (layout: FigureLayout, paper: Paper): Paper =>
  paper === 'light' ? paperOf(layout) : paper;

export const figureAddress = (one: GalleryCase, kind: string, layout: FigureLayout, paper: Paper): string =>
  `figure/${one.id}/${kind}/${layout}-${paper}.svg`;
export const overlayAddress = (one: GalleryCase, overlay: MadeOverlay, size: string): string =>
  `overlay/${one.id}/${overlay.name}/${size}.svg`;

export const overlaysOf = ({ test, house, others }: GalleryCase): readonly MadeOverlay[] =>
  Object.values(OVERLAYS).flatMap(overlay => overlay.make(test, house, others));

export function madeOf(one: GalleryCase, kind: string): MadeFigure | NotMade {
  return isFigureKind(kind)
    ? FIGURES[kind].make(one.test, one.house, choiceOf(one), one.others)
    : { reason: 'There is no such figure.' };
}

/** Every address of a case, for an export. */
export function picturesOf(one: GalleryCase): readonly string[] {
  const figures = FIGURE_KINDS.filter(kind => !('reason' in madeOf(one, kind))).flatMap(kind =>
    PAPERS.flatMap(paper =>
      FIGURE_LAYOUTS.map(layout => figureAddress(one, kind, layout, shownOn(layout, paper))),
    ),
  );
  const overlays = overlaysOf(one).flatMap(overlay =>
    FRAME_SIZES.map(({ name }) => overlayAddress(one, overlay, name)),
  );
  return [...new Set([...figures, ...overlays])];
}

/** A complete SVG with outlined text; undefined where the address names nothing. */
export async function pictureAt(
  address: string,
  cases: readonly GalleryCase[],
  lettering: Lettering,
): Promise<string | undefined> {
  const [family, id, name = '', file = ''] = address.split('/');
  const one = cases.find(candidate => candidate.id === id);
  if (one === undefined) return undefined;
  if (family === 'overlay') {
    const overlay = overlaysOf(one).find(candidate => candidate.name === name);
    const size = FRAME_SIZES.find(candidate => `${candidate.name}.svg` === file);
    return size === undefined ? undefined : overlay?.svg(size, lettering);
  }
  const [layout, paper] = file.replace(/\.svg$/, '').split('-') as [FigureLayout, Paper];
  const made = madeOf(one, name);
  if ('reason' in made || !FIGURE_LAYOUTS.includes(layout) || !PAPERS.includes(paper)) return undefined;
  const picture = isCrop(layout)
    ? await renderCrop(made, layout, lettering, paper)
    : await renderFigure(made, layout, lettering, paper);
  return 'reason' in picture ? notShown(layout, picture.reason) : picture.svgOutlined;
}

/** A crop that is left out, in its place. */
const notShown = (layout: FigureLayout, reason: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="${CROP_LAYOUTS.includes(layout as never) ? 360 : 760}" height="80"><text x="8" y="40" font-family="sans-serif" font-size="12">${reason}</text></svg>`;
