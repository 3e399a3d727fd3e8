import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { deserialize, serialize } from 'node:v8';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { openStore } from '../../pipeline/cache/store.ts';

const ROOT = resolve(import.meta.dirname, '../..');
let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenground-places-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

const node = (...args: readonly string[]): string =>
  execFileSync(process.execPath, args, {
    encoding: 'utf8',
    cwd: folder,
    env: { ...process.env, NODE_COMPILE_CACHE: folder },
  });
const HELP = [join(ROOT, 'pipeline/evenground.mjs'), 'plan', '--help'];
const help = (): string => node(...HELP);
/** The one entry of a store: its file, and its key. */
const entry = (): { readonly file: string; readonly key: string } => {
  const two = readdirSync(folder).find(name => /^[0-9a-f]{2}$/.test(name))!;
  const [rest = ''] = readdirSync(join(folder, two));
  return { file: join(folder, two, rest), key: two + rest };
};

it('is kept by the first start, and left as it is by the next', () => {
  const first = help();
  expect(first).toContain('Usage: npm run evenground -- plan');
  const { mtimeMs, ino } = statSync(entry().file);
  expect(help()).toBe(first);
  expect(statSync(entry().file)).toMatchObject({ mtimeMs, ino });
});

it('is found anew where what is kept is damaged', () => {
  const first = help();
  const { file } = entry();
  const whole = readFileSync(file);
  writeFileSync(file, whole.subarray(0, whole.length - 100));
  expect(help()).toBe(first);
  expect(readFileSync(file).length).toBeGreaterThan(0);
  expect(openStore(folder).readSync(entry().key)).toBeDefined();
});

it('is told from the folder of the project', () => {
  help();
  const { key } = entry();
  const places = deserialize(openStore(folder).readSync(key)!) as Map<string, [string, string]>;
  expect(places.size).toBeGreaterThan(10);
  expect(JSON.stringify([...places])).not.toContain(pathToFileURL(ROOT).href);
});

it('is not looked for again', () => {
  help();
  const { key } = entry();
  const store = openStore(folder);
  const places = deserialize(store.readSync(key)!) as Map<string, [string, string]>;
  const other = join(folder, 'plan.mjs');
  writeFileSync(
    other,
    "export const runPlan = async (args, io) => { io.stdout('another place\\n'); return 0; };\n",
  );
  const [asked] = [...places.keys()].filter(name => name.includes(' ./command/plan.ts '));
  places.set(asked!, [pathToFileURL(other).href, 'module']);
  store.writeSync(key, serialize(places));
  expect(help()).toBe('another place\n');
});

it('keeps what another process has found by the time this one ends', () => {
  const own = pathToFileURL(join(ROOT, 'pipeline/log/readers.ts')).href;
  const program = `
    import { execFileSync } from 'node:child_process';
    const { rememberPlaces } = await import(${JSON.stringify(pathToFileURL(join(ROOT, 'pipeline/cache/module-places.ts')).href)});
    rememberPlaces(${JSON.stringify(folder)});
    await import(${JSON.stringify(own)});
    execFileSync(process.execPath, ${JSON.stringify(HELP)});`;
  node('--input-type=module', '--eval', program);
  const places = deserialize(openStore(folder).readSync(entry().key)!) as Map<string, [string, string]>;
  const found = [...places.values()].map(([place]) => place);
  expect(found).toContain('pipeline/log/readers.ts');
  expect(found).toContain('pipeline/command/plan.ts');
});
