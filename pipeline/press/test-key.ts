/** Everything that the press folder of a test is made from, and nothing else, as a key to keep it under. */
import { testsBesideEach } from '../article/pair.ts';
import { codeDigest } from '../cache/code-digest.ts';
import { digestOf } from '../cache/digest.ts';
import { NO_STORE, type Store } from '../cache/store.ts';
import { remarkPath } from '../content/translate.ts';
import { onceOf } from '../once-of.ts';
import { changedTest, withoutAttempts } from '../result/lazy-attempts.ts';
import type { House, Publication, TestResult } from '../result/result.ts';
import type { Trace } from '../trace/trace.ts';

/** The module that makes press folders. */
const CODE = 'pipeline/press/press-test.ts';

/** One test with what it may look at. */
export interface TestInView {
  readonly test: TestResult;
  /**
   * House and tests alone: the test itself whole, those beside it and those its article names as they show themselves to
   * others; the rest have their names, and no attempts.
   */
  readonly publication: Publication;
  readonly key: string;
  /** Digest of what another test of the publication shows of itself to this one. */
  readonly shownDigest: (other: TestResult) => string;
}

/**
 * Each test of a publication with its key. What a test is shown of the others is all that its key has to hold of
 * them: a note, an article or a log's warning of one test leaves the rest as they are, a figure of it changes those
 * beside it, and no other.
 */
export function testsInView(
  whole: Publication,
  store: Store = NO_STORE,
  only?: (testId: string) => boolean,
): readonly TestInView[] {
  return only === undefined
    ? onceOf(inView, whole, () => lookAtTests(whole, store, () => true))
    : lookAtTests(whole, store, only);
}
/** Asked for by press folders and by pages. */
const inView = new WeakMap<Publication, readonly TestInView[]>();

function lookAtTests(
  whole: Publication,
  store: Store,
  only: (testId: string) => boolean,
): readonly TestInView[] {
  const { house, tests } = whole;
  const surroundings = surroundingsOf(house);
  const shown = new Map(tests.map(test => [test, asOther(test)]));
  const place = new Map(tests.map((test, index) => [test, index]));
  const hidden = new WeakMap<TestResult, TestResult>();
  const seenBy = testsSeenBy(tests);
  const shownDigest = (test: TestResult): string =>
    onceOf(shownDigests, test, () => digestOnce(test, shown.get(test)!, surroundings, store));
  return tests
    .filter(({ id }) => only(id))
    .map(test => {
      const seen = new Set(seenBy(test));
      let made: Publication | undefined;
      return {
        test,
        shownDigest,
        get publication() {
          made ??= {
            house,
            cars: [],
            roads: [],
            methodologyMarkdown: '',
            problems: [],
            tests: tests.map(other =>
              other === test
                ? test
                : seen.has(other)
                  ? shown.get(other)!
                  : onceOf(hidden, other, () => notShown(other)),
            ),
          };
          return made;
        },
        key: digestOf([
          'press folder',
          surroundings,
          testDigest(test),
          [...seen]
            .sort((a, b) => place.get(a)! - place.get(b)!)
            .map(other => [place.get(other)! < place.get(test)!, shownDigest(other)]),
        ]),
      };
    });
}

/** The tests beside one, and those its article names. */
function testsSeenBy(tests: readonly TestResult[]): (test: TestResult) => readonly TestResult[] {
  const beside = testsBesideEach(tests);
  const named = new Map(tests.map(test => [test.id, test]));
  return test => {
    const words = new Set(test.articleMarkdown.match(WORD));
    return [...beside(test), ...[...words].flatMap(word => named.get(word) ?? [])].filter(
      other => other !== test,
    );
  };
}
/** What may be the id of a test. */
const WORD = /[a-z0-9]+(?:-[a-z0-9]+)*/g;

/** What a test shows of itself to others, its digest kept where the test is known by what it was made from. */
function digestOnce(test: TestResult, shown: TestResult, surroundings: string, store: Store): string {
  if (test.madeFrom === undefined) return digestOf(shown);
  const key = digestOf(['shown to others', surroundings, testDigest(test)]);
  const kept = store.readSync(key);
  if (kept !== undefined) return Buffer.from(kept).toString('utf8');
  const made = digestOf(shown);
  store.writeSync(key, Buffer.from(made, 'utf8'));
  return made;
}

/** Works out what each test shows of itself to others, for whoever asks later without its attempts at hand. */
export function keepShown({ house, tests }: Publication, store: Store): void {
  const surroundings = surroundingsOf(house);
  for (const test of tests) digestOnce(test, asOther(test), surroundings, store);
}

const surroundingsOf = (house: House): string => digestOf([codeDigest(CODE), house]);

/** A test as far as another test's figures, tables and article may tell of it. */
function asOther(test: TestResult): TestResult {
  const { content, untranslated } = test;
  const { corrections: _, ...own } = content;
  const remarks = remarkPath('');
  const shown = changedTest(
    test,
    {
      ...(untranslated === undefined
        ? {}
        : {
            untranslated: {
              ...untranslated,
              paths: new Set([...untranslated.paths].filter(path => !path.startsWith(remarks))),
            },
          }),
      content: { ...own, attempts: [], logs: [] },
      articleMarkdown: '',
      logSha256: {},
      warnings: [],
    },
    ({ note: _, ...attempt }) => ({ ...attempt, trace: unread(attempt.trace, test.id) }),
  );
  for (const own of ['noteOfAttempt', 'signedOff', 'madeFrom'] as const)
    delete (shown as Partial<TestResult>)[own];
  return shown;
}

/** A test of which another knows that it is there; asking for its attempts is a fault of the program. */
const notShown = (test: TestResult): TestResult =>
  Object.create(test, {
    articleMarkdown: { value: '' },
    attempts: {
      get(): never {
        throw new Error(
          `The attempts of the test '${test.id}' are not shown to a test that it is not beside`,
        );
      },
    },
  }) as TestResult;

/**
 * Everything a test is. All of it follows from what it was made from where that is known, and its attempts do also in
 * another language.
 */
export const testDigest = (test: TestResult): string =>
  onceOf(testDigests, test, () => {
    const { madeFrom, untranslated } = test;
    if (madeFrom === undefined) return digestOf(withoutReadings(test));
    return digestOf(untranslated === undefined ? ['test', madeFrom] : withoutAttempts(test));
  });

/** Asked for by press folders, open data and pages. */
const shownDigests = new WeakMap<TestResult, string>();
const testDigests = new WeakMap<TestResult, string>();

/** The readings themselves follow from the logs' hashes, from what is said of the logs, and from the code. */
const READINGS: readonly string[] = ['timeS', 'speedMps', 'distanceM', 'line', 'channels'];

const withoutReadings = (test: TestResult): object => ({
  ...test,
  attempts: test.attempts.map(attempt => ({ ...attempt, trace: factsOf(attempt.trace) })),
});

/** All that is said of a trace besides. */
const factsOf = (trace: Trace): object =>
  Object.fromEntries(
    Object.keys(trace)
      .filter(key => !READINGS.includes(key))
      .map(key => [key, trace[key as keyof Trace]]),
  );

/** A trace whose readings are not to be had; asking for them is a fault of the program. */
function unread(trace: Trace, testId: string): Trace {
  const said = factsOf(trace);
  for (const key of READINGS) {
    Object.defineProperty(said, key, {
      get: () => {
        throw new Error(`The readings of the test '${testId}' are not shown to other tests: ${key}`);
      },
    });
  }
  return said as Trace;
}
