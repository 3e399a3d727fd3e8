import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { main } from '../../pipeline/cli.ts';
import { diskProblem } from '../../pipeline/problems/disk.ts';

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'evenground-disk-'));
});
afterEach(() => rm(folder, { recursive: true }));

describe('an error of the file system', () => {
  it.each(['ENOSPC', 'EDQUOT', 'EROFS', 'EACCES', 'EPERM', 'EMFILE', 'EIO'])('%s is told in words', code => {
    const problem = diskProblem(Object.assign(new Error(code), { code, path: 'dist/index.html' }));
    expect(problem?.where).toEqual({ file: 'dist/index.html' });
    expect(problem?.what).not.toContain(code);
    expect(problem?.id).toMatch(/^disk-/);
  });

  it('of another kind, or a fault of the program, is not', () => {
    expect(diskProblem(Object.assign(new Error('x'), { code: 'ENOENT' }))).toBeUndefined();
    expect(diskProblem(new TypeError('x'))).toBeUndefined();
    expect(diskProblem(Object.assign(new Error('x'), { code: 'constructor' }))).toBeUndefined();
  });

  it('reaches a person as one line, from any command', async () => {
    let told = '';
    const io = {
      stdout: () => {},
      stderr: (text: string) => {
        told += text;
      },
      stdin: async () => new Uint8Array(),
      readFile: () => Promise.reject(Object.assign(new Error('EIO'), { code: 'EIO', path: 'card/day.csv' })),
      isTerminal: false,
      root: folder,
    };
    expect(await main(['measure', 'day.csv'], io)).toBe(1);
    expect(told.trim().split('\n')).toHaveLength(1);
    expect(told).toMatch(/day\.csv/);
  });
});

describe('a folder that is being replaced', () => {
  it.each(['SIGINT', 'SIGTERM'] as const)(
    'is as it was when %s comes, with nothing left beside it',
    async signal => {
      const site = join(folder, 'site');
      await mkdir(site);
      await writeFile(join(site, 'old.txt'), 'old');
      const code = `
      import { writeFile } from 'node:fs/promises';
      import { replaceFolder } from ${JSON.stringify(resolve(import.meta.dirname, '../../pipeline/press/whole.ts'))};
      await replaceFolder(${JSON.stringify(site)}, async staging => {
        await writeFile(staging + '/half.txt', 'half');
        process.stdout.write('begun');
        await new Promise(done => setTimeout(done, 60_000));
      });`;
      const child = spawn(process.execPath, ['--input-type=module', '--eval', code], {
        stdio: ['ignore', 'pipe', 'inherit'],
      });
      await new Promise(begun => child.stdout.once('data', begun));
      child.kill(signal);
      const ended = await new Promise(done => child.once('close', (_, by) => done(by)));
      expect(ended).toBe(signal);
      expect(await readdir(folder)).toEqual(['site']);
      expect(await readFile(join(site, 'old.txt'), 'utf8')).toBe('old');
    },
  );
});
