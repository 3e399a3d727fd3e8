import { mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runCheck } from '../../pipeline/command/check.ts';
import { contentSchemaFiles } from '../../pipeline/content/json-schema.ts';
import { contentFiles, HOUSE, TEST } from './valid.ts';

let root: string;
beforeEach(async () => {
  root = await mkdtemp(join(tmpdir(), 'check-'));
});
afterEach(() => rm(root, { recursive: true, force: true }));

/** One standing start: 8 s at rest, then 3 m/s² to 30 m/s, then level; 10 Hz, clock from 10:00:00 at the road. */
const LOG = `time,speed_kmh\n${Array.from({ length: 300 }, (_, i) => {
  const t = i / 10;
  const iso = new Date(Date.parse('2026-05-12T09:00:00Z') + t * 1000).toISOString();
  return `${iso},${(Math.max(0, Math.min(30, 3 * (t - 8))) * 3.6).toFixed(2)}\n`;
}).join('')}`;
const GOOD = {
  'content/tests/wren-dry/logs/morning.csv': LOG,
  'content/tests/wren-dry/test.yaml': TEST.replace(
    /attempts:[\s\S]*/,
    'attempts:\n  - { at: "10:00:05", launch: brake-hold, direction: east }\n',
  ),
};

async function check(
  changes: Parameters<typeof contentFiles>[0],
  ...args: string[]
): Promise<{ status: number; out: string[]; err: string }> {
  for (const [path, bytes] of contentFiles({ ...GOOD, ...changes })) {
    await mkdir(dirname(join(root, path)), { recursive: true });
    await writeFile(join(root, path), bytes);
  }
  let [out, err] = ['', ''];
  const status = await runCheck(args, {
    stdout: text => {
      out += text;
    },
    stderr: text => {
      err += text;
    },
    root,
  });
  return { status, out: out.trimEnd().split('\n'), err };
}

describe('evenground check', () => {
  it('says how much it has looked at and gives 0 where nothing is wrong', async () => {
    expect(await check({})).toEqual({ status: 0, out: ['1 test, 1 attempt, 0 errors, 0 warnings'], err: '' });
  });

  it('gives 0 with warnings and 1 with errors, and tells everything at once', async () => {
    const warned = await check({
      'content/tests/wren-dry/test.yaml': GOOD['content/tests/wren-dry/test.yaml'].replace('1210', '1000'),
    });
    expect([warned.status, warned.out.at(-1)]).toEqual([0, '1 test, 1 attempt, 0 errors, 1 warning']);
    const broken = await check({
      'content/house.yaml': HOUSE.replace('language', 'langauge'),
      'content/tests/wren-dry/test.yaml': GOOD['content/tests/wren-dry/test.yaml'].replace('east', 'eats'),
      'content/tests/wren-dry/logs/morning.csv': '<!doctype html><p>Not found',
    });
    expect(broken.status).toBe(1);
    expect(broken.out.at(-1)).toBe('1 test, 0 attempts, 4 errors, 0 warnings, 1 note');
    const told = broken.out.slice(0, -2).filter(line => line !== '');
    expect(told).toHaveLength(5);
    for (const line of told)
      expect(line).toMatch(/^content\/[\w./-]+(:\d+(:\d+)?)?: (error|note): .+ \[[\w-]+\]$/);
  });

  it('parts the files by a blank line', async () => {
    const { out } = await check({
      'content/house.yaml': HOUSE.replace('language', 'langauge'),
      'content/cars/wren.yaml': 'name: x\n',
    });
    const groups = out.join('\n').split('\n\n');
    expect(groups.map(group => new Set(group.split('\n').map(line => line.split(':')[0])).size)).toEqual(
      groups.map(() => 1),
    );
  });

  it('prints no sign that moves the cursor, whatever a file holds', async () => {
    const { out } = await check({ 'content/cars/\u001b[2J\u0007.yaml': '"\u001b[31m\\e[1m": \u009b1m\n' });
    expect(out.join('').match(/\p{Cc}/u)).toBeNull();
    expect(out.join('\n')).toContain('content/cars/\\x1b[2J\\x07.yaml');
  });

  it('says where there is no content at all', async () => {
    let out = '';
    const stdout = (text: string) => {
      out += text;
    };
    const status = await runCheck([], { stdout, stderr: stdout, root });
    expect(status).toBe(1);
    expect(out).toContain('There is no content folder here');
    expect(out).not.toContain(root);
  });

  it.each([['--nonsense'], ['content'], ['--write-schemas=yes']])('%s is wrong usage: 2', async arg => {
    const { status, out, err } = await check({}, arg);
    expect([status, out]).toEqual([2, ['']]);
    expect(err).toContain('Usage:');
  });

  it('--help explains itself on standard output', async () => {
    const { status, out } = await check({}, '--help');
    expect(status).toBe(0);
    expect(out.join('\n')).toContain('# yaml-language-server: $schema=../../schema/test.json');
  });

  it('--write-schemas writes the schemas and nothing else, and they are not taken for content', async () => {
    const { status } = await check({}, '--write-schemas');
    expect(status).toBe(0);
    for (const [path, text] of contentSchemaFiles())
      expect(await readFile(join(root, path), 'utf8')).toBe(text);
    expect(await readdir(join(root, 'content/schema'))).toHaveLength(contentSchemaFiles().size);
    expect((await check({})).out.at(-1)).toBe('1 test, 1 attempt, 0 errors, 0 warnings');
  });
});
