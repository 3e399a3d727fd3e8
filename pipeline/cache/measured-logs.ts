/** Logs measured once: their figures kept by the log's bytes, what was asked, and the code that measures. */
import { deserialize, serialize } from 'node:v8';
import type { Log, ReadOptions } from '../log/log.ts';
import { knowShifts, type Shifts, shiftsOf } from '../measurement/shifts.ts';
import type { AssembleTools } from '../result/assemble.ts';
import type { Trace } from '../trace/trace.ts';
import { codeDigest } from './code-digest.ts';
import { digestOf } from './digest.ts';
import { holdingRecent } from './recent.ts';
import type { Store } from './store.ts';

/** Where the readers and measurements lie. */
const CODE = [
  'pipeline/log/readers.ts',
  'pipeline/measurement/measure.ts',
  'pipeline/measurement/shifts.ts',
] as const;

/** Digest of the code that readings and figures of a log follow from, besides its bytes. */
export const measuringCode = (): string => digestOf(CODE.map(codeDigest));

/** The readings of a log, which are many, apart from all that is said of them. */
const READINGS = ['timeS', 'speedMps', 'distanceM', 'line', 'channels'] as const;
type Readings = Pick<Trace, (typeof READINGS)[number]>;
const LOG_READINGS = ['timeS', 'speedMps', 'line', 'channels'] as const;
type LogReadings = Pick<Log, (typeof LOG_READINGS)[number]>;
type MeasureOptions = Parameters<AssembleTools['measureLog']>[1];

/** Readings held in memory at once: a test has a handful of logs, and the next test needs others. */
const MOST_READINGS = 6;

/** All that the readings of a trace are found again by, or worked out again from: plain data. */
export interface ReadingsRecipe {
  /** Under which they are kept. */
  readonly key: string;
  readonly file: string;
  /** SHA-256 of the log's bytes. */
  readonly hash: string;
  readonly read: ReadOptions;
  readonly measure: MeasureOptions;
}

/** What is said of a trace, without its readings. */
export type TraceFacts = Omit<Trace, keyof Readings>;

export interface KeepingTools extends AssembleTools {
  /** How to come by the readings of a trace of these tools again. @throws Error for any other trace */
  recipeOf(trace: Trace): ReadingsRecipe;
  /** A trace with its readings still to be read. */
  traceAgain(facts: TraceFacts, recipe: ReadingsRecipe): Trace;
}

/** A trace apart from its readings. */
export const factsOfTrace = (trace: Trace): TraceFacts => without(trace, READINGS);

/**
 * The readers and measurements of `CODE` with their answers kept in `store`. A trace reads its readings when they are
 * first asked for and may let them go again, so that an archive does not have to fit into memory.
 * @param bytesOf a log's bytes once more, by the name it was read under
 */
export function keepingTools(
  { readLog, measureLog, sha256 }: AssembleTools,
  store: Store,
  bytesOf: (file: string) => Uint8Array | undefined,
): KeepingTools {
  const code = measuringCode();
  const logs = new WeakMap<Log, KeptLog>();
  const recipes = new WeakMap<Trace, ReadingsRecipe>();
  const recent = holdingRecent<unknown>(MOST_READINGS);
  /** Made again where it was let go; the same content every time. */
  const readings = <T>(key: string, make: () => T): T => recent(key, make) as T;
  const kept = <T>(key: string): T | undefined => {
    const bytes = store.readSync(key);
    return bytes === undefined ? undefined : (deserialize(bytes) as T);
  };
  /** A log read once more, as long as it is still the one that was read first. */
  const readAgain = ({ file, hash, read }: Pick<ReadingsRecipe, 'file' | 'hash' | 'read'>): Log => {
    const bytes = bytesOf(file);
    if (bytes === undefined || sha256(bytes) !== hash) throw new Error(`${file} changed meanwhile`);
    return readLog(file, bytes, read);
  };
  const traceAgain = (facts: TraceFacts, recipe: ReadingsRecipe): Trace => {
    const trace = withReadings<Trace, keyof Readings>(facts, READINGS, () =>
      readings(
        recipe.key,
        () =>
          kept<Readings>(recipe.key) ?? only(measureLog(readAgain(recipe), recipe.measure).trace, READINGS),
      ),
    );
    recipes.set(trace, recipe);
    return trace;
  };

  return {
    sha256,
    recipeOf(trace) {
      const recipe = recipes.get(trace);
      if (recipe === undefined) throw new Error('The readings of this trace are not kept');
      return recipe;
    },
    traceAgain,
    readLog(file, bytes, options) {
      const hash = sha256(bytes);
      const key = digestOf(['log', code, file, hash, options]);
      let said = kept<Omit<Log, keyof LogReadings>>(key);
      if (said === undefined) {
        const log = readLog(file, bytes, options);
        said = without(log, LOG_READINGS);
        store.writeSync(key, serialize(said));
        readings<LogReadings>(key, () => only(log, LOG_READINGS));
      }
      const log = withReadings<Log, keyof LogReadings>(said, LOG_READINGS, () =>
        readings<LogReadings>(key, () => only(readAgain({ file, hash, read: options }), LOG_READINGS)),
      );
      logs.set(log, { key, file, hash, read: options });
      return log;
    },
    measureLog(log, options) {
      const known = logs.get(log);
      if (known === undefined) return measureLog(log, options);
      const key = digestOf(['measured', known.key, options]);
      const readingsKey = digestOf(['readings', key]);
      let said = kept<Said>(key);
      if (said === undefined) {
        const measured = measureLog(log, options);
        said = {
          ...measured,
          trace: without(measured.trace, READINGS),
          shifts: measured.measurements.map(each => shiftsOf(measured.trace, each)),
        };
        store.writeSync(readingsKey, serialize(only(measured.trace, READINGS)));
        store.writeSync(key, serialize(said));
      }
      const { file, hash, read } = known;
      const { shifts, ...measured } = said;
      const trace = traceAgain(said.trace, { key: readingsKey, file, hash, read, measure: options });
      for (const [index, each] of measured.measurements.entries()) knowShifts(trace, each, shifts[index]!);
      return { ...measured, trace };
    },
  };
}

/** `key` is that of what is said of the log. */
type KeptLog = Pick<ReadingsRecipe, 'key' | 'file' | 'hash' | 'read'>;

/** What was measured, without the readings. */
type Said = Omit<ReturnType<AssembleTools['measureLog']>, 'trace'> & {
  readonly trace: TraceFacts;
  /** Of each run, which take as long to look for as all its other figures. */
  readonly shifts: readonly Shifts[];
};

function only<T, K extends keyof T>(whole: T, keys: readonly K[]): Pick<T, K> {
  return Object.fromEntries(keys.map(key => [key, whole[key]])) as Pick<T, K>;
}

function without<T extends object, K extends keyof T>(whole: T, keys: readonly K[]): Omit<T, K> {
  const left = keys as readonly PropertyKey[];
  const descriptors = Object.getOwnPropertyDescriptors(whole);
  return Object.fromEntries(
    Object.keys(descriptors).flatMap(key => (left.includes(key) ? [] : [[key, whole[key as K]]])),
  ) as unknown as Omit<T, K>;
}

/** `said` with fields that are read when asked for; a copy of it, by spreading, holds them for good. */
function withReadings<T, K extends keyof T>(said: Omit<T, K>, keys: readonly K[], read: () => Pick<T, K>): T {
  const whole = { ...said };
  for (const key of keys) {
    Object.defineProperty(whole, key, { enumerable: true, get: () => read()[key] });
  }
  return whole as T;
}
