/** Tests put together once: what each came to, kept by the files of its folder, its car, its road and the house. */
import { deserialize, serialize } from 'node:v8';
import { onceOf } from '../once-of.ts';
import type { AssembledTest, AssembleTools, TestMakings } from '../result/assemble.ts';
import { withAttempts } from '../result/lazy-attempts.ts';
import type { Attempt, TestResult } from '../result/result.ts';
import { codeDigest } from './code-digest.ts';
import { digestOf } from './digest.ts';
import { factsOfTrace, type KeepingTools, type ReadingsRecipe, type TraceFacts } from './measured-logs.ts';
import { holdingRecent } from './recent.ts';
import type { Store } from './store.ts';

/** What puts a test together, the readers and measurements included. */
const CODE = ['pipeline/result/assemble.ts', 'pipeline/log/readers.ts', 'pipeline/measurement/measure.ts'];

/**
 * Tests whose attempts are held in memory at once, some 0.3 MB each: a test and all that have a page beside it, which
 * those of its neighbours ask for again.
 */
const MOST_TESTS = 128;

/** Everything of a test but its attempts. */
interface Said {
  readonly result: Omit<TestResult, 'attempts'>;
  readonly problems: AssembledTest['problems'];
}

/** Attempts as they are kept: each trace once, its readings apart. */
interface KeptAttempts {
  readonly attempts: readonly (Omit<Attempt, 'trace'> & { readonly trace: number })[];
  readonly traces: readonly { readonly facts: TraceFacts; readonly recipe: ReadingsRecipe }[];
}

export interface FileDigests {
  /** SHA-256 of a file as it was seen a moment ago; undefined where it was not. */
  seen(path: string): string | undefined;
  /** Of the bytes that are there now. */
  now(path: string): string;
}

export interface KeptTests {
  readonly assembleOnce: NonNullable<AssembleTools['assembleOnce']>;
  /** Whether a test was put together from the same before. */
  holds(makings: TestMakings): boolean;
}

/**
 * For `AssembleTools.assembleOnce`. Attempts are read when they are first asked for and may be let go again, so that an
 * archive does not have to fit into memory; while they are held they are the very same objects.
 */
export function keepingTests(store: Store, tools: KeepingTools, files: FileDigests): KeptTests {
  const code = digestOf(CODE.map(codeDigest));
  const recent = holdingRecent<readonly Attempt[]>(MOST_TESTS);
  const attemptsOf = (key: string, make: () => AssembledTest): readonly Attempt[] =>
    recent(key, () => keptAttempts(attemptsKey(key)) ?? make().result.attempts);
  const keptAttempts = (key: string): readonly Attempt[] | undefined => {
    const bytes = store.readSync(key);
    if (bytes === undefined) return undefined;
    const { attempts, traces } = deserialize(bytes) as KeptAttempts;
    const again = traces.map(({ facts, recipe }) => tools.traceAgain(facts, recipe));
    return attempts.map(attempt => ({ ...attempt, trace: again[attempt.trace]! }));
  };

  const lookAt = ({ paths, folder, car, road, house }: TestMakings) => {
    const digests = paths.map(path => files.seen(path) ?? files.now(path));
    const named = paths.map((path, index) => [path, digests[index]]);
    const shared = [car, road, house].map(each => each && digestOnce(each));
    return { digests, key: digestOf(['test', code, folder.id, shared, named]) };
  };
  const assembleOnce: KeptTests['assembleOnce'] = (makings, make) => {
    const { paths } = makings;
    const { digests, key } = lookAt(makings);
    const bytes = store.readSync(key);
    if (bytes !== undefined) {
      const { result, problems } = deserialize(bytes) as Said;
      return { result: withAttempts({ ...result, madeFrom: key }, () => attemptsOf(key, make)), problems };
    }
    const { result, problems } = make();
    // A file that is still being written is not kept as what it was when it was looked at.
    if (paths.some((path, index) => files.now(path) !== digests[index])) return { result, problems };
    const { attempts, ...rest } = result;
    store.writeSync(attemptsKey(key), serialize(takenApart(attempts, tools)));
    store.writeSync(key, serialize({ result: rest, problems } satisfies Said));
    recent(key, () => attempts);
    return { result: withAttempts({ ...rest, madeFrom: key }, () => attemptsOf(key, make)), problems };
  };
  return { assembleOnce, holds: makings => store.holds(lookAt(makings).key) };
}

/** Cars, roads and the house are those of many tests. */
const digestOnce = (value: object): string => onceOf(digests, value, () => digestOf(value));
const digests = new WeakMap<object, string>();

const attemptsKey = (key: string): string => digestOf(['attempts', key]);

function takenApart(attempts: readonly Attempt[], tools: KeepingTools): KeptAttempts {
  const traces = [...new Set(attempts.map(({ trace }) => trace))];
  return {
    attempts: attempts.map(attempt => ({ ...attempt, trace: traces.indexOf(attempt.trace) })),
    traces: traces.map(trace => ({ facts: factsOfTrace(trace), recipe: tools.recipeOf(trace) })),
  };
}
