/** Everything that the press folder of a test is made from, and nothing else, as a key to keep it under. */
import { codeDigest } from '../cache/code-digest.ts';
import { digestOf } from '../cache/digest.ts';
import { remarkPath } from '../content/translate.ts';
import type { Attempt, Publication, TestResult } from '../result/result.ts';
import type { Trace } from '../trace/trace.ts';

/** The module that makes press folders. */
const CODE = 'pipeline/press/press-test.ts';

/** One test with what it may look at. */
export interface TestInView {
  readonly test: TestResult;
  /** House and tests alone: the test itself whole, every other as it shows itself to others. */
  readonly publication: Publication;
  readonly key: string;
}

/**
 * Each test of a publication with its key. What a test is shown of the others is all that its key has to hold of
 * them: a note, an article or a log's warning of one test leaves the rest as they are, a figure of it does not.
 */
export function testsInView(whole: Publication): readonly TestInView[] {
  const { house, tests } = whole;
  const shown = tests.map(asOther);
  const shownDigests = shown.map(digestOf);
  const surroundings = digestOf([codeDigest(CODE), house]);
  return tests.map((test, own) => ({
    test,
    publication: {
      house,
      cars: [],
      roads: [],
      methodologyMarkdown: '',
      problems: [],
      tests: shown.map((other, index) => (index === own ? test : other)),
    },
    key: digestOf([
      'press folder',
      surroundings,
      own,
      withoutReadings(test),
      shownDigests.filter((_, index) => index !== own),
    ]),
  }));
}

/** A test as far as another test's figures, tables and article may tell of it. */
function asOther(test: TestResult): TestResult {
  const { noteOfAttempt: _, signedOff: __, content, untranslated, ...rest } = test;
  const { corrections: ___, ...own } = content;
  const remarks = remarkPath('');
  return {
    ...rest,
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
    attempts: test.attempts.map(
      ({ note: ____, ...attempt }): Attempt => ({
        ...attempt,
        trace: unread(attempt.trace, test.id),
      }),
    ),
  };
}

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
