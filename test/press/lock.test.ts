import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { withLock } from '../../pipeline/press/lock.ts';
import { ProblemError } from '../../pipeline/problem.ts';

let folder: string;
let lock: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'evenground-lock-'));
  lock = join(folder, 'deep', 'build.lock');
});
afterEach(() => rm(folder, { recursive: true }));

describe('a lock', () => {
  it('lets one in at a time, tells the other who is there, and is gone afterwards', async () => {
    let inside = 0;
    const work = () =>
      withLock(lock, async () => {
        inside++;
        expect(inside).toBe(1);
        await new Promise(done => setTimeout(done, 20));
        inside--;
        return 'done';
      });
    const ended = await Promise.allSettled([work(), work(), work()]);
    expect(ended.filter(({ status }) => status === 'fulfilled')).toHaveLength(1);
    for (const one of ended) {
      if (one.status !== 'rejected') continue;
      expect(one.reason).toBeInstanceOf(ProblemError);
      expect((one.reason as ProblemError).problems[0]).toMatchObject({ id: 'disk-busy' });
      expect((one.reason as Error).message).toContain(String(process.pid));
    }
    expect(await readdir(join(folder, 'deep'))).toEqual([]);
    expect(await work()).toBe('done');
  });

  it('is opened again where the work fails', async () => {
    await expect(withLock(lock, () => Promise.reject(new Error('no')))).rejects.toThrow('no');
    expect(existsSync(lock)).toBe(false);
  });

  it.each([
    ['a process that is gone', () => JSON.stringify({ pid: goneProcess(), machine: hostname() })],
    ['a process killed while it wrote the lock', () => '{"pi'],
  ])('of %s is taken over', async (_, content) => {
    await withLock(lock, async () => {});
    await writeFile(lock, content());
    expect(await withLock(lock, async () => 'in')).toBe('in');
    expect(await readdir(join(folder, 'deep'))).toEqual([]);
  });

  it('of another machine is left alone', async () => {
    await withLock(lock, async () => {});
    await writeFile(lock, JSON.stringify({ pid: 1, machine: `not-${hostname()}` }));
    await expect(withLock(lock, async () => 'in')).rejects.toThrow(`not-${hostname()}`);
    expect(existsSync(lock)).toBe(true);
  });
});

function goneProcess(): number {
  return spawnSync(process.execPath, ['--eval', '']).pid;
}
