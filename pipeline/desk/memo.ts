/** Logs read and measured once as long as neither they nor what is said of them changes. */
import { createHash } from 'node:crypto';
import { readLog } from '../log/readers.ts';
import { measureLog } from '../measurement/measure.ts';
import type { AssembleTools } from '../result/assemble.ts';

/** Results kept at most; a day has a handful of logs, and an archive is not open at the desk. */
const MOST = 60;

class Memo<T> {
  private readonly known = new Map<string, { readonly value: T } | { readonly error: unknown }>();

  get(key: string, make: () => T): T {
    let found = this.known.get(key);
    if (found === undefined) {
      try {
        found = { value: make() };
      } catch (error) {
        found = { error };
      }
    }
    // Put last again, so that what was not asked for the longest goes first.
    this.known.delete(key);
    this.known.set(key, found);
    if (this.known.size > MOST) this.known.delete(this.known.keys().next().value!);
    if ('error' in found) throw found.error;
    return found.value;
  }
}

/** The real readers and measurements, each asked once for the same bytes and options. */
export function rememberingTools(): AssembleTools {
  const logs = new Memo<ReturnType<typeof readLog>>();
  const measured = new Memo<ReturnType<typeof measureLog>>();
  const hashes = new WeakMap<Uint8Array, string>();
  const keys = new WeakMap<object, string>();
  const sha256 = (bytes: Uint8Array): string => {
    let hash = hashes.get(bytes);
    if (hash === undefined) {
      hash = createHash('sha256').update(bytes).digest('hex');
      hashes.set(bytes, hash);
    }
    return hash;
  };
  return {
    sha256,
    readLog(file, bytes, options) {
      const key = `${file} ${sha256(bytes)} ${JSON.stringify(options)}`;
      const log = logs.get(key, () => readLog(file, bytes, options));
      keys.set(log, key);
      return log;
    },
    measureLog(log, options) {
      const key = keys.get(log);
      const measure = () => measureLog(log, options);
      return key === undefined ? measure() : measured.get(`${key} ${JSON.stringify(options)}`, measure);
    },
  };
}
