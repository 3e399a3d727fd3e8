/** The press folder of one test: its figures, tables, overlays and data as files. */
import { articleToHtml, markdownToHtml } from '../article/article.ts';
import { articleFigures, figureKey } from '../article/figures-used.ts';
import type { FigureChoice, FigureLayout, MadeFigure, NotMade } from '../figure/figure.ts';
import { FIGURES, type FigureKind, isFigureKind } from '../figure/figures.ts';
import { renderFigure, renderFigurePng } from '../figure/render.ts';
import { catalogue } from '../language.ts';
import type { Lettering } from '../lettering/lettering.ts';
import { type Counting, FRAME_RATES, type FrameRateName } from '../overlay/timecode.ts';
import type { Problem } from '../problem.ts';
import { inLanguage, languageOfPart, languagesOf } from '../result/in-language.ts';
import type { Publication, TestResult } from '../result/result.ts';
import { tableToCsv } from '../table/csv.ts';
import { tableToHtml } from '../table/html.ts';
import { TABLES } from '../table/tables.ts';
import { timelineToEdl } from '../timeline/edl.ts';
import { timelineToOtio } from '../timeline/otio.ts';
import { testTimeline } from '../timeline/timeline.ts';
import { fewAtOnce } from './few-at-once.ts';
import type { PressFigure, PressFile, PressTable, PressTest } from './manifest.ts';
import { articlePiece, pressFolder } from './press-article.ts';
import { countOverlayPictures, overlayFiles, writeOverlays } from './press-overlays.ts';
import { resultsToCsv, resultsToJson } from './results-data.ts';

/** Takes one finished file; the path is relative to the site's root. */
export type WriteFile = (path: string, content: string | Uint8Array) => Promise<void>;

const METHODOLOGY_FILE = 'content/methodology.md';
/** Device pixels to the px of a figure's PNG. */
const PNG_SCALE = 2;
/** A timeline for each of the two families of video; `evenground frames` makes one at any rate. */
const TIMELINES: readonly (readonly [FrameRateName, Counting])[] = [
  ['25', 'non-drop'],
  ['29.97', 'drop-frame'],
];
const LAYOUTS: readonly FigureLayout[] = ['wide', 'narrow'];

/** What each file holds, for the list on a test's page. */
const FILE_WORDS = catalogue({
  en: {
    article: 'The article with its numbers filled in and their notes, for another publishing system',
    resultsJson: 'Every attempt with every figure, unrounded, SI units in the names',
    resultsCsv: 'Every figure of every attempt, one a line',
    dropFrame: (rate: string) => `${rate} drop-frame`,
    otio: (counted: string) =>
      `Every kept run from its first movement, marked for editing at ${counted} (OpenTimelineIO)`,
    edl: (counted: string) => `The same as an edit decision list at ${counted} (CMX 3600)`,
  },
  de: {
    article: 'Der Artikel mit eingesetzten Zahlen und ihren Anmerkungen, für ein anderes Redaktionssystem',
    resultsJson: 'Jeder Versuch mit jedem Messwert, ungerundet, SI-Einheiten in den Namen',
    resultsCsv: 'Jeder Messwert jedes Versuchs, einer je Zeile',
    dropFrame: rate => `${rate} Drop-Frame`,
    otio: counted =>
      `Jede gewertete Fahrt ab ihrer ersten Bewegung, für den Schnitt bei ${counted} markiert (OpenTimelineIO)`,
    edl: counted => `Dasselbe als Schnittliste bei ${counted} (CMX 3600)`,
  },
});

interface ChosenFigure {
  readonly kind: FigureKind;
  readonly choice: FigureChoice;
  readonly key: string;
  /** Stem of the file names. */
  readonly name: string;
  readonly number?: number;
}

/** Everything about a test that is known before anything is drawn. */
export interface PlannedTest {
  readonly test: TestResult;
  readonly figures: readonly (ChosenFigure & { readonly made: MadeFigure })[];
  readonly problems: readonly Problem[];
}

export interface PlannedLanguage {
  readonly publication: Publication;
  readonly tests: readonly PlannedTest[];
  readonly problems: readonly Problem[];
}

/** Every test planned, and the methodology's text checked: all that can be wrong before a picture is drawn. */
export function planPublication(publication: Publication): {
  readonly tests: readonly PlannedTest[];
  readonly problems: readonly Problem[];
} {
  const tests = publication.tests.map(test => planTest(publication, test));
  const methodology = markdownToHtml(
    publication.methodologyMarkdown,
    publication.methodologyFile ?? METHODOLOGY_FILE,
  );
  return { tests, problems: [...tests.flatMap(test => test.problems), ...methodology.problems] };
}

/** The publication in each of its languages, the main one first, every test of it planned. */
export function planEveryLanguage(publication: Publication): readonly PlannedLanguage[] {
  return languagesOf(publication.house).map(tag => {
    const own = inLanguage(publication, tag);
    return { publication: own, ...planPublication(own) };
  });
}

/** Reads the article, makes the figures' specifications and gathers every problem, without drawing. */
export function planTest(publication: Publication, test: TestResult): PlannedTest {
  const { house } = publication;
  const others = othersOf(test, publication);
  const made = new Map<string, MadeFigure | NotMade>();
  const make = (kind: FigureKind, choice: FigureChoice): MadeFigure | NotMade => {
    const key = figureKey(kind, choice);
    const figure = made.get(key) ?? FIGURES[kind].make(test, house, choice, others);
    made.set(key, figure);
    return figure;
  };

  const article = articleToHtml({
    test,
    house,
    publication,
    figureKinds: Object.keys(FIGURES),
    tableKinds: Object.keys(TABLES),
    figureHtml: use => {
      const figure = isFigureKind(use.kind)
        ? make(use.kind, use.choice)
        : { reason: 'there is no such figure' };
      // Nothing is drawn yet: that it can be is all there is to know.
      return 'reason' in figure ? figure : '';
    },
    tableHtml: () => '',
  });

  const figures = figuresWanted(publication, test).flatMap(chosen => {
    const figure = make(chosen.kind, chosen.choice);
    return 'reason' in figure ? [] : [{ ...chosen, made: figure }];
  });
  // An article that has no translation is shown as it is in the main language, and its faults are told there.
  const problems = languageOfPart(test, 'article') === undefined ? article.problems : [];
  return { test, figures, problems };
}

/** The article's figures in its order, then every other kind as it comes by itself. */
function figuresWanted({ house }: Publication, test: TestResult): readonly ChosenFigure[] {
  const wanted = new Map<string, ChosenFigure>();
  for (const { kind, choice, key, name, number } of articleFigures(test.articleMarkdown, house)) {
    if (isFigureKind(kind) && !wanted.has(key)) wanted.set(key, { kind, choice, key, name, number });
  }
  for (const kind of Object.keys(FIGURES) as FigureKind[]) {
    if ([...wanted.values()].some(figure => figure.kind === kind)) continue;
    const choice: FigureChoice = { startRule: house.headline_start_rule };
    const key = figureKey(kind, choice);
    wanted.set(key, { kind, choice, key, name: kind });
  }
  return [...wanted.values()];
}

/** How many pictures `writeTest` will make, for progress. */
export function countPictures(planned: PlannedTest, publication: Publication): number {
  const overlays =
    publication.house.mainLanguage === undefined ? countOverlayPictures(planned.test, publication) : 0;
  return planned.figures.length * LAYOUTS.length + overlays;
}

const othersOf = (test: TestResult, { tests }: Publication): readonly TestResult[] =>
  tests.filter(other => other.id !== test.id);

/**
 * Draws and writes everything of one test. In a further language, figures, tables and the article stand in a folder
 * of their own; data and lower thirds are those of the main one, `main`, and only named.
 * @returns what the site's pages need to know of it, and what did not fit.
 */
export async function writeTest(
  planned: PlannedTest,
  publication: Publication,
  lettering: Lettering,
  write: WriteFile,
  pictureDone: () => void,
  main?: PressTest,
): Promise<{ readonly press: PressTest; readonly problems: readonly Problem[] }> {
  const { test } = planned;
  const { house } = publication;
  const words = FILE_WORDS(house);
  const folder = pressFolder(test, house);

  const figures = await fewAtOnce(planned.figures, figure =>
    writeFigure(`${folder}/figures/${figure.name}`, figure, lettering, write, pictureDone),
  );

  const tables: PressTable[] = [];
  for (const [kind, { make }] of Object.entries(TABLES)) {
    const table = make(test, house, othersOf(test, publication));
    const csv = `${folder}/tables/${kind}.csv`;
    await write(csv, tableToCsv(table));
    tables.push({ kind, caption: table.caption, html: tableToHtml(table), csv });
  }

  const lowerThirds =
    main === undefined
      ? await writeOverlays(folder, test, publication, lettering, write, pictureDone)
      : { overlays: main.overlays, files: overlayFiles(main, house), problems: [] };

  const files: PressFile[] = [...lowerThirds.files];
  const addFile = async (path: string, describes: string, content: string, toWrite = true) => {
    if (toWrite) await write(path, content);
    files.push({ path, describes, bytes: Buffer.byteLength(content) });
  };
  const addData = (name: string, describes: string, content: string) =>
    addFile(`press/${test.id}/${name}`, describes, content, main === undefined);
  if (languageOfPart(test, 'article') === undefined) {
    await addFile(
      `${folder}/article.html`,
      words.article,
      articlePiece(test, publication, { figures, tables }),
    );
  }
  await addData('results.json', words.resultsJson, resultsToJson(test, publication));
  await addData('results.csv', words.resultsCsv, resultsToCsv(test));
  for (const [rate, counting] of TIMELINES) {
    const timeline = testTimeline(test, house, FRAME_RATES[rate], counting);
    if (timeline.runs.length === 0) continue;
    const counted = counting === 'drop-frame' ? words.dropFrame(rate) : rate;
    await addData(`timelines/${rate}.otio`, words.otio(counted), timelineToOtio(timeline));
    await addData(`timelines/${rate}.edl`, words.edl(counted), timelineToEdl(timeline));
  }
  return {
    press: { figures, tables, overlays: lowerThirds.overlays, files },
    problems: lowerThirds.problems,
  };
}

async function writeFigure(
  stem: string,
  figure: ChosenFigure & { readonly made: MadeFigure },
  lettering: Lettering,
  write: WriteFile,
  pictureDone: () => void,
): Promise<PressFigure> {
  const { made } = figure;
  const draw = async (layout: FigureLayout) => {
    const { svg, svgOutlined, widthPx, heightPx } = await renderFigure(made, layout, lettering);
    const path = `${stem}-${layout}.svg`;
    const png = `${stem}-${layout}.png`;
    await write(path, svgOutlined);
    await write(`${stem}-${layout}-text.svg`, svg);
    await write(png, await renderFigurePng(svgOutlined, PNG_SCALE));
    pictureDone();
    return {
      svg: { path, widthPx, heightPx },
      png: { path: png, widthPx: widthPx * PNG_SCALE, heightPx: heightPx * PNG_SCALE },
    };
  };
  const wide = await draw('wide');
  const narrow = await draw('narrow');
  return {
    kind: figure.kind,
    key: figure.key,
    ...(figure.number === undefined ? {} : { number: figure.number }),
    files: { wide: wide.svg, narrow: narrow.svg },
    png: wide.png,
    title: made.title,
    caption: made.caption,
    altText: made.altText,
    tableHtml: tableToHtml(made.table),
  };
}
