/** Files and folders that are whole or absent: written beside their place, then moved into it. */
import { randomBytes } from 'node:crypto';
import { existsSync, renameSync, rmSync } from 'node:fs';
import { mkdir, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

const MARK = '.unfinished-';
/** Ways of asking a program to end: Ctrl-C, and a polite end from outside. */
const SIGNALS = ['SIGINT', 'SIGTERM'] as const;

/** Writes a file so that a reader finds the old one or the new one, never a part. */
export async function writeWhole(path: string, content: string | Uint8Array): Promise<void> {
  await mkdir(dirname(path), { recursive: true });
  const beside = `${path}${MARK}${randomBytes(6).toString('hex')}`;
  try {
    await writeFile(beside, content);
    await rename(beside, path);
  } catch (error) {
    await rm(beside, { force: true });
    throw error;
  }
}

/**
 * Makes a folder by `fill` and puts it in the place of `path` only once it is complete.
 * What stood there before stays until then, and stays for good where `fill` fails.
 */
export async function replaceFolder<T>(path: string, fill: (staging: string) => Promise<T>): Promise<T> {
  await mkdir(dirname(path), { recursive: true });
  await removeUnfinished(path);
  const token = randomBytes(6).toString('hex');
  const staging = `${path}${MARK}${token}`;
  const former = `${path}${MARK}${token}-former`;
  const stop = (signal: NodeJS.Signals): void => {
    // Nothing can be awaited any more: what was begun goes, and what stood there stays or comes back.
    if (existsSync(former) && !existsSync(path)) renameSync(former, path);
    for (const begun of [staging, former]) rmSync(begun, { recursive: true, force: true });
    process.kill(process.pid, signal);
  };
  for (const signal of SIGNALS) process.once(signal, stop);
  try {
    await mkdir(staging);
    const filled = await fill(staging);
    const hadFormer = await moved(path, former);
    try {
      await rename(staging, path);
    } catch (error) {
      if (hadFormer) await rename(former, path);
      throw error;
    }
    return filled;
  } finally {
    for (const signal of SIGNALS) process.off(signal, stop);
    // At once: for a hundred thousand files, waiting for each would take twice as long.
    for (const begun of [staging, former]) rmSync(begun, { recursive: true, force: true });
  }
}

/** What an interrupted run left beside `path`; a former folder is put back if its successor never arrived. */
async function removeUnfinished(path: string): Promise<void> {
  const folder = dirname(path);
  const names = await readdir(folder);
  const left = names.filter(name => name.startsWith(basename(path) + MARK));
  const former = left.find(name => name.endsWith('-former'));
  if (former !== undefined && !names.includes(basename(path))) await rename(join(folder, former), path);
  for (const name of left) await rm(join(folder, name), { recursive: true, force: true });
}

async function moved(from: string, to: string): Promise<boolean> {
  try {
    await rename(from, to);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return false;
    throw error;
  }
}
