import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { keepingTests } from '../../pipeline/cache/kept-tests.ts';
import { keepingTools } from '../../pipeline/cache/measured-logs.ts';
import { openStore } from '../../pipeline/cache/store.ts';
import { contentFilesToContent } from '../../pipeline/content/content.ts';
import { readLog } from '../../pipeline/log/readers.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { type AssembleTools, contentToTests, makingsOf } from '../../pipeline/result/assemble.ts';
import type { Attempt, TestResult } from '../../pipeline/result/result.ts';
import { SMALL_DAY, SMALL_TEST_FILE, smallTest } from '../bench/small-project.ts';
import { contentFiles } from '../content/valid.ts';

const LOG = 'content/tests/wren-dry/logs/morning.csv';
const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenground-kept-tests-'));
});
afterEach(() => rmSync(folder, { recursive: true }));

/** One test put together with what is kept in the folder. @returns it, and how often logs were measured for it */
function assembled(note = 'Clean', seen: Readonly<Record<string, string>> = {}) {
  const files = new Map(contentFiles({ [SMALL_TEST_FILE]: smallTest(note), [LOG]: SMALL_DAY }));
  const content = contentFilesToContent(files);
  expect(content.problems).toEqual([]);
  let measured = 0;
  const plain: AssembleTools = {
    readLog,
    measureLog(log, options) {
      measured += 1;
      return measureLog(log, options);
    },
    sha256,
  };
  const store = openStore(folder);
  const tools = keepingTools(plain, store, path => files.get(path));
  const kept = keepingTests(store, tools, {
    seen: path => seen[path],
    now: path => sha256(files.get(path)!),
  });
  const held = makingsOf(content, files).map(kept.holds);
  const { tests, problems } = contentToTests(content, files, { ...tools, ...kept });
  return { test: tests[0]!, problems, measured, held };
}

const told = ({ trace, ...attempt }: Attempt): object => ({
  ...attempt,
  rateHz: trace.rateHz,
  speeds: trace.speedMps.length,
  sum: trace.speedMps.reduce((sum, speed) => sum + speed, 0),
});
const whole = ({ attempts, ...test }: TestResult): object => ({ ...test, attempts: attempts.map(told) });

describe('tests that are put together once', () => {
  it('are the same when they are found again, and nothing is measured for them', () => {
    const first = assembled();
    expect(first).toMatchObject({ measured: 1, held: [false] });
    expect(first.test.attempts.length).toBeGreaterThan(0);
    const again = assembled();
    expect(again).toMatchObject({ measured: 0, held: [true] });
    expect(whole(again.test)).toEqual(whole(first.test));
    expect(again.problems).toEqual(first.problems);
    // As long as somebody holds them they are the very same, one trace for all attempts of a log.
    expect(again.test.attempts).toBe(again.test.attempts);
    expect(new Set(again.test.attempts.map(({ trace }) => trace)).size).toBe(1);
  });

  it('are put together anew where a file of theirs is another, without measuring the same log again', () => {
    const first = assembled();
    const edited = assembled('Tidy');
    expect(edited).toMatchObject({ measured: 0, held: [false] });
    expect(edited.test.attempts[0]!.note).toBe('Tidy');
    expect(edited.test.madeFrom).not.toBe(first.test.madeFrom);
    expect(assembled().test.madeFrom).toBe(first.test.madeFrom);
  });

  it('are not kept where a file changed after it was looked at', () => {
    const stale = { [LOG]: sha256(new Uint8Array([1])) };
    expect(assembled('Clean', stale)).toMatchObject({ held: [false] });
    const later = assembled('Clean', stale);
    expect(later.held).toEqual([false]);
    expect(later.test.madeFrom).toBeUndefined();
  });

  it('are made again where what is kept is damaged', () => {
    const first = assembled();
    for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true }))
      if (entry.isFile()) writeFileSync(join(entry.parentPath, entry.name), 'torn');
    const again = assembled();
    expect(again.measured).toBe(1);
    expect(whole(again.test)).toEqual(whole(first.test));
  });
});
