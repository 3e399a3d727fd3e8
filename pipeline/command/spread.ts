/** Work on many tests spread over the cores of this machine: what they come to is found in the store. */
import { type ChildProcess, fork } from 'node:child_process';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import type { Io } from './io.ts';
import type { Progress } from './progress.ts';

/** Below this many tests a core, starting processes takes longer than they save. */
const LEAST_TESTS = 2;

/** What a process of `shard-process.ts` says. */
export type ShardSays =
  | { readonly step: string; readonly total: number }
  | { readonly done: true }
  | { readonly measured: true };

/**
 * Measures and draws `tests` tests in as many processes as there are cores, where they are enough for that. Faults in
 * content are not told here: they are found again by whoever needs the results.
 */
export async function spread(tests: number, { root }: Io, progress: Progress): Promise<void> {
  const parts = Math.min(availableParallelism(), Math.floor(tests / LEAST_TESTS));
  if (parts < 2) return;
  const children: ChildProcess[] = [];
  const steps = new Map<string, number[]>();
  let measured = 0;
  const hear = (says: ShardSays): void => {
    if ('step' in says) {
      // Each part announces its share; the step begins with the last of them.
      const totals = steps.get(says.step) ?? [];
      totals.push(says.total);
      steps.set(says.step, totals);
      if (totals.length === parts)
        progress.step(
          says.step,
          totals.reduce((sum, total) => sum + total, 0),
        );
    } else if ('done' in says) progress.done();
    else {
      measured += 1;
      if (measured === parts) for (const child of children) if (child.connected) child.send({ go: true });
    }
  };
  const ended = Array.from({ length: parts }, (_, part) => {
    const child = fork(join(import.meta.dirname, 'shard-process.ts'), [String(part + 1), String(parts)], {
      cwd: root,
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
    });
    children.push(child);
    child.on('message', hear);
    return new Promise<void>(done => {
      const end = (): void => {
        // The others are not to wait for one that is gone.
        hear({ measured: true });
        done();
      };
      child.once('error', end);
      child.once('close', end);
    });
  });
  await Promise.all(ended);
  progress.close();
}
