/** One at a time: a lock that a killed process does not leave shut for ever. */
import { mkdir, open, readFile, rename, rm, stat } from 'node:fs/promises';
import { hostname } from 'node:os';
import { dirname } from 'node:path';
import { ProblemError } from '../problem.ts';
import { busyElsewhere } from '../problems/disk.ts';

/** Longer than this nobody takes to write a name into a lock. */
const WRITING_MS = 1000;

interface Holder {
  readonly pid: number;
  readonly machine: string;
}

/**
 * Does `work` while holding the lock at `path`. A lock whose process on this machine is gone is taken over.
 * @throws ProblemError where another process holds it
 */
export async function withLock<T>(path: string, work: () => Promise<T>): Promise<T> {
  await mkdir(dirname(path), { recursive: true });
  while (!(await taken(path))) {
    const holder = await holderOf(path);
    if (holder && isAlive(holder)) throw new ProblemError(busyElsewhere(path, holder.pid, holder.machine));
    if (holder === undefined && (await isFresh(path))) {
      await new Promise(done => setTimeout(done, WRITING_MS / 10));
      continue;
    }
    // Moved away first: of two that find it abandoned, only one succeeds, and neither takes the other's new lock.
    const aside = `${path}.${process.pid}`;
    await rename(path, aside).catch(() => {});
    await rm(aside, { force: true });
  }
  try {
    return await work();
  } finally {
    await rm(path, { force: true });
  }
}

async function taken(path: string): Promise<boolean> {
  try {
    const file = await open(path, 'wx');
    await file.writeFile(JSON.stringify({ pid: process.pid, machine: hostname() } satisfies Holder));
    await file.close();
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw error;
  }
}

/** Made a moment ago: its holder may not have written its name yet. */
async function isFresh(path: string): Promise<boolean> {
  const found = await stat(path).catch(() => undefined);
  return found !== undefined && Date.now() - found.mtimeMs < WRITING_MS;
}

/** Undefined where the lock is gone by now, or was cut off while it was written. */
async function holderOf(path: string): Promise<Holder | undefined> {
  try {
    const { pid, machine } = JSON.parse(await readFile(path, 'utf8')) as Partial<Holder>;
    return typeof pid === 'number' && typeof machine === 'string' ? { pid, machine } : undefined;
  } catch {
    return undefined;
  }
}

/** A process of another machine cannot be asked, so it counts as alive. */
function isAlive({ pid, machine }: Holder): boolean {
  if (machine !== hostname()) return true;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}
