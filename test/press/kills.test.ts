import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { bytesDigest } from '../../pipeline/cache/digest.ts';
import { openStore } from '../../pipeline/cache/store.ts';
import { randomFromSeed } from '../simulate/random.ts';

const KILLS = 5;
const FILES = 40;
const module = (path: string): string =>
  JSON.stringify(pathToFileURL(resolve(import.meta.dirname, '../../pipeline', path)).href);

/** Fills the folder over and over, each time with other files throughout. */
const WRITER = `
  const { openStore } = await import(${module('cache/store.ts')});
  const { openOutput } = await import(${module('press/output.ts')});
  const { replaceFolder } = await import(${module('press/whole.ts')});
  const [folder, cache, rounds] = process.argv.slice(1);
  const store = openStore(cache);
  for (let round = 0; round < Number(rounds); round += 1) {
    await replaceFolder(folder, async staging => {
      const { write } = openOutput(staging, store);
      for (let file = 0; file < ${FILES}; file += 1) await write(file % 7 + '/' + file, 'round ' + round + ' '.repeat(20000));
    });
    if (round === 0) process.stdout.write('begun');
  }`;

let root: string;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'evenground-killed-'));
});
afterAll(() => rmSync(root, { recursive: true }));

const filesOf = (folder: string): readonly string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter(entry => entry.isFile())
    .map(entry => join(entry.parentPath, entry.name));

it('a folder that is being written when the process is killed is the old one or the new one, and the store holds nothing torn', async () => {
  const [folder, cache] = [join(root, 'site'), join(root, 'cache')];
  const random = randomFromSeed(11);
  const run = (rounds: number) =>
    spawn(process.execPath, ['--input-type=module', '--eval', WRITER, folder, cache, String(rounds)], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
  for (let kill = 0; kill < KILLS; kill += 1) {
    const child = run(1_000_000);
    const closed = new Promise(done => child.once('close', (_, signal) => done(signal)));
    await new Promise(begun => child.stdout.once('data', begun));
    await wait(random.between(0, 120));
    child.kill('SIGKILL');
    expect(await closed).toBe('SIGKILL');
    // Killed between the two renames, the former folder stands beside its place until the next one.
    const former = readdirSync(root).find(name => name.endsWith('-former'));
    const whole = filesOf(existsSync(folder) ? folder : join(root, former!));
    expect(whole).toHaveLength(FILES);
    expect(new Set(whole.map(path => readFileSync(path, 'utf8'))).size).toBe(1);
    const store = openStore(cache);
    for (const path of filesOf(cache).filter(name => !name.includes('.unfinished-'))) {
      const key = path.slice(cache.length).replaceAll('/', '');
      expect(bytesDigest((await store.read(key))!)).toBe(key);
    }
  }
  const last = run(1);
  expect(await new Promise(done => last.once('close', done))).toBe(0);
  expect(readdirSync(root).sort()).toEqual(['cache', 'site']);
  expect(new Set(filesOf(folder).map(path => readFileSync(path, 'utf8').trimEnd()))).toEqual(
    new Set(['round 0']),
  );
});
