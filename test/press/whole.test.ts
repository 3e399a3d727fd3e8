import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { replaceFolder, writeWhole } from '../../pipeline/press/whole.ts';

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'evenground-whole-'));
});
afterEach(() => rm(folder, { recursive: true }));

describe('writeWhole', () => {
  it('writes the content, makes missing folders and leaves nothing beside it', async () => {
    await writeWhole(join(folder, 'a/b.txt'), 'one');
    await writeWhole(join(folder, 'a/b.txt'), 'two');
    expect(await readFile(join(folder, 'a/b.txt'), 'utf8')).toBe('two');
    expect(await readdir(join(folder, 'a'))).toEqual(['b.txt']);
  });

  it('leaves no part behind when the place cannot be written', async () => {
    await mkdir(join(folder, 'taken'));
    await expect(writeWhole(join(folder, 'taken'), 'x')).rejects.toThrow();
    expect(await readdir(folder)).toEqual(['taken']);
  });
});

describe('replaceFolder', () => {
  const site = (): string => join(folder, 'site');

  it('puts the new folder in the place of the former one, without its files', async () => {
    await replaceFolder(site(), staging => writeFile(join(staging, 'old.txt'), ''));
    await replaceFolder(site(), staging => writeFile(join(staging, 'new.txt'), ''));
    expect(await readdir(site())).toEqual(['new.txt']);
    expect(await readdir(folder)).toEqual(['site']);
  });

  it('keeps the former folder when making the new one fails', async () => {
    await replaceFolder(site(), staging => writeFile(join(staging, 'old.txt'), ''));
    const failing = replaceFolder(site(), async staging => {
      await writeFile(join(staging, 'half.txt'), '');
      throw new Error('disk full');
    });
    await expect(failing).rejects.toThrow('disk full');
    expect(await readdir(site())).toEqual(['old.txt']);
    expect(await readdir(folder)).toEqual(['site']);
  });

  it('clears what an interrupted run left, and restores a former folder whose successor never came', async () => {
    await mkdir(`${site()}.unfinished-0a0a0a0a0a0a`);
    await mkdir(`${site()}.unfinished-0a0a0a0a0a0a-former`);
    await writeFile(join(`${site()}.unfinished-0a0a0a0a0a0a-former`, 'old.txt'), '');
    const failing = replaceFolder(site(), () => Promise.reject(new Error('no')));
    await expect(failing).rejects.toThrow('no');
    expect(await readdir(folder)).toEqual(['site']);
    expect(await readdir(site())).toEqual(['old.txt']);
  });
});
