/**
 * Work on many tests spread over the cores of this machine: what they come to is found in the store. Each process takes
 * a bounded number of tests and ends, so that what it holds in memory does not grow with the archive.
 */
import { fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import type { SeenContent } from '../cache/kept-content.ts';
import type { Progress } from './progress.ts';

/** Below the least of items a core, starting processes takes longer than they save; no process takes more than the most. */
const WORK = {
  measure: { name: 'measuring logs', least: 2, most: 32 },
  draw: { name: 'drawing tests', least: 2, most: 16 },
  pack: { name: 'packing tables', least: 2, most: 4 },
} as const;

/** What is asked of `part-process.ts`. */
export type SpreadWork = 'measure' | 'draw' | 'pack';

export interface PartAsked {
  readonly work: SpreadWork;
  /** Ids of tests; paths of tables of open data to pack. */
  readonly items: readonly string[];
  /** SHA-256 of each file of content by its path. */
  readonly seen: SeenContent;
}

/** A log is measured. */
export type PartSays = 'done';

export interface Spreading {
  readonly root: string;
  readonly seen: SeenContent;
  readonly progress: Progress;
}

/** In as many processes as there are cores, where the tests are enough for that; nothing is done otherwise. */
export async function spread(
  work: SpreadWork,
  items: readonly string[],
  { root, seen, progress }: Spreading,
): Promise<void> {
  const cores = availableParallelism();
  const { name, least, most } = WORK[work];
  if (cores < 2 || items.length < 2 * least) return;
  const size = Math.min(most, Math.ceil(items.length / cores));
  const parts = chunks(items, size);
  progress.step(name, items.length);
  await atOnce(cores, parts, async own => {
    let done = 0;
    const counted = (): void => {
      if (done < own.length) {
        done += 1;
        progress.done();
      }
    };
    await inProcess(root, { work, items: own, seen }, counted);
    // Of drawing, whole tests are counted: how many pictures they will be is not known before.
    for (; done < own.length; done += 1) progress.done();
  });
  progress.close();
}

/**
 * Items in lists, in their order, each as long as it weighs no more than `most`.
 * @param weigh of an item; one where absent
 */
export function chunks<T>(items: readonly T[], most: number, weigh: (item: T) => number = () => 1): T[][] {
  const lists: T[][] = [];
  let weight = most;
  for (const item of items) {
    const own = weigh(item);
    if (weight + own > most) {
      lists.push([]);
      weight = 0;
    }
    lists.at(-1)!.push(item);
    weight += own;
  }
  return lists;
}

/** Runs `take` on all items, so many at a time; after one that fails none is begun. */
export async function atOnce<T>(
  most: number,
  items: readonly T[],
  take: (item: T, index: number) => Promise<void>,
): Promise<void> {
  const waiting = [...items.entries()];
  await Promise.all(
    Array.from({ length: Math.min(most, waiting.length) }, async () => {
      for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
        await take(next[1], next[0]).catch((error: unknown) => {
          waiting.length = 0;
          throw error;
        });
      }
    }),
  );
}

/** However it ends: what it did not come to is done by the build itself, which then tells why not. */
function inProcess(root: string, asked: PartAsked, done: () => void): Promise<void> {
  const child = fork(join(import.meta.dirname, 'part-process.ts'), {
    cwd: root,
    stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
  });
  child.on('message', done);
  child.send(asked);
  return new Promise(ended => {
    child.once('error', () => ended());
    child.once('close', () => ended());
  });
}
