/** One part of a build that is spread over processes; what it has to tell goes to the one that started it. */
import { storeOf } from '../cache/folder.ts';
import { makeShard } from './build-work.ts';
import { processIo } from './io.ts';
import type { ShardSays } from './spread.ts';

const [part = 1, of = 1] = process.argv.slice(2).map(Number);
const say = (says: ShardSays): void => {
  process.send?.(says);
};
// Nobody waits for it any more.
process.on('disconnect', () => process.exit(1));
const go = new Promise<void>(resolve => process.once('message', () => resolve()));
const silent = { ...processIo(), stdout() {}, stderr() {} };
await makeShard({ part, of }, storeOf(silent.root), silent, {
  progress: {
    step: (step, total) => say({ step, total }),
    done: () => say({ done: true }),
    close() {},
  },
  othersMeasured: () => {
    say({ measured: true });
    return go;
  },
});
process.exit(0);
