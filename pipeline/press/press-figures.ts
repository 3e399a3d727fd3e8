/** The figures of one test as files: every layout, paper and format, a PDF page, and a piece of HTML. */
import { codeDigest } from '../cache/code-digest.ts';
import { digestOf } from '../cache/digest.ts';
import { bytesOnce, workOnce } from '../cache/kept.ts';
import { NO_STORE, type Store } from '../cache/store.ts';
import type { FigureChoice, FigureLayout, MadeFigure } from '../figure/figure.ts';
import { isCrop } from '../figure/figure.ts';
import type { FigureKind } from '../figure/figures.ts';
import { renderFigureAvif, renderFigurePng, renderFigureWebp } from '../figure/formats.ts';
import { figuresToPdf } from '../figure/pdf.ts';
import { figurePdfPage } from '../figure/pdf-page.ts';
import { type DrawnFigure, drawFigure, isLegible } from '../figure/render.ts';
import type { Lettering } from '../lettering/lettering.ts';
import type { House } from '../result/result.ts';
import { tableToHtml } from '../table/html.ts';
import {
  countLayouts,
  isForOthers,
  pictureInWords,
  type WantedPicture,
  wantedPictures,
} from './figure-files.ts';
import { figureSnippet, type SnippetPicture } from './figure-snippet.ts';
import type { PressFigure, PressPicture } from './manifest.ts';
import type { ListedFile } from './manifest-file.ts';
import { type FileFacts, type Recorder, recordFiles } from './recorder.ts';

export interface ChosenFigure {
  readonly kind: FigureKind;
  readonly choice: FigureChoice;
  readonly key: string;
  /** Kind, and `-2`, `-3` for further figures of that kind. */
  readonly name: string;
  /** Place in the article. */
  readonly number?: number;
}

export type FigureToWrite = ChosenFigure & { readonly made: MadeFigure };

/** How many layouts `writeFigure` draws, for progress. */
export const countFigureLayouts = (figure: ChosenFigure, house: House): number =>
  countLayouts(wantedPictures(house, { inArticle: figure.number !== undefined }));

const RENDER = { png: renderFigurePng, webp: renderFigureWebp, avif: renderFigureAvif } as const;
/** The modules whose answers are kept, for their keys. */
const CODE = 'pipeline/press/press-figures.ts';
const RENDER_CODE = 'pipeline/figure/formats.ts';

/**
 * As `writeFigure`, from `store` where it has a figure of the same content. Its pixels are kept by its drawing as well:
 * they outlast changes to the code that do not change how it is drawn.
 */
export async function writeFigureOnce(
  folder: string,
  name: string,
  figure: FigureToWrite,
  house: House,
  lettering: Lettering,
  recorder: Recorder,
  layoutDone: () => void,
  store: Store,
): Promise<PressFigure> {
  const { made, ...chosen } = figure;
  const wanted = wantedPictures(house, { inArticle: figure.number !== undefined });
  const { spec, ...facts } = made;
  const drawn = [
    ...new Set<FigureLayout>([
      ...wanted.map(({ layout }) => layout),
      ...(isForOthers(house) ? (['print'] as const) : []),
    ]),
  ];
  const specs = drawn.map(layout => spec[layout]);
  const key = digestOf(['figure', codeDigest(CODE), folder, name, chosen, facts, specs, wanted, house]);
  const own = `${folder}/${name}`;
  let undone = countLayouts(wanted);
  const counted = (): void => {
    undone -= 1;
    layoutDone();
  };
  const written = await workOnce<PressFigure, ListedFile>(
    store,
    key,
    async ({ path, bytes: _, sha256, media_type: __, ...facts }) => {
      const bytes = await store.read(sha256);
      if (bytes === undefined) return false;
      await recorder.write(`${own}/${path}`, bytes);
      recorder.describe(`${own}/${path}`, facts);
      return true;
    },
    async () => {
      const toldBefore = lettering.problems().length;
      const sub = recordFiles(own, recorder.write);
      const watched: Recorder = {
        ...sub,
        describe(path, facts) {
          sub.describe(path, facts);
          recorder.describe(path, facts);
        },
      };
      const value = await writeFigure(folder, name, figure, house, lettering, watched, counted, store);
      // What it has to tell would not be told again.
      return { value, files: sub.list(), passing: lettering.problems().length > toldBefore };
    },
  );
  while (undone > 0) counted();
  return written;
}

/**
 * Writes `<folder>/<name>/<name>-….…`.
 * @param name stem of the folder and of each file, so that a file that leaves its folder still says what it is
 */
export async function writeFigure(
  folder: string,
  name: string,
  figure: FigureToWrite,
  house: House,
  lettering: Lettering,
  { write, describe }: Recorder,
  layoutDone: () => void,
  store: Store = NO_STORE,
): Promise<PressFigure> {
  const { made, key, number } = figure;
  const stem = `${folder}/${name}/${name}`;
  const facts: Omit<FileFacts, 'shows' | 'kind'> = {
    alt_text: made.altText,
    caption: made.caption,
    figure: name,
    ...(number === undefined ? {} : { figure_number: number }),
    ...(made.drawn?.startRule === undefined ? {} : { start_rule: made.drawn.startRule }),
    ...(made.drawn === undefined ? {} : { attempts: made.drawn.attempts, attempts_kept: made.drawn.kept }),
  };
  const pictures: Record<string, PressPicture> = {};
  const forSnippet: SnippetPicture[] = [];

  const writePicture = async (picture: WantedPicture, drawn: DrawnFigure): Promise<void> => {
    const { layout, paper, suffix, vectors, scales } = picture;
    const { widthPx, heightPx } = drawn;
    const { svg, svgOutlined } = drawn.on(paper);
    const about = { ...facts, kind: 'figure' as const, layout, paper };
    const shows = `${made.title} (${pictureInWords(picture, house)})`;
    const size = { width_px: widthPx, height_px: heightPx };
    for (const text of vectors) {
      const path = `${stem}-${suffix}${text === 'outlines' ? '' : '-text'}.svg`;
      await write(path, text === 'outlines' ? drawn.shared(paper) : svg);
      describe(path, { ...about, shows, ...size, text });
    }
    if (vectors.length > 0) pictures[`${suffix}.svg`] = { path: `${stem}-${suffix}.svg`, widthPx, heightPx };
    for (const format of ['png', ...(house.press?.formats ?? [])] as const) {
      const files: { name: string; scale: number }[] = [];
      for (const { scale, suffix: finer } of scales) {
        const path = `${stem}-${suffix}${finer}.${format}`;
        const from = ['pixels', codeDigest(RENDER_CODE), format, scale, svgOutlined];
        await write(path, await bytesOnce(store, from, () => RENDER[format](svgOutlined, scale)));
        const [width, height] = [Math.round(widthPx * scale), Math.round(heightPx * scale)];
        describe(path, { ...about, shows, width_px: width, height_px: height, scale });
        files.push({ name: path.slice(path.lastIndexOf('/') + 1), scale });
        pictures[`${suffix}${finer}.${format}`] = { path, widthPx: width, heightPx: height };
      }
      if (paper === 'light' && (layout === 'wide' || layout === 'narrow')) {
        forSnippet.push({ layout, mediaType: `image/${format}`, files, widthPx, heightPx });
      }
    }
  };

  const wanted = wantedPictures(house, { inArticle: number !== undefined });
  for (const layout of new Set<FigureLayout>(wanted.map(picture => picture.layout))) {
    const drawn = await drawFigure(made, layout, lettering);
    layoutDone();
    // What a small picture cannot show legibly is not made small.
    if (isCrop(layout) && !isLegible(drawn)) continue;
    for (const picture of wanted.filter(one => one.layout === layout)) await writePicture(picture, drawn);
  }

  const forOthers = isForOthers(house);
  const pdf = `${stem}.pdf`;
  const snippet = `${stem}.html`;
  if (forOthers) {
    const page = await figurePdfPage(made, lettering, { paper: 'light' });
    await write(pdf, figuresToPdf([page], { title: made.title, language: house.language }));
    describe(pdf, { ...facts, kind: 'figure', shows: `${made.title} (PDF)`, paper: 'light' });
    await write(snippet, figureSnippet(forSnippet, made));
    describe(snippet, { ...facts, kind: 'figure-html', shows: `${made.title} (HTML)` });
  }

  return {
    kind: figure.kind,
    key,
    ...(number === undefined ? {} : { number }),
    files: { wide: pictures['wide.svg']!, narrow: pictures['narrow.svg']! },
    png: pictures['wide-2x.png']!,
    ...(pictures['social-16x9.png'] === undefined ? {} : { social: pictures['social-16x9.png'] }),
    ...(forOthers ? { pdf, snippet } : {}),
    title: made.title,
    caption: made.caption,
    altText: made.altText,
    tableHtml: tableToHtml(made.table, house),
  };
}
