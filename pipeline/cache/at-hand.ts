/**
 * Small entries that a build asked for, put together in one file for the next: opening thousands of files takes several
 * times as long as reading one. It only shortens the way to them, since an entry is what its key says wherever it lies.
 */
import { deserialize, serialize } from 'node:v8';
import { digestOf } from './digest.ts';
import { openStore, type Store } from './store.ts';

/** Larger ones take longer to read than to open, and there are few of them. */
const MOST_OF_ONE_BYTES = 64 * 1024;
/** All together: what is beyond is read from its own place. */
const MOST_BYTES = 128 * 1024 ** 2;
/** Entries asked for and not at hand, from which on it is worth putting them together again. */
const WORTH_IT = 64;
const KEY = digestOf('entries at hand');

export interface StoreAtHand extends Store {
  /** Puts together what was asked for since it was opened. */
  putTogether(): void;
}

/**
 * `store`, with what the build before asked for at hand.
 * @param folder where that lies
 * @param use whether to read it: where nearly all is new, little of it would serve
 */
export function withEntriesAtHand(store: Store, folder: string, use: boolean): StoreAtHand {
  const place = openStore(folder);
  const bytes = use ? place.readSync(KEY) : undefined;
  const hand: ReadonlyMap<string, Uint8Array> = bytes === undefined ? new Map() : deserialize(bytes);
  const asked = new Set<string>();
  const readSync = (key: string): Uint8Array | undefined => {
    const found = hand.get(key) ?? store.readSync(key);
    if (found === undefined || found.length <= MOST_OF_ONE_BYTES) asked.add(key);
    return found;
  };
  return {
    get written() {
      return store.written;
    },
    read: store.read,
    readSync,
    holds: store.holds,
    write: store.write,
    writeSync: store.writeSync,
    clear: store.clear,
    tidy: store.tidy,
    putTogether() {
      const added = [...asked].filter(key => !hand.has(key));
      if (added.length < WORTH_IT) return;
      const entries = new Map<string, Uint8Array>();
      let sum = 0;
      for (const key of asked) {
        const entry = hand.get(key) ?? store.readSync(key);
        // What was not there when it was asked for may have been made since, of any size.
        if (entry === undefined || entry.length > MOST_OF_ONE_BYTES) continue;
        sum += entry.length;
        if (sum > MOST_BYTES) break;
        entries.set(key, entry);
      }
      place.writeSync(KEY, serialize(entries));
    },
  };
}
