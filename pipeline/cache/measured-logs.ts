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

/** The readings of a log, which are many, apart from all that is said of them. */
const READINGS = ['timeS', 'speedMps', 'distanceM', 'line', 'channels'] as const;
type Readings = Pick<Trace, (typeof READINGS)[number]>;
const LOG_READINGS = ['timeS', 'speedMps', 'line', 'channels'] as const;
type LogReadings = Pick<Log, (typeof LOG_READINGS)[number]>;

/** Readings held in memory at once: a test has a handful of logs, and the next test needs others. */
const MOST_READINGS = 6;

/**
 * The readers and measurements of `CODE` with their answers kept in `store`. A trace reads its readings when they are
 * first asked for and may let them go again, so that an archive does not have to fit into memory.
 * @param bytesOf a log's bytes once more, by the name it was read under
 */
export function keepingTools(
  { readLog, measureLog, sha256 }: AssembleTools,
  store: Store,
  bytesOf: (file: string) => Uint8Array | undefined,
): AssembleTools {
  const code = digestOf(CODE.map(codeDigest));
  const logs = new WeakMap<Log, KeptLog>();
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
      const hash = sha256(bytes);
      const key = digestOf(['log', code, file, hash, options]);
      const again = (): Log => {
        const bytesNow = bytesOf(file);
        if (bytesNow === undefined || sha256(bytesNow) !== hash) throw new Error(`${file} changed meanwhile`);
        return readLog(file, bytesNow, options);
      };
      let said = kept<Omit<Log, keyof LogReadings>>(key);
      if (said === undefined) {
        const log = readLog(file, bytes, options);
        said = without(log, LOG_READINGS);
        store.writeSync(key, serialize(said));
        readings<LogReadings>(key, () => only(log, LOG_READINGS));
      }
      const log = withReadings<Log, keyof LogReadings>(said, LOG_READINGS, () =>
        readings<LogReadings>(key, () => only(again(), LOG_READINGS)),
      );
      logs.set(log, { key, again });
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
        said = { ...measured, trace: without(measured.trace, READINGS) };
        store.writeSync(readingsKey, serialize(only(measured.trace, READINGS)));
        store.writeSync(key, serialize(said));
      }
      const trace = withReadings<Trace, keyof Readings>(said.trace, READINGS, () =>
        readings(
          readingsKey,
          () => kept<Readings>(readingsKey) ?? only(measureLog(known.again(), options).trace, READINGS),
        ),
      );
      return { ...said, trace };
    },
  };
}

interface KeptLog {
  readonly key: string;
  /** The log read once more. */
  again(): Log;
}

/** What was measured, without the readings. */
type Said = Omit<ReturnType<AssembleTools['measureLog']>, 'trace'> & {
  readonly trace: Omit<Trace, keyof Readings>;
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
