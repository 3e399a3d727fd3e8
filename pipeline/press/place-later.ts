/** What is done while something else is under way: kept files get to their places, of which an archive has many. */
import { setImmediate as turn } from 'node:timers/promises';

export interface Later {
  add(put: () => Promise<unknown>): void;
  /** Everything done, one after another. */
  all(): Promise<void>;
}

export function placeLater(): Later {
  const placing: (() => Promise<unknown>)[] = [];
  return {
    add: put => placing.push(put),
    async all() {
      for (const put of placing) {
        // Whatever else is under way gets its turn.
        await turn();
        await put();
      }
    },
  };
}
