/** Files that are kept and get to their places while something else is under way: an archive has many. */
import { setImmediate as turn } from 'node:timers/promises';

export interface Later {
  add(put: () => Promise<unknown>): void;
  /** Everything put in its place, one after another. */
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
