/** The record of a test's numbers as they go out. */
import type { SignedCorrection, SignedOff } from '../content/sign-off-schema.ts';
import type { Publication, TestResult } from '../result/result.ts';
import { compareWithRecord, coveredBy, freshCorrections, isSameCorrection } from './moved.ts';
import { numbersOf } from './numbers.ts';

/** What stands for the print of a number that is no longer published. */
const NOT_PUBLISHED = 'no longer published';

/** `date` is the day, year-month-day; `program` its version. A record before this one hands on its corrections. */
export function recordOf(
  test: TestResult,
  publication: Publication,
  date: string,
  program: string,
): SignedOff {
  const numbers = [...numbersOf(test, publication)];
  return {
    test: test.id,
    signed_off: date,
    program,
    logs: logsOf(test),
    corrections: [...correctionsOf(test, numbers)],
    numbers,
  };
}

/** Every log of a test with its hash, by name. */
export const logsOf = ({ logSha256 }: Pick<TestResult, 'logSha256'>): NonNullable<SignedOff['logs']> =>
  Object.entries(logSha256)
    .map(([file, sha256]) => ({ file, sha256 }))
    .sort((a, b) => (a.file < b.file ? -1 : 1));

/** Every correction of a test with the numbers that moved by it, oldest first. */
export function correctionsOf(
  { content, signedOff }: TestResult,
  now: SignedOff['numbers'],
): readonly SignedCorrection[] {
  const corrections = content.corrections ?? [];
  if (signedOff === undefined) return corrections.map(({ date, what }) => ({ date, what, moved: [] }));
  const { record } = signedOff;
  const fresh = freshCorrections(record, corrections);
  const { moved } = fresh.length === 0 ? { moved: [] } : compareWithRecord(record, now);
  return corrections.map(
    (correction): SignedCorrection =>
      record.corrections.find(gone => isSameCorrection(gone, correction)) ?? {
        date: correction.date,
        what: correction.what,
        moved: moved
          .filter(({ key }) => coveredBy(key, fresh) === correction)
          .map(({ key, name, was, now: is }) => ({ key, name, was, now: is ?? NOT_PUBLISHED })),
      },
  );
}
