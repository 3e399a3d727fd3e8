/**
 * The stages in their order: the one place that shows the whole.
 *
 *     content/ ──► read-folder ──► files
 *                                    │
 *            ┌───────────────────────┴──────────────┐
 *        content: what people wrote,            log ─► trace ─► run ─► measurement
 *        checked, with places                       │                     │
 *            └────────────────┬─────────────────────┴── conditions ───────┘
 *                          result: tests, attempts kept and set aside
 *                             │
 *              ┌──────────┬───┴──────┬───────────┐
 *            table      figure    overlay     article
 *              └──────────┴───┬──────┴───────────┘
 *                        press folder ──► site
 *
 * Up to the result everything is pure; this file and `content/read-folder.ts` are where it meets the disk.
 * From there on `press/press-test.ts` makes the files and `command/build.ts` puts them in place.
 */
import { createHash } from 'node:crypto';
import { storeOf } from './cache/folder.ts';
import { contentOnce, type SeenContent } from './cache/kept-content.ts';
import { keepingTests } from './cache/kept-tests.ts';
import { keepingTools } from './cache/measured-logs.ts';
import type { Store } from './cache/store.ts';
import type { Content } from './content/content.ts';
import type { ContentFiles } from './content/files.ts';
import { sortProblems } from './content/sort-problems.ts';
import { readLog } from './log/readers.ts';
import { measureLog } from './measurement/measure.ts';
import { houseLogo } from './overlay/logo.ts';
import { type Problem, ProblemError } from './problem.ts';
import { type AssembleTools, contentToTests, makingsOf, testsToPublication } from './result/assemble.ts';
import type { Publication, TestResult } from './result/result.ts';

/** The real readers and measurements. */
export const ASSEMBLE_TOOLS: AssembleTools = {
  readLog,
  measureLog,
  sha256: bytes => createHash('sha256').update(bytes).digest('hex'),
};

/** Everything that could be read, measured and put together, and everything that is wrong with it. */
export interface Loaded {
  readonly tests: readonly TestResult[];
  readonly problems: readonly Problem[];
  /** Absent where house.yaml is missing or faulty: without it nothing has a name. */
  readonly publication?: Publication;
}

export interface LoadOptions {
  /** Which tests, by their ids and places in the order of their folders; all where absent. */
  readonly only?: (id: string, index: number) => boolean;
  /** Hears how many logs there are, then of each when it is measured. */
  readonly counting?: { step(total: number): void; done(): void };
  /** Files as they were seen a moment ago: what was made of the same before need not be read. */
  readonly seen?: SeenContent;
  /** Where what was made before is kept; the store of `root` where absent. */
  readonly store?: Store;
  /** Takes work that nobody waits for; done at once where absent. */
  readonly later?: (work: () => void) => void;
}

/** Ids of the tests under `root`/content that have not been put together before as they are now. */
export async function testsToMake(
  root: string,
  { seen, store = storeOf(root) }: Pick<LoadOptions, 'seen' | 'store'> = {},
): Promise<readonly string[]> {
  const { files, content } = await contentOnce(root, store, seen);
  const { holds } = keeping(store, files, seen);
  return makingsOf(content, files).flatMap(makings => (holds(makings) ? [] : [makings.folder.id]));
}

function keeping(store: Store, files: ContentFiles, seen: LoadOptions['seen']) {
  const tools = keepingTools(ASSEMBLE_TOOLS, store, path => files.get(path));
  const tests = keepingTests(store, tools, {
    seen: path => seen?.[path],
    now: path => tools.sha256(files.get(path)!),
  });
  return { ...tools, ...tests };
}

/**
 * Reads, checks, measures and puts together everything under `root`/content, articles not yet included.
 * What errors touch is left out; the caller decides whether to go on. A log that was measured before, by the same
 * code, is not measured again.
 */
export async function checkContent(
  root: string,
  { only, counting, seen, store = storeOf(root), later }: LoadOptions = {},
): Promise<Loaded> {
  const { files, unread, content: whole } = await contentOnce(root, store, seen, later);
  const content =
    only === undefined ? whole : { ...whole, tests: whole.tests.filter(({ id }, index) => only(id, index)) };
  counting?.step(content.tests.reduce((sum, test) => sum + test.content.logs.length, 0));
  const tools = keeping(store, files, seen);
  const assembled = contentToTests(content, files, {
    ...tools,
    assembleOnce(makings, make) {
      const test = tools.assembleOnce(makings, make);
      for (const _ of makings.folder.content.logs) counting?.done();
      return test;
    },
  });
  const logo = await houseLogo(content.house, files);
  const inContent = sortProblems([...unread, ...assembled.problems, ...logo.problems]);
  const made = testsToPublication(content, { tests: assembled.tests, problems: inContent });
  const pictured =
    made && logo.picture ? { ...made, house: { ...made.house, logoPicture: logo.picture } } : made;
  const problems = sortProblems([...inContent, ...(await heldToRecord(content, pictured))]);
  const publication = pictured && { ...pictured, problems };
  return { tests: assembled.tests, problems, ...(publication === undefined ? {} : { publication }) };
}

/** What moved since the numbers of a test went out; articles and figures are loaded only where some have. */
async function heldToRecord(
  content: Content,
  publication: Publication | undefined,
): Promise<readonly Problem[]> {
  const held = publication?.tests.some(
    ({ signedOff, content: { corrections } }) => signedOff !== undefined || corrections !== undefined,
  );
  if (publication === undefined || held !== true) return [];
  const { signOffProblems } = await import('./sign-off/check.ts');
  return signOffProblems(publication, ({ id }, path) => {
    const folder = content.tests.find(test => test.id === id)!;
    return folder.place(path);
  });
}

/**
 * The publication under `root`/content; its problems hold errors too.
 * @throws ProblemError with all problems where house.yaml is missing or has faults
 */
export async function loadPublication(root: string, options: LoadOptions = {}): Promise<Publication> {
  const { publication, problems } = await checkContent(root, options);
  if (!publication) throw new ProblemError(problems);
  return publication;
}
