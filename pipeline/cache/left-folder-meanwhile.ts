/** A folder looked at while this thread goes on: an archive's takes as long to look at as its content takes to read. */
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import { isAsLeft, type LeftFolder } from './left-folder.ts';

export interface LookAsked {
  readonly folder: string;
  readonly left: LeftFolder;
}

/** As `isAsLeft`; begins at once. */
export function isAsLeftMeanwhile(folder: string, left: LeftFolder): Promise<boolean> {
  const thread = new Worker(join(import.meta.dirname, 'left-folder-thread.ts'), {
    workerData: { folder, left } satisfies LookAsked,
  });
  return new Promise(answer => {
    thread.once('message', answer);
    // A thread that cannot be had tells nothing of the folder.
    thread.once('error', () => answer(isAsLeft(folder, left)));
  });
}
