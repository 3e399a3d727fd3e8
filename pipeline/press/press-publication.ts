/**
 * The press folders of a whole publication, in each of its languages: each taken from what is kept where all it is made
 * from is the same, made and kept otherwise. What draws is loaded only where something is to be drawn.
 */
import { codeDigest } from '../cache/code-digest.ts';
import { type KeptFile, keptWork, valueOnce, workOnce } from '../cache/kept.ts';
import type { Store } from '../cache/store.ts';
import type { Lettering } from '../lettering/lettering.ts';
import type { Problem } from '../problem.ts';
import { inLanguage, languagesOf, languageWord } from '../result/in-language.ts';
import type { Publication } from '../result/result.ts';
import type { PressManifest, PressTest } from './manifest.ts';
import type { Output } from './output.ts';
import type { PlannedTest } from './press-test.ts';
import { type TestInView, testsInView } from './test-key.ts';

/** Plans held in memory until they are drawn; of the tests beyond them only the faults are kept, and they are planned again. */
const MOST_PLANS = 16;
const ARTICLE_CODE = 'pipeline/article/article.ts';

/** A press folder as it is kept. */
interface KeptPress {
  readonly press: PressTest;
  /** Of its article, and of what did not fit. */
  readonly planned: readonly Problem[];
  readonly drawn: readonly Problem[];
}

interface PlannedPressTest extends TestInView {
  /** It need not be made. */
  readonly kept: boolean;
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
  only: (testId: string) => boolean = () => true,
): Promise<PlannedPress> {
  const languages: PlannedPressLanguage[] = [];
  const problems: Problem[] = [];
  let pictures = 0;
  let plans = 0;
  for (const tag of languagesOf(publication.house)) {
    const own = inLanguage(publication, tag);
    const tests: PlannedPressTest[] = [];
    for (const inView of testsInView(own).filter(({ test }) => only(test.id))) {
      const kept = await keptWork<KeptPress>(store, inView.key);
      if (kept !== undefined) {
        problems.push(...kept.value.planned);
        tests.push({ ...inView, kept: true });
        continue;
      }
      const { countPictures, planTest } = await import('./press-test.ts');
      const plan = planTest(inView.publication, inView.test);
      problems.push(...plan.problems);
      pictures += countPictures(plan, inView.publication);
      plans += 1;
      tests.push({ ...inView, kept: false, ...(plans > MOST_PLANS ? {} : { plan }) });
    }
    problems.push(...(await methodologyProblems(own, store)));
    languages.push({ publication: own, tests });
  }
  return { languages, problems, pictures };
}

export interface WrittenPress {
  readonly manifest: PressManifest;
  /** What did not fit, and what could not be drawn as written. */
  readonly problems: readonly Problem[];
}

/** Puts every press folder in its place. */
export async function writePress(
  { languages }: PlannedPress,
  store: Store,
  output: Output,
  pictureDone: () => void,
): Promise<WrittenPress> {
  const tests: Record<string, PressTest> = {};
  const translated: Record<string, Record<string, PressTest>> = {};
  const problems: Problem[] = [];
  let lettering: Lettering | undefined;
  for (const { publication, tests: ofLanguage } of languages) {
    const { language, mainLanguage } = publication.house;
    const ownTests: Record<string, PressTest> = {};
    for (const { test, publication: view, key, plan } of ofLanguage) {
      const main = mainLanguage === undefined ? undefined : tests[test.id];
      const { press, drawn } = await workOnce<KeptPress, KeptFile>(store, key, output.adopt, async () => {
        const { planTest, writeTest } = await import('./press-test.ts');
        const { loadLettering } = await import('../lettering/fonts.ts');
        lettering ??= await loadLettering();
        const toldBefore = lettering.problems().length;
        const planned = plan ?? planTest(view, test);
        const paths: string[] = [];
        const write = async (path: string, content: string | Uint8Array): Promise<void> => {
          await output.write(path, content);
          paths.push(path);
        };
        const written = await writeTest(planned, view, lettering, write, pictureDone, main, store);
        return {
          value: { press: written.press, planned: planned.problems, drawn: written.problems },
          files: paths.map(path => ({ path, sha256: output.files.get(path)! })),
          // What the letters have to tell would not be told again.
          passing: lettering.problems().length > toldBefore,
        };
      });
      ownTests[test.id] = press;
      problems.push(...drawn);
    }
    if (mainLanguage === undefined) Object.assign(tests, ownTests);
    else translated[languageWord(language)] = ownTests;
  }
  const manifest = { tests, ...(languages.length > 1 ? { translated } : {}) };
  return { manifest, problems: [...problems, ...(lettering?.problems() ?? [])] };
}

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
