import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, readdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { ChangedMeanwhile, Store, versionOf } from '../../pipeline/desk/store.ts';

let root: string;
let store: Store;
const FILE = 'content/tests/wren/test.yaml';
const onDisk = (path = FILE) => readFile(join(root, path), 'utf8');
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'evenground-store-'));
  await mkdir(join(root, 'content/tests/wren'), { recursive: true });
  await writeFile(join(root, FILE), 'a: 1\n');
  store = new Store(root);
});
afterEach(() => rm(root, { recursive: true }));
const change = (from: string, to: string) => store.change(FILE, versionOf(from), () => to, 'wren');

describe('a file at the desk', () => {
  it('is changed at the version that was read, with nothing left beside it', async () => {
    await change('a: 1\n', 'a: 2\n');
    expect(await onDisk()).toBe('a: 2\n');
    expect(await readdir(join(root, 'content/tests/wren'))).toEqual(['test.yaml']);
  });

  it('that was changed elsewhere stays as it is, and both versions are shown', async () => {
    await change('a: 1\n', 'a: 2\n');
    await writeFile(join(root, FILE), 'a: 3 # by hand\n');
    const clash = store.change(FILE, versionOf('a: 2\n'), text => `${text}b: 1\n`, 'wren');
    await expect(clash).rejects.toBeInstanceOf(ChangedMeanwhile);
    const { conflict } = (await clash.catch((error: ChangedMeanwhile) => error)) as ChangedMeanwhile;
    expect(conflict).toEqual({
      // Made on the version it was meant for, which the journal remembers.
      yours: 'a: 2\nb: 1\n',
      onDisk: 'a: 3 # by hand\n',
      versionOnDisk: versionOf('a: 3 # by hand\n'),
    });
    expect(await onDisk()).toBe('a: 3 # by hand\n');
  });

  it('goes back and forth, step by step, also in a process that starts later', async () => {
    await change('a: 1\n', 'a: 2\n');
    await change('a: 2\n', 'a: 3\n');
    const later = new Store(root);
    expect(await later.steps('wren')).toEqual({ undo: 2, redo: 0 });
    await later.step('wren', 'undo');
    await later.step('wren', 'undo');
    expect(await onDisk()).toBe('a: 1\n');
    await expect(later.step('wren', 'undo')).rejects.toThrow('nothing to take back');
    await later.step('wren', 'redo');
    expect(await onDisk()).toBe('a: 2\n');
    await store.change(FILE, versionOf('a: 2\n'), () => 'a: 9\n', 'wren');
    expect(await store.steps('wren')).toEqual({ undo: 2, redo: 0 });
  });

  it('that moved on elsewhere is not taken back', async () => {
    await change('a: 1\n', 'a: 2\n');
    await writeFile(join(root, FILE), 'a: 3\n');
    await expect(store.step('wren', 'undo')).rejects.toBeInstanceOf(ChangedMeanwhile);
    expect(await onDisk()).toBe('a: 3\n');
  });

  it('takes changes one after another, however they come', async () => {
    await writeFile(join(root, FILE), '0');
    const add = async (): Promise<void> => {
      for (;;) {
        const now = (await store.read(FILE))!;
        try {
          await store.change(FILE, versionOf(now), text => String(Number(text) + 1), 'wren');
          return;
        } catch (error) {
          if (!(error instanceof ChangedMeanwhile)) throw error;
        }
      }
    };
    await Promise.all(Array.from({ length: 12 }, add));
    expect(await onDisk()).toBe('12');
  });

  it('that exists is not made anew', async () => {
    await expect(store.create(FILE, 'x')).rejects.toThrow('There is one of this name already');
    expect(await onDisk()).toBe('a: 1\n');
  });
});

describe('a path', () => {
  it.each([
    'content/../package.json',
    'package.json',
    '/etc/passwd',
    'content',
    'content/',
    'content//x',
    'content/tests/../../x',
    'content/.hidden',
    'content/a\\b',
    'content/c:x',
    'content/x\0.yaml',
  ])('%j outside the content is refused', async path => {
    await expect(store.read(path)).rejects.toThrow('outside the content folder');
    await expect(store.create(path, 'x')).rejects.toThrow('outside the content folder');
  });

  it('through a link is refused', async () => {
    await writeFile(join(root, 'secret'), 'x');
    await symlink(join(root, 'secret'), join(root, 'content/tests/wren/linked.yaml'));
    await symlink(root, join(root, 'content/tests/out'));
    for (const path of ['content/tests/wren/linked.yaml', 'content/tests/out/secret']) {
      await expect(store.read(path)).rejects.toThrow('through a link');
      await expect(store.change(path, versionOf('x'), () => 'y', 'wren')).rejects.toThrow('through a link');
    }
    expect(await onDisk('secret')).toBe('x');
  });
});

describe('a process that saves and is killed', () => {
  it('at any moment leaves whole files, and everything it said it had', async () => {
    const code = `
      import { Store, versionOf } from ${JSON.stringify(resolve(import.meta.dirname, '../../pipeline/desk/store.ts'))};
      const store = new Store(${JSON.stringify(root)});
      const pad = 'x'.repeat(20000);
      for (let n = 0; ; n++) {
        const now = await store.read(${JSON.stringify(FILE)});
        await store.change(${JSON.stringify(FILE)}, versionOf(now), () => 'n: ' + n + '\\npad: ' + pad + '\\n', 'wren');
        process.stdout.write(n + '\\n');
      }`;
    let saves = 0;
    for (let kills = 0; saves < 200 || kills < 12; kills++) {
      expect(kills, 'it saves at all').toBeLessThan(60);
      const child = spawn(process.execPath, ['--input-type=module', '--eval', code], {
        stdio: ['ignore', 'pipe', 'inherit'],
      });
      let said = '';
      const wanted = 1 + ((kills * 7) % 23);
      await new Promise<void>(enough => {
        child.stdout.on('data', chunk => {
          said += chunk;
          if (said.split('\n').length > wanted) enough();
        });
        child.once('close', () => enough());
      });
      child.kill('SIGKILL');
      await new Promise(done => child.once('close', done));
      const told = said.split('\n').slice(0, -1);
      saves += told.length;
      const [, n, pad] = /^n: (\d+)\npad: (x+)\n$/.exec(await onDisk()) ?? [];
      expect(pad).toHaveLength(20_000);
      // One more may have been written than could be said.
      expect(Number(n)).toBeGreaterThanOrEqual(Number(told.at(-1)));
      const visible = (await readdir(join(root, 'content/tests/wren'))).filter(name => !name.startsWith('.'));
      expect(visible).toEqual(['test.yaml']);
      expect((await new Store(root).steps('wren')).undo).toBeGreaterThan(0);
    }
  }, 120_000);
});
