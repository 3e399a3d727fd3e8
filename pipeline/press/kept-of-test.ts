/** What lists of the whole archive tell of a test: worked out once, so that they are made without its attempts. */
import { deserialize, serialize } from 'node:v8';
import { codeDigest } from '../cache/code-digest.ts';
import { digestOf } from '../cache/digest.ts';
import type { Store } from '../cache/store.ts';
import { onceOf } from '../once-of.ts';
import type { House, TestResult } from '../result/result.ts';
import { testDigest } from './test-key.ts';

/**
 * `make` with its answers kept in `store`; always asked for a test of which is not known what it was made from.
 * @param code the module of `make` alone, from the project's root
 * @param make gives plain data, and hangs on test and house alone
 */
export function keepingOfTest<T>(
  store: Store,
  code: string,
  make: (test: TestResult, house: House) => T,
): (test: TestResult, house: House) => T {
  return (test, house) => {
    if (test.madeFrom === undefined) return make(test, house);
    const houseDigest = onceOf(houseDigests, house, () => digestOf(house));
    const key = digestOf(['told in lists', code, codeDigest(code), houseDigest, testDigest(test)]);
    const kept = store.readSync(key);
    if (kept !== undefined) return deserialize(kept) as T;
    const made = make(test, house);
    store.writeSync(key, serialize(made));
    return made;
  };
}
const houseDigests = new WeakMap<House, string>();
