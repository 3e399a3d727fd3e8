/** A folder looked at by a thread of its own as well, while this one does other things and when it waits for the answer. */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { isAsLeft, isPartAsLeft, type LeftFolder, type LeftStates } from './left-folder.ts';

/** So many files and folders take longer to look at than a thread takes to start. */
const MANY = 15_000;
/** Short enough that neither waits long for the other's last. */
const PARTS = 128;

export interface LookAsked {
  readonly folder: string;
  readonly left: LeftStates;
  /** Parts taken, and parts found as they were left. */
  readonly counts: Int32Array<SharedArrayBuffer>;
}
const TAKEN = 0;
const ALIKE = 1;

/**
 * Takes parts that no other thread has taken until there are none.
 * @returns false where one is not as it was left
 */
export function lookAtParts({ folder, left, counts }: LookAsked): boolean {
  for (;;) {
    const part = Atomics.add(counts, TAKEN, 1);
    if (part >= PARTS) return true;
    if (!isPartAsLeft(folder, left, part, PARTS)) {
      leaveNone(counts);
      return false;
    }
    Atomics.add(counts, ALIKE, 1);
  }
}

/** Nobody begins another part. */
const leaveNone = (counts: LookAsked['counts']): void => {
  Atomics.store(counts, TAKEN, PARTS);
};

/** A look that has begun. */
export interface Look {
  /** What `isAsLeft` tells; to be asked once. */
  isAsLeft(): Promise<boolean>;
  /** Nobody will ask. */
  stop(): void;
}

/** Begins to look at once where the folder is large. */
export function lookMeanwhile(folder: string, left: LeftFolder, many = MANY): Look {
  if (left.sizes.length < many) return { isAsLeft: async () => isAsLeft(folder, left), stop() {} };
  const { digests: _, ...states } = left;
  const asked: LookAsked = { folder, left: states, counts: new Int32Array(new SharedArrayBuffer(8)) };
  const thread = new Worker(join(import.meta.dirname, 'left-folder-thread.ts'), { workerData: asked });
  thread.unref();
  const theirs = new Promise<boolean | undefined>(answer => {
    thread.once('message', answer);
    // A thread that cannot be had tells nothing of the folder.
    thread.once('error', () => answer(undefined));
  });
  return {
    async isAsLeft() {
      if (!lookAtParts(asked)) return false;
      if (Atomics.load(asked.counts, ALIKE) === PARTS) return true;
      thread.ref();
      return (await theirs) ?? isAsLeft(folder, left);
    },
    stop: () => leaveNone(asked.counts),
  };
}
