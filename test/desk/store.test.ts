import { spawn } from 'node:child_process';
import { mkdir, mkdtemp, readdir, readFile, rm, symlink, utimes, writeFile } from 'node:fs/promises';
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

  it('that moved on elsewhere is not taken back, and what it would have been is shown', async () => {
    await change('a: 1\n', 'a: 2\n');
    await writeFile(join(root, FILE), 'a: 3\n');
    const clash = await store.step('wren', 'undo').catch((error: unknown) => error);
    expect(clash).toBeInstanceOf(ChangedMeanwhile);
    expect((clash as ChangedMeanwhile).conflict).toMatchObject({ yours: 'a: 1\n', onDisk: 'a: 3\n' });
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

describe('what a killed process left beside its place', () => {
  it('is taken away at the next start: ours and old alone', async () => {
    const folder = join(root, 'content/tests/wren');
    const old = new Date(Date.now() - 120_000);
    const make = async (name: string, isOld: boolean): Promise<void> => {
      await writeFile(join(folder, name), 'x');
      if (isOld) await utimes(join(folder, name), old, old);
    };
    await make('.unfinished-0123456789ab', true);
    // Another desk may be writing this very moment.
    await make('.unfinished-ba9876543210', false);
    await make('.unfinished-business', true);
    await make('.0123456789ab', true);
    await mkdir(join(folder, '.unfinished-aaaaaaaaaaaa'));
    await mkdir(join(root, 'elsewhere'));
    await writeFile(join(root, 'elsewhere/.unfinished-cccccccccccc'), 'x');
    await utimes(join(root, 'elsewhere/.unfinished-cccccccccccc'), old, old);
    await symlink(join(root, 'elsewhere'), join(folder, 'linked'));
    await change('a: 1\n', 'a: 2\n');
    const journals = join(root, '.evenground/desk');
    await writeFile(join(journals, '.unfinished-dddddddddddd'), 'x');
    await utimes(join(journals, '.unfinished-dddddddddddd'), old, old);
    await store.clearUnfinished();
    expect((await readdir(folder)).sort()).toEqual([
      '.0123456789ab',
      '.unfinished-aaaaaaaaaaaa',
      '.unfinished-ba9876543210',
      '.unfinished-business',
      'linked',
      'test.yaml',
    ]);
    expect(await readdir(join(root, 'elsewhere'))).toEqual(['.unfinished-cccccccccccc']);
    expect(await readdir(journals)).toEqual(['wren.json']);
    await new Store(join(root, 'nowhere')).clearUnfinished();
  });
});

/** A process that saves one text after another from the word `go` on, and says the number of each that is saved. */
const SAVING = (folder: string): string => `
  import { Store, versionOf } from ${JSON.stringify(resolve(import.meta.dirname, '../../pipeline/desk/store.ts'))};
  const store = new Store(${JSON.stringify(folder)});
  const pad = 'x'.repeat(20000);
  await new Promise(go => process.stdin.once('data', go));
  let now = (await store.read(${JSON.stringify(FILE)}));
  for (let n = Number(/^n: (\\d+)/.exec(now)?.[1] ?? 0) + 1; ; n++) {
    const next = 'n: ' + n + '\\npad: ' + pad + '\\n';
    await store.change(${JSON.stringify(FILE)}, versionOf(now), () => next, 'wren');
    now = next;
    process.stdout.write(n + '\\n');
  }`;
const SAVES = 200;
const KILLS = 12;

describe('a process that saves and is killed', () => {
  it('at any moment leaves whole files, and everything it said it had', async () => {
    const start = () =>
      spawn(process.execPath, ['--input-type=module', '--eval', SAVING(root)], {
        stdio: ['pipe', 'pipe', 'inherit'],
      });
    let saves = 0;
    let kills = 0;
    // The next one gets ready while this one saves.
    let next = start();
    try {
      while (saves < SAVES || kills < KILLS) {
        const child = next;
        const ended = new Promise<void>(done => child.once('close', () => done()));
        next = start();
        const wanted = 10 + ((kills * 7) % 17);
        let said = '';
        const enough = new Promise<void>(done => {
          child.stdout.on('data', chunk => {
            said += chunk;
            if (said.split('\n').length > wanted) done();
          });
        });
        child.stdin.write('go');
        await Promise.race([enough, ended]);
        expect(child.exitCode, 'it saves at all').toBeNull();
        // Somewhere within the saving of the following text.
        await new Promise(done => setTimeout(done, (kills * 5) % 9));
        child.kill('SIGKILL');
        await ended;
        kills++;
        const told = said.split('\n').slice(0, -1).map(Number);
        saves += told.length;
        const [, n, pad] = /^n: (\d+)\npad: (x+)\n$/.exec(await onDisk()) ?? [];
        expect(pad).toHaveLength(20_000);
        // One more may have been written than could be said.
        expect(Number(n) - told.at(-1)!).toBeOneOf([0, 1]);
        const visible = (await readdir(join(root, 'content/tests/wren'))).filter(
          name => !name.startsWith('.'),
        );
        expect(visible).toEqual(['test.yaml']);
        const { undo } = await new Store(root).steps('wren');
        expect(undo).toBeGreaterThanOrEqual(Math.min(200, told.length));
      }
    } finally {
      next.kill('SIGKILL');
      await new Promise(done => next.once('close', done));
    }
  }, 60_000);
});
