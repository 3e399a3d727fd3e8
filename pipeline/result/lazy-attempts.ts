/** Attempts that are asked for when they are needed: those of an archive do not fit into memory. */
import { onceOf } from '../once-of.ts';
import type { Attempt, TestResult } from './result.ts';

type WithoutAttempts = Omit<TestResult, 'attempts'>;

/** A test whose attempts are asked for each time; `read` gives the very same ones as long as anybody holds them. */
export const withAttempts = (said: WithoutAttempts, read: () => readonly Attempt[]): TestResult =>
  Object.defineProperty({ ...said }, 'attempts', { enumerable: true, get: read }) as TestResult;

/** Everything of a test but its attempts, which are not asked for; a spread would. */
export const withoutAttempts = (test: TestResult): WithoutAttempts =>
  Object.fromEntries(
    Object.keys(test).flatMap(key => (key === 'attempts' ? [] : [[key, test[key as keyof TestResult]]])),
  ) as unknown as WithoutAttempts;

/** A test with `change` made to it and each attempt changed when it is asked for. */
export function changedTest(
  test: TestResult,
  change: Partial<WithoutAttempts>,
  changeAttempt: (attempt: Attempt) => Attempt,
): TestResult {
  const changed = new WeakMap<readonly Attempt[], readonly Attempt[]>();
  return withAttempts({ ...withoutAttempts(test), ...change }, () => {
    const { attempts } = test;
    return onceOf(changed, attempts, () => attempts.map(changeAttempt));
  });
}
