/** Logs measured once: their figures kept by the log's bytes, what was asked, and the code that measures. */
import { deserialize, serialize } from 'node:v8';
import type { Log } from '../log/log.ts';
import type { AssembleTools } from '../result/assemble.ts';
import type { Trace } from '../trace/trace.ts';
import { codeDigest } from './code-digest.ts';
import { digestOf } from './digest.ts';
import type { Store } from './store.ts';

/** Where the readers and measurements lie. */
const CODE = ['pipeline/log/readers.ts', 'pipeline/measurement/measure.ts'] as const;

type Measured = ReturnType<AssembleTools['measureLog']>;
/** The readings of a log, which are many, apart from all that is said of them. */
const READINGS = ['timeS', 'speedMps', 'distanceM', 'line', 'channels'] as const;
type Readings = Pick<Trace, (typeof READINGS)[number]>;
const LOG_READINGS = ['timeS', 'speedMps', 'line', 'channels'] as const;
type LogReadings = Pick<Log, (typeof LOG_READINGS)[number]>;

/** Readings held in memory at once: a test has a handful of logs, and the next test needs others. */
const MOST_READINGS = 6;

/**
 * The readers and measurements of `CODE` with their answers kept in `store`. A trace taken from there reads its readings when they
 * are first asked for and may let them go again, so that an archive does not have to fit into memory.
 */
export function keepingTools({ readLog, measureLog, sha256 }: AssembleTools, store: Store): AssembleTools {
  const code = digestOf(CODE.map(codeDigest));
  const keys = new WeakMap<Log, string>();
  const recent = new Map<string, unknown>();
  /** Made again where it was let go; the same content every time. */
  const readings = <T>(key: string, make: () => T): T => {
    const found = (recent.get(key) ?? make()) as T;
    recent.delete(key);
    recent.set(key, found);
    if (recent.size > MOST_READINGS) recent.delete(recent.keys().next().value!);
    return found;
  };
  const kept = <T>(key: string): T | undefined => {
    const bytes = store.readSync(key);
    return bytes === undefined ? undefined : (deserialize(bytes) as T);
  };

  return {
    sha256,
    readLog(file, bytes, options) {
      const key = digestOf(['log', code, file, sha256(bytes), options]);
      const said = kept<Omit<Log, keyof LogReadings>>(key);
      let log: Log;
      if (said === undefined) {
        log = readLog(file, bytes, options);
        store.writeSync(key, serialize(without(log, LOG_READINGS)));
      } else {
        log = withReadings(said, LOG_READINGS, () => readings(key, () => readLog(file, bytes, options)));
      }
      keys.set(log, key);
      return log;
    },
    measureLog(log, options) {
      const key = digestOf(['measured', keys.get(log), options]);
      const readingsKey = digestOf(['readings', key]);
      const measure = (): Measured => measureLog(log, options);
      const found = kept<Measured>(key);
      const said = found ?? measure();
      if (found === undefined) {
        store.writeSync(readingsKey, serialize(only(said.trace, READINGS)));
        store.writeSync(key, serialize({ ...said, trace: without(said.trace, READINGS) }));
      }
      const trace = withReadings<Trace, keyof Readings>(without(said.trace, READINGS), READINGS, () =>
        readings(readingsKey, () => kept<Readings>(readingsKey) ?? only(measure().trace, READINGS)),
      );
      return { ...said, trace };
    },
  };
}

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
