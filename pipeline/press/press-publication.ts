/**
 * The press folders of a whole publication, in each of its languages: each taken from what is kept where all it is made
 * from is the same, made and kept otherwise. What draws is loaded only where something is to be drawn.
 */
import { codeDigest } from '../cache/code-digest.ts';
import { adoptEvery, type Done, type KeptFile, keptWork, valueOnce, workOnce } from '../cache/kept.ts';
import type { Store } from '../cache/store.ts';
import type { Lettering } from '../lettering/lettering.ts';
import type { Problem } from '../problem.ts';
import { inLanguage, languagesOf, languageWord } from '../result/in-language.ts';
import type { Publication, TestResult } from '../result/result.ts';
import { GUIDE_KIND, type PressTest, pressFile } from './manifest.ts';
import type { Output, ReadableOutput } from './output.ts';
import type { Later } from './place-later.ts';
import type { PlannedTest } from './press-test.ts';
import { type TestInView, testsInView } from './test-key.ts';

/** Plans held in memory until they are drawn; of the tests beyond them only the faults are kept, and they are planned again. */
const MOST_PLANS = 16;
const ARTICLE_CODE = 'pipeline/article/article.ts';

/** What the press folders of tests hold, counted. */
export interface PressCounts {
  readonly attempts: number;
  /** Of the attempts. */
  readonly kept: number;
  readonly figures: number;
  readonly tables: number;
  readonly lowerThirds: number;
}

/** A press folder as it is kept. */
interface KeptPress {
  readonly counts: PressCounts;
  /** Of its article, and of what did not fit. */
  readonly planned: readonly Problem[];
  readonly drawn: readonly Problem[];
}

interface PlannedPressTest {
  readonly inView: TestInView;
  /** What it came to before: it need not be made. */
  readonly kept?: Done<KeptPress>;
  readonly plan?: PlannedTest;
}

interface PlannedPressLanguage {
  readonly publication: Publication;
  readonly tests: readonly PlannedPressTest[];
}

/** Everything that is known before anything is drawn. */
export interface PlannedPress {
  /** The main language first. */
  readonly languages: readonly PlannedPressLanguage[];
  readonly problems: readonly Problem[];
  /** Pictures to be drawn, as far as that is known, for progress. */
  readonly pictures: number;
}

/**
 * Reads every article and makes every figure's specification, where it is not known already what they come to.
 * @param only which tests, by id; all where absent
 */
export async function planPress(
  publication: Publication,
  store: Store,
  only?: (testId: string) => boolean,
): Promise<PlannedPress> {
  const languages: PlannedPressLanguage[] = [];
  const problems: Problem[] = [];
  let pictures = 0;
  let plans = 0;
  for (const tag of languagesOf(publication.house)) {
    const own = inLanguage(publication, tag);
    const tests: PlannedPressTest[] = [];
    for (const inView of testsInView(own, store, only)) {
      const kept = keptWork<KeptPress>(store, inView.key);
      if (kept !== undefined) {
        problems.push(...kept.value.planned);
        tests.push({ inView, kept });
        continue;
      }
      const { countPictures, planTest } = await import('./press-test.ts');
      const plan = planTest(inView.publication, inView.test);
      problems.push(...plan.problems);
      pictures += countPictures(plan, inView.publication);
      plans += 1;
      tests.push({ inView, ...(plans > MOST_PLANS ? {} : { plan }) });
    }
    problems.push(...(await methodologyProblems(own, store)));
    languages.push({ publication: own, tests });
  }
  return { languages, problems, pictures };
}

/** Ids of the tests whose press folders are not kept in every language. */
export async function testsToDraw(publication: Publication, store: Store): Promise<readonly string[]> {
  const ids = new Set<string>();
  for (const tag of languagesOf(publication.house)) {
    for (const { test, key } of testsInView(inLanguage(publication, tag), store))
      if (!store.holds(key)) ids.add(test.id);
  }
  return [...ids];
}

export interface WrittenPress {
  /** Of the main language. */
  readonly counts: PressCounts;
  /** What did not fit, and what could not be drawn as written. */
  readonly problems: readonly Problem[];
}

/** Where press folders go, and what drawing them needs. */
interface Press {
  readonly store: Store;
  readonly output: Output;
  readonly forPages: ReadableOutput;
  readonly pictureDone: () => void;
  /** Loaded where something is to be drawn. */
  lettering(): Promise<Lettering>;
}

/**
 * Makes every press folder.
 * @param forPages takes what the pages need to know of each, as `pressFile` names it, and gives it back
 * @param later takes what puts a kept folder in its place: what reads none of its files need not wait
 */
export async function writePress(
  { languages }: PlannedPress,
  store: Store,
  output: Output,
  forPages: ReadableOutput,
  pictureDone: () => void,
  later: Later,
): Promise<WrittenPress> {
  let loaded: Lettering | undefined;
  const lettering = async (): Promise<Lettering> => {
    const { loadLettering } = await import('../lettering/fonts.ts');
    loaded ??= await loadLettering();
    return loaded;
  };
  const press: Press = { store, output, forPages, pictureDone, lettering };
  const problems: Problem[] = [];
  let counts: PressCounts = { attempts: 0, kept: 0, figures: 0, tables: 0, lowerThirds: 0 };
  for (const { publication, tests } of languages) {
    const { language, mainLanguage } = publication.house;
    const lang = mainLanguage === undefined ? undefined : languageWord(language);
    for (const test of tests) {
      const folder = await putFolder(test, lang, press, later);
      problems.push(...folder.drawn);
      if (lang === undefined) counts = sumOf(counts, folder.counts);
    }
  }
  return { counts, problems: [...problems, ...(loaded?.problems() ?? [])] };
}

/** A press folder in its place: at once as far as pages are made from it, or where it is not kept whole. */
async function putFolder(
  planned: PlannedPressTest,
  lang: string | undefined,
  press: Press,
  later: Later,
): Promise<KeptPress> {
  const { store, output, forPages } = press;
  const { inView, kept } = planned;
  const about = pressFile(inView.test.id, lang);
  const isForPages = ({ path }: KeptFile): boolean => path === about;
  const adopt = (file: KeptFile) => (isForPages(file) ? forPages : output).adopt(file);
  const put = (known?: Done<KeptPress>) =>
    workOnce<KeptPress, KeptFile>(store, inView.key, adopt, () => drawFolder(planned, lang, press), known);
  if (kept === undefined || !(await adoptEvery(kept.files.filter(isForPages), adopt))) return await put();
  later.add(() => put({ ...kept, files: kept.files.filter(file => !isForPages(file)) }));
  return kept.value;
}

async function drawFolder(
  { inView: { test, publication }, plan }: PlannedPressTest,
  lang: string | undefined,
  { store, output, forPages, pictureDone, lettering: load }: Press,
): Promise<Done<KeptPress> & { readonly passing: boolean }> {
  const { planTest, writeTest } = await import('./press-test.ts');
  const lettering = await load();
  const toldBefore = lettering.problems().length;
  const main =
    lang === undefined ? undefined : (JSON.parse(await forPages.read(pressFile(test.id))) as PressTest);
  const paths: string[] = [];
  const write = async (path: string, content: string | Uint8Array): Promise<void> => {
    await output.write(path, content);
    paths.push(path);
  };
  const planned = plan ?? planTest(publication, test);
  const { press, problems } = await writeTest(
    planned,
    publication,
    lettering,
    write,
    pictureDone,
    main,
    store,
  );
  const about = pressFile(test.id, lang);
  await forPages.write(about, JSON.stringify(press));
  const written = paths.map(path => ({ path, sha256: output.files.get(path)! }));
  return {
    value: { counts: countsOf(test, press), planned: planned.problems, drawn: problems },
    files: [...written, { path: about, sha256: forPages.files.get(about)! }],
    // What the letters have to tell would not be told again.
    passing: lettering.problems().length > toldBefore,
  };
}

const countsOf = ({ attempts }: TestResult, { figures, tables, overlays }: PressTest): PressCounts => ({
  attempts: attempts.length,
  kept: attempts.filter(({ setAside }) => setAside === undefined).length,
  figures: figures.length,
  tables: tables.length,
  lowerThirds: overlays.filter(({ kind }) => kind !== GUIDE_KIND).length,
});

const sumOf = (a: PressCounts, b: PressCounts): PressCounts => ({
  attempts: a.attempts + b.attempts,
  kept: a.kept + b.kept,
  figures: a.figures + b.figures,
  tables: a.tables + b.tables,
  lowerThirds: a.lowerThirds + b.lowerThirds,
});

/** Faults of the methodology's text. */
async function methodologyProblems(
  { methodologyMarkdown, methodologyFile }: Publication,
  store: Store,
): Promise<readonly Problem[]> {
  const from = ['methodology', codeDigest(ARTICLE_CODE), methodologyMarkdown, methodologyFile];
  return await valueOnce<readonly Problem[]>(store, from, async () => {
    const { methodologyFaults } = await import('./press-test.ts');
    return methodologyFaults({
      methodologyMarkdown,
      ...(methodologyFile === undefined ? {} : { methodologyFile }),
    });
  });
}
