/** The press folder of one test: its figures, tables, overlays and data as files. */

import { articleToHtml, markdownToHtml } from '../article/article.ts';
import { articleFigures, figureKey } from '../article/figures-used.ts';
import { testsBeside } from '../article/pair.ts';
import { NO_STORE, type Store } from '../cache/store.ts';
import type { FigureChoice, MadeFigure, NotMade } from '../figure/figure.ts';
import { FIGURES, type FigureKind, isFigureKind } from '../figure/figures.ts';
import { catalogue } from '../language.ts';
import type { Lettering } from '../lettering/lettering.ts';
import { type Counting, FRAME_RATES, type FrameRateName } from '../overlay/timecode.ts';
import type { Problem } from '../problem.ts';
import { inLanguage, languageOfPart, languagesOf } from '../result/in-language.ts';
import type { Publication, TestResult } from '../result/result.ts';
import { testRoadPlan } from '../result/test-plan.ts';
import { tableToCsv } from '../table/csv.ts';
import { tableToHtml } from '../table/html.ts';
import { planToHtmlCard } from '../table/road-plan-card.ts';
import { TABLES } from '../table/tables.ts';
import { timelineToEdl } from '../timeline/edl.ts';
import { timelineToOtio } from '../timeline/otio.ts';
import { testTimeline } from '../timeline/timeline.ts';
import { testToDataSheet } from './data-sheet.ts';
import { dataSheetWords } from './data-sheet-words.ts';
import { fewAtOnce } from './few-at-once.ts';
import type { PressFile, PressTable, PressTest } from './manifest.ts';
import { type ListedFile, MANIFEST_NAME, manifestText } from './manifest-file.ts';
import { articlePiece, pressFolder } from './press-article.ts';
import {
  type ChosenFigure,
  countFigureLayouts,
  type FigureToWrite,
  writeFigureOnce,
} from './press-figures.ts';
import { countOverlayPictures, describeOverlays, overlayFiles, writeOverlays } from './press-overlays.ts';
import { recordFiles } from './recorder.ts';
import { resultsToCsv, resultsToJson } from './results-data.ts';
import type { WriteFile } from './write-file.ts';

const METHODOLOGY_FILE = 'content/methodology.md';
/** A timeline for each of the two families of video; `evenground frames` makes one at any rate. */
const TIMELINES: readonly (readonly [FrameRateName, Counting])[] = [
  ['25', 'non-drop'],
  ['29.97', 'drop-frame'],
];
/** What each file holds, for the list on a test's page. */
const FILE_WORDS = catalogue({
  en: {
    article: 'The article with its numbers filled in and their notes, for another publishing system',
    resultsJson: 'Every attempt with every figure, unrounded, SI units in the names',
    resultsCsv: 'Every figure of every attempt, one a line',
    dropFrame: (rate: string) => `${rate} drop-frame`,
    otio: (counted: string) =>
      `Every kept run from its first movement, marked for editing at ${counted} (OpenTimelineIO)`,
    planCard: 'The road plan as a card for printing on A6 or for a phone',
    manifest: 'Every file of this folder with its size, hash, start rule, count and alternative text',
    edl: (counted: string) => `The same as an edit decision list at ${counted} (CMX 3600)`,
  },
  de: {
    article: 'Der Artikel mit eingesetzten Zahlen und ihren Anmerkungen, für ein anderes Redaktionssystem',
    resultsJson: 'Jeder Versuch mit jedem Messwert, ungerundet, SI-Einheiten in den Namen',
    resultsCsv: 'Jeder Messwert jedes Versuchs, einer je Zeile',
    dropFrame: rate => `${rate} Drop-Frame`,
    otio: counted =>
      `Jede gewertete Fahrt ab ihrer ersten Bewegung, für den Schnitt bei ${counted} markiert (OpenTimelineIO)`,
    planCard: 'Der Streckenplan als Karte zum Drucken auf A6 oder fürs Telefon',
    manifest: 'Jede Datei dieses Ordners mit Größe, Prüfsumme, Startregel, Anzahl und Alternativtext',
    edl: counted => `Dasselbe als Schnittliste bei ${counted} (CMX 3600)`,
  },
});

/** Everything about a test that is known before anything is drawn. */
export interface PlannedTest {
  readonly test: TestResult;
  readonly figures: readonly FigureToWrite[];
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
  return { tests, problems: [...tests.flatMap(test => test.problems), ...methodologyFaults(publication)] };
}

/** What is wrong with the methodology's text. */
export const methodologyFaults = ({
  methodologyMarkdown,
  methodologyFile = METHODOLOGY_FILE,
}: Pick<Publication, 'methodologyMarkdown' | 'methodologyFile'>): readonly Problem[] =>
  markdownToHtml(methodologyMarkdown, methodologyFile).problems;

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
  const others = testsBeside(test, publication.tests);
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
  return planned.figures.reduce(
    (sum, figure) => sum + countFigureLayouts(figure, publication.house),
    overlays,
  );
}

/**
 * Draws and writes everything of one test. In a further language, figures, tables and the article stand in a folder
 * of their own; data and lower thirds are those of the main one, `main`, and only named. Pictures are taken from
 * `store` where it has them.
 * @returns what the site's pages need to know of it, and what did not fit.
 */
export async function writeTest(
  planned: PlannedTest,
  publication: Publication,
  lettering: Lettering,
  writeFile: WriteFile,
  pictureDone: () => void,
  main?: PressTest,
  store: Store = NO_STORE,
): Promise<{ readonly press: PressTest; readonly problems: readonly Problem[] }> {
  const { test } = planned;
  const { house, tests } = publication;
  const others = testsBeside(test, tests);
  const words = FILE_WORDS(house);
  const folder = pressFolder(test, house);

  const recorder = recordFiles(folder, writeFile);
  const { write, describe } = recorder;

  const figures = await fewAtOnce(
    planned.figures.map((figure, index) => ({ figure, name: sortedName(figure.name, index) })),
    ({ figure, name }) =>
      writeFigureOnce(`${folder}/figures`, name, figure, house, lettering, recorder, pictureDone, store),
  );

  const tables: PressTable[] = [];
  for (const [kind, { make }] of Object.entries(TABLES)) {
    const table = make(test, house, others);
    const csv = `${folder}/tables/${kind}.csv`;
    await write(csv, tableToCsv(table));
    describe(csv, { kind: 'table', shows: table.caption });
    tables.push({ kind, caption: table.caption, html: tableToHtml(table, house), csv });
  }

  const lowerThirds =
    main === undefined
      ? await writeOverlays(folder, test, publication, lettering, write, pictureDone, store)
      : { overlays: main.overlays, files: overlayFiles(main, house), problems: [] };

  if (main === undefined) describeOverlays(lowerThirds, test, recorder);

  const files: PressFile[] = [...lowerThirds.files];
  const addFile = async (
    path: string,
    kind: ListedFile['kind'],
    describes: string,
    content: string | Uint8Array,
    toWrite = true,
  ) => {
    if (toWrite) {
      await write(path, content);
      describe(path, { kind, shows: describes });
    }
    files.push({ path, describes, bytes: Buffer.byteLength(content) });
  };
  const addData = (name: string, kind: ListedFile['kind'], describes: string, content: string) =>
    addFile(`press/${test.id}/${name}`, kind, describes, content, main === undefined);
  if (languageOfPart(test, 'article') === undefined) {
    await addFile(
      `${folder}/article.html`,
      'article',
      words.article,
      articlePiece(test, publication, { figures, tables }),
    );
  }
  await addData('results.json', 'data', words.resultsJson, resultsToJson(test, publication));
  await addData('results.csv', 'data', words.resultsCsv, resultsToCsv(test));
  for (const [rate, counting] of TIMELINES) {
    const timeline = testTimeline(test, house, FRAME_RATES[rate], counting);
    if (timeline.runs.length === 0) continue;
    const counted = counting === 'drop-frame' ? words.dropFrame(rate) : rate;
    await addData(`timelines/${rate}.otio`, 'timeline', words.otio(counted), timelineToOtio(timeline));
    await addData(`timelines/${rate}.edl`, 'timeline', words.edl(counted), timelineToEdl(timeline));
  }
  await addFile(
    `${folder}/data-sheet.pdf`,
    'sheet',
    dataSheetWords(house).describes,
    await testToDataSheet(test, house, sheetFigure(planned.figures), lettering, store),
  );
  const planCard = `${folder}/road-plan-card.html`;
  await addFile(planCard, 'plan', words.planCard, planToHtmlCard(testRoadPlan(test, house), house));

  const manifest = `${folder}/${MANIFEST_NAME}`;
  await writeFile(manifest, manifestText(test, publication, folder, recorder.list()));
  files.push({ path: manifest, describes: words.manifest });
  return {
    press: { figures, tables, overlays: lowerThirds.overlays, files, planCard },
    problems: lowerThirds.problems,
  };
}

/** What stands on the data sheet: speed over time, or the stops of a day without starts. */
const sheetFigure = (figures: readonly FigureToWrite[]): MadeFigure | undefined =>
  (['speed-over-time', 'braking'] as const)
    .flatMap(kind => figures.find(figure => figure.kind === kind)?.made ?? [])
    .at(0);

/** Figures of the article by their place in it, the others after them: names that sort as the page shows them. */
const sortedName = (name: string, index: number): string => `${String(index + 1).padStart(2, '0')}-${name}`;
