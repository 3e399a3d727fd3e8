import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { measuringCode } from '../../pipeline/cache/measured-logs.ts';
import { NO_STORE, openStore, type Store } from '../../pipeline/cache/store.ts';
import { storeOnly } from '../../pipeline/press/output.ts';
import { readingsFrom, writeTestsData } from '../../pipeline/press/write-data.ts';
import { changedTest } from '../../pipeline/result/lazy-attempts.ts';
import type { Attempt, Publication, TestResult } from '../../pipeline/result/result.ts';
import { demoPublication } from '../demo.ts';

let root: string;
let publication: Publication;
let first: TestResult;
let store: Store;

async function filesOf(test: TestResult, from: Store): Promise<ReadonlyMap<string, string>> {
  const output = storeOnly(from);
  await writeTestsData({ ...publication, tests: [test] }, () => true, output, from);
  return output.files;
}

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'evenground-write-data-'));
  publication = await demoPublication();
  first = publication.tests[0]!;
  store = openStore(join(root, 'store'));
  await filesOf(first, store);
}, 120_000);
afterAll(() => rmSync(root, { recursive: true, force: true }));

/** The test with `change` made to its first attempt, as if its files were others. */
const withFirst = (change: (attempt: Attempt) => Attempt): TestResult =>
  changedTest(first, { madeFrom: change.toString() }, attempt =>
    attempt.number === 1 ? change(attempt) : attempt,
  );
const content = (changed: Partial<TestResult['content']>): TestResult =>
  changedTest(
    first,
    { madeFrom: JSON.stringify(changed), content: { ...first.content, ...changed } },
    attempt => attempt,
  );

describe('the open data of a test that was written before', () => {
  it.each<readonly [string, () => TestResult]>([
    ['a note', () => withFirst(attempt => ({ ...attempt, note: 'Another one' }))],
    ['the name of an attempt', () => withFirst(attempt => ({ ...attempt, id: 'renamed' }))],
    ['the log of an attempt', () => withFirst(attempt => ({ ...attempt, log: 'other.csv' }))],
    [
      'where a run begins',
      () =>
        withFirst(attempt => {
          const { measurement } = attempt;
          const run = { ...measurement.run, beginIndex: measurement.run.beginIndex + 1 };
          return { ...attempt, measurement: { ...measurement, run } };
        }),
    ],
    ['the title', () => content({ title: 'Another title' })],
  ])('is what it would be if nothing were kept, after a change of %s', async (_, changed) => {
    const anew = await filesOf(changed(), NO_STORE);
    expect([...(await filesOf(changed(), store))]).toEqual([...anew]);
    expect([...anew]).not.toEqual([...(await filesOf(first, NO_STORE))]);
  });

  it('takes its readings from there where only a note is another', async () => {
    let asked = 0;
    const noted = (note: string): TestResult =>
      changedTest(first, { madeFrom: note }, attempt => ({
        ...attempt,
        note,
        trace: Object.defineProperty({ ...attempt.trace }, 'timeS', {
          enumerable: true,
          get: () => {
            asked += 1;
            return attempt.trace.timeS;
          },
        }),
      }));
    const path = `data/${first.id}/traces.csv`;
    const before = (await filesOf(first, store)).get(path);
    expect((await filesOf(noted('A third one'), store)).get(path)).toBe(before);
    expect(asked).toBe(0);
  });

  it('knows its readings by the code that measures too', () => {
    expect(readingsFrom(first)).toContain(measuringCode());
  });
});
