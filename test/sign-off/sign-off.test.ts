import { createHash } from 'node:crypto';
import { cp, mkdir, mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { runBuild } from '../../pipeline/command/build.ts';
import { runCheck } from '../../pipeline/command/check.ts';
import type { Io } from '../../pipeline/command/io.ts';
import { runSignOff } from '../../pipeline/command/sign-off.ts';
import type { SignedOff } from '../../pipeline/content/sign-off-schema.ts';
import { loadPublication } from '../../pipeline/pipeline.ts';
import { shownCorrections } from '../../pipeline/sign-off/shown.ts';

const TEST = 'tolvane-barrow-dry';
const FOLDER = `content/tests/${TEST}`;
const RECORD = `${FOLDER}/signed-off.json`;
const LOG = `${FOLDER}/logs/first.gpx`;

let root: string;
/** The publication of the demo with one test, and the same with its numbers signed off. */
let plain: string;
let signed: string;

async function run(
  command: (args: readonly string[], io: Io) => Promise<number>,
  ...args: string[]
): Promise<{ status: number; out: string; err: string }> {
  let [out, err] = ['', ''];
  const status = await command(args, {
    stdout: text => {
      out += text;
    },
    stderr: text => {
      err += text;
    },
    stdin: async () => new Uint8Array(),
    readFile: async path => readFile(path),
    isTerminal: false,
    root,
  });
  return { status, out, err };
}

const read = (path: string): Promise<string> => readFile(join(root, path), 'utf8');
const write = (path: string, text: string): Promise<void> => writeFile(join(root, path), text);
const record = async (): Promise<SignedOff> => JSON.parse(await read(RECORD)) as SignedOff;

/** Speed of one reading, by its line in the log, made greater by this many m/s. */
async function changeSample(line: number, byMps: number): Promise<void> {
  const lines = (await read(LOG)).split('\n');
  lines[line - 1] = lines[line - 1]!.replace(
    /<log:speed>([\d.]+)</,
    (_, speed: string) => `<log:speed>${(Number(speed) + byMps).toFixed(3)}<`,
  );
  await write(LOG, lines.join('\n'));
}

/** Line of the reading before the best run passes 100 km/h, from its workings' own data. */
async function lineAtHundred(): Promise<number> {
  const publication = await loadPublication(root);
  const test = publication.tests[0]!;
  const attempt = test.attempts.find(
    ({ log, measurement, setAside }) =>
      log === 'logs/first.gpx' &&
      setAside === undefined &&
      measurement.speedSplits.some(({ toMps }) => Math.abs(toMps - 100 / 3.6) < 1e-9),
  )!;
  const { trace, measurement } = attempt;
  for (let i = measurement.run.beginIndex; i < measurement.run.endIndex; i++)
    if (trace.speedMps[i + 1]! > 100 / 3.6) return trace.line[i]!;
  throw new Error('100 km/h is not reached');
}

const withCorrection = async (correction: string): Promise<void> =>
  write(`${FOLDER}/test.yaml`, `${await read(`${FOLDER}/test.yaml`)}\ncorrections:\n${correction}\n`);

beforeAll(async () => {
  plain = await mkdtemp(join(tmpdir(), 'sign-off-'));
  const other = /^content\/(schema|tests\/(?!tolvane-barrow-dry))/;
  await cp('content', join(plain, 'content'), { recursive: true, filter: from => !other.test(from) });
  await rm(join(plain, RECORD), { force: true });
  await writeFile(join(plain, 'package.json'), JSON.stringify({ version: '9.8.7' }));
  root = plain;
  signed = await mkdtemp(join(tmpdir(), 'signed-off-'));
  await cp(plain, signed, { recursive: true });
  root = signed;
  const { status, err } = await run(runSignOff, TEST, '--date', '2026-06-01');
  expect([status, err]).toEqual([0, '']);
});
afterAll(async () => {
  for (const folder of [plain, signed]) await rm(folder, { recursive: true, force: true });
});

describe('signing off', () => {
  beforeEach(async () => {
    root = await mkdtemp(join(tmpdir(), 'day-'));
    await cp(signed, root, { recursive: true });
    return () => rm(root, { recursive: true, force: true });
  });

  it('records every number with its print, unrounded value, rule and count, the day and the version', async () => {
    const { test, signed_off, program, numbers } = await record();
    expect([test, signed_off, program]).toEqual([TEST, '2026-06-01', '9.8.7']);
    const best = numbers.find(({ key }) => key === 'key-figures/0-100-kmh/best/first-movement')!;
    expect(best.text).toMatch(/^\d+\.\d+\u00a0s ±\u00a00\.\d+\u00a0s$/);
    expect(Number.parseFloat(best.text)).toBeCloseTo(best.value!, 1);
    expect([best.start_rule, best.n! > 0]).toEqual(['first-movement', true]);
    for (const part of ['article/number/', 'tables/splits/0-100-kmh/', 'attempts/a01/'])
      expect(numbers.filter(({ key }) => key.startsWith(part)).length).toBeGreaterThan(0);
    expect(new Set(numbers.map(({ key }) => key)).size).toBe(numbers.length);
  });

  it('leaves a publication that has not changed without a word', async () => {
    const { status, out } = await run(runCheck);
    expect([status, out.match(/sign-off-[\w-]+/g)]).toEqual([0, null]);
  });

  it('refuses while the content has errors, and writes nothing', async () => {
    await rm(join(root, RECORD));
    await write(`${FOLDER}/article.md`, 'It needs :number{of=0-100-kmk}.');
    const { status, err } = await run(runSignOff, TEST);
    expect(status).toBe(1);
    expect(err).toContain('[article.unknown-word]');
    await expect(read(RECORD)).rejects.toThrow('ENOENT');
  });

  it('refuses a second time, and with --again where nothing changed', async () => {
    const before = await read(RECORD);
    expect((await run(runSignOff, TEST)).err).toContain('[sign-off-already]');
    expect((await run(runSignOff, TEST, '--again')).err).toContain('[sign-off-no-correction]');
    expect(await read(RECORD)).toBe(before);
  });

  it('names the nearest test where there is none of that name, and the usage where there is none', async () => {
    const { status, err } = await run(runSignOff, 'tolvane-barow-dry');
    expect([status, err.includes('Did you mean tolvane-barrow-dry?')]).toEqual([1, true]);
    expect((await run(runSignOff)).status).toBe(2);
    expect((await run(runSignOff, TEST, '--date', '2026-02-30')).status).toBe(2);
  });
});

describe('a number that moves after it went out', () => {
  let moved: string;
  beforeAll(async () => {
    moved = await mkdtemp(join(tmpdir(), 'moved-'));
    await cp(signed, moved, { recursive: true });
    root = moved;
    await changeSample(await lineAtHundred(), 0.9);
    return () => rm(moved, { recursive: true, force: true });
  });
  beforeEach(async () => {
    root = await mkdtemp(join(tmpdir(), 'day-'));
    await cp(moved, root, { recursive: true });
    return () => rm(root, { recursive: true, force: true });
  });

  it('fails the check with its name, old and new, at its line in the record', async () => {
    const { status, out } = await run(runCheck);
    expect(status).toBe(1);
    const line = out.split('\n').find(text => text.includes('0–100 km/h, attempt'))!;
    expect(line).toMatch(
      /signed-off\.json:\d+: error: A number that went out has moved: 0–100 km\/h, attempt \d+, clock .* \(expected [\d.]+.s .*, found [\d.]+.s .*\)/,
    );
    const [, at = '0', was, now] =
      /json:(\d+):.*expected ([\d.]+\u00a0s).*found ([\d.]+\u00a0s)/.exec(line) ?? [];
    expect((await read(RECORD)).split('\n')[Number(at) - 1]).toContain(`"${was} `);
    expect(now).not.toBe(was);
  });

  it('names first the log that changed, with its hash as it went out and as it is', async () => {
    const { err } = await run(runBuild);
    const [first = '', second = ''] = err.split('\n').filter(line => /: error: /.test(line));
    const hash = createHash('sha256')
      .update(await readFile(join(root, LOG)))
      .digest('hex');
    const was = (await record()).logs!.find(({ file }) => file === 'logs/first.gpx')!.sha256;
    expect(first).toContain('A log is not the one that the numbers went out with: logs/first.gpx');
    expect(first).toContain(`(expected SHA-256 ${was}, found SHA-256 ${hash})`);
    expect(second).toContain('A number that went out has moved');
    const [, line = '0'] = /signed-off\.json:(\d+):/.exec(first) ?? [];
    expect((await read(RECORD)).split('\n')[Number(line) - 1]).toContain('"logs/first.gpx"');
    // The other logs are as they were.
    expect(err.match(/A log is not the one/g)).toHaveLength(1);
  });

  it('fails the build, which touches nothing', async () => {
    const { status, err } = await run(runBuild);
    expect(status).toBe(1);
    expect(err).toContain('A number that went out has moved');
    expect(err).toContain('Nothing was built');
  });

  it('refuses to be signed off again without a correction', async () => {
    const before = await read(RECORD);
    const { status, err } = await run(runSignOff, TEST, '--again');
    expect([status, err.includes('[sign-off-number-moved]')]).toEqual([1, true]);
    expect(await read(RECORD)).toBe(before);
  });

  it('passes with a correction that covers it, which the page shows with both numbers', async () => {
    await withCorrection('  - { date: "2026-06-02", what: "One time was wrong.", reason: "A slip." }');
    const { status, out } = await run(runCheck);
    expect([status, out.includes('[sign-off-moved-as-corrected]')]).toEqual([0, true]);
    const publication = await loadPublication(root);
    const [shown, ...more] = shownCorrections(publication.tests[0]!, publication);
    expect(more).toEqual([]);
    expect([shown?.date, shown?.what, shown?.reason]).toEqual([
      '2026-06-02',
      'One time was wrong.',
      'A slip.',
    ]);
    expect(shown!.moved.length).toBeGreaterThan(0);
    for (const { was, now } of shown!.moved) expect(was).not.toBe(now);
  });

  it('still fails for the numbers a correction does not name', async () => {
    await withCorrection(
      '  - { date: "2026-06-02", what: "w", reason: "r", numbers: [article, key-figures, tables] }',
    );
    const { status, out } = await run(runCheck);
    expect(status).toBe(1);
    expect(out).not.toMatch(/has moved: [^(]*in the article/);
    expect(out).toMatch(/has moved: [^(]*attempt/);
  });

  it('is signed off again with the correction, which keeps what it changed and covers no later move', async () => {
    await withCorrection('  - { date: "2026-06-02", what: "One time was wrong.", reason: "A slip." }');
    expect((await run(runSignOff, TEST, '--again', '--date', '2026-06-03')).status).toBe(0);
    const { signed_off, corrections } = await record();
    expect([signed_off, corrections.length]).toEqual(['2026-06-03', 1]);
    expect(corrections[0]!.moved.length).toBeGreaterThan(0);
    expect((await run(runCheck)).out).not.toContain('sign-off-');
    const publication = await loadPublication(root);
    expect(shownCorrections(publication.tests[0]!, publication)[0]!.moved.length).toBeGreaterThan(0);
    await changeSample(await lineAtHundred(), -0.9);
    expect((await run(runCheck)).out).toContain('[sign-off-number-moved]');
  });

  it('keeps a correction that went out from being taken back or reworded', async () => {
    await withCorrection('  - { date: "2026-06-02", what: "One time was wrong.", reason: "A slip." }');
    await run(runSignOff, TEST, '--again', '--date', '2026-06-03');
    await write(`${FOLDER}/test.yaml`, (await read(`${FOLDER}/test.yaml`)).replace('was wrong', 'was fine'));
    const { status, out } = await run(runCheck);
    expect([status, out.includes('[sign-off-correction-taken-back]')]).toEqual([1, true]);
  });
});

describe('what is told and does not fail', () => {
  beforeEach(async () => {
    root = await mkdtemp(join(tmpdir(), 'day-'));
    await cp(signed, root, { recursive: true });
    return () => rm(root, { recursive: true, force: true });
  });

  it('an unrounded drift that prints the same, and a number that came later', async () => {
    const old = await record();
    const [first, ...rest] = old.numbers;
    const numbers = [{ ...first!, value: first!.value! + 1e-6 }, ...rest.slice(0, -1)];
    await write(RECORD, `${JSON.stringify({ ...old, numbers }, null, 2)}\n`);
    const { status, out } = await run(runCheck);
    expect(status).toBe(0);
    expect(out).toMatch(/note: 1 number drifted without a change in print/);
    expect(out).toMatch(/note: 1 number came after the sign-off/);
  });

  it('a log that changed and moved nothing', async () => {
    await write(LOG, `${await read(LOG)}\n`);
    const { status, out } = await run(runCheck);
    expect(status).toBe(0);
    expect(out).toMatch(/signed-off\.json:\d+: note: A log is not the one .*: logs\/first\.gpx/);
    expect((await run(runSignOff, TEST, '--again')).status).toBe(0);
    expect((await run(runCheck)).out).not.toContain('sign-off-');
  });

  it('nothing of a drift in the last binary digits', async () => {
    const old = await record();
    const numbers = old.numbers.map(number =>
      number.value === undefined ? number : { ...number, value: number.value * (1 + 2 ** -50) },
    );
    await write(RECORD, `${JSON.stringify({ ...old, numbers }, null, 2)}\n`);
    const { status, out } = await run(runCheck);
    expect([status, out.includes('drifted')]).toEqual([0, false]);
  });

  it('a change of the start rule or of the count alone is a move', async () => {
    const old = await record();
    const key = 'key-figures/0-100-kmh/best/first-movement';
    const numbers = old.numbers.map(number =>
      number.key === key ? { ...number, n: number.n! + 1 } : number,
    );
    await write(RECORD, `${JSON.stringify({ ...old, numbers }, null, 2)}\n`);
    const { status, out } = await run(runCheck);
    expect(status).toBe(1);
    expect(out).toMatch(
      /0–100 km\/h, best, clock from first movement \(expected .*, n = \d+, found .*, n = \d+\)/,
    );
  });

  it('a number that is no longer published is named with what it was', async () => {
    await write(`${FOLDER}/article.md`, 'No number is left.');
    const { status, out } = await run(runCheck);
    expect(status).toBe(1);
    expect(out).toContain('A number that went out is no longer published: 0–100 km/h, in the article');
  });
});

describe('corrections and records that are wrong themselves', () => {
  beforeEach(async () => {
    root = await mkdtemp(join(tmpdir(), 'day-'));
    await cp(signed, root, { recursive: true });
    return () => rm(root, { recursive: true, force: true });
  });

  it('are told at their place in test.yaml', async () => {
    const above = (await read(`${FOLDER}/test.yaml`)).split('\n').length;
    await withCorrection(
      '  - date: "2026-05-30"\n    what: w\n    reason: r\n    numbers: [0-100-kmh, 0-100-kmk]\n  - { date: "2026-02-30", what: w, reason: r }',
    );
    const { status, out } = await run(runCheck);
    expect(status).toBe(1);
    const at = (line: number): string => `test.yaml:${above + line}:`;
    expect(out.split('\n').find(text => text.includes(at(2)))).toContain('[sign-off-correction-too-early]');
    const unknown = out.split('\n').find(text => text.includes(at(5)));
    expect(unknown).toContain('never went out: 0-100-kmk');
    expect(unknown).toContain('Did you mean 0-100-kmh?');
    expect(out.split('\n').find(text => text.includes(at(6)))).toContain('[content-impossible-date]');
  });

  it('without a reason is a fault of its schema', async () => {
    await withCorrection('  - { date: "2026-06-02", what: w }');
    const { status, out } = await run(runCheck);
    expect([status, out.includes('reason is missing')]).toEqual([1, true]);
  });

  it('before any sign-off is a warning', async () => {
    await rm(join(root, RECORD));
    await withCorrection('  - { date: "2026-06-02", what: w, reason: r }');
    const { status, out } = await run(runCheck);
    expect([status, out.includes('[sign-off-correction-before-sign-off]')]).toEqual([0, true]);
  });

  it.each([
    [
      'broken JSON',
      (text: string) => text.replace('"numbers"', 'numbers'),
      /signed-off\.json:\d+:\d+: error/,
    ],
    [
      'a number without a print',
      (text: string) => text.replace(/"text":"[^"]*",/, ''),
      /signed-off\.json:\d+: error.*text/,
    ],
    [
      'the record of another test',
      (text: string) => text.replaceAll(TEST, 'another'),
      /\[sign-off-other-test\]/,
    ],
    ['nothing at all', () => '', /\[sign-off-unreadable\]/],
  ])('%s is an error, never a silent start anew', async (_name, change, told) => {
    await write(RECORD, change(await read(RECORD)));
    const { status, out } = await run(runCheck);
    expect(status).toBe(1);
    expect(out).toMatch(told);
  });

  it('a record that cannot be written leaves nothing beside its place', async () => {
    await rm(join(root, RECORD));
    await mkdir(join(root, RECORD));
    await expect(run(runSignOff, TEST)).rejects.toThrow();
    expect((await readdir(join(root, FOLDER))).filter(name => name.includes('unfinished'))).toEqual([]);
  });
});
