/** What is wrong between the numbers that went out, the numbers as they are, and the corrections told to readers. */
import { dateTextToMs } from '../content/calendar.ts';
import { nearMiss } from '../content/near-miss.ts';
import type { SignedOffFile } from '../content/signed-off-file.ts';
import type { Place, Problem } from '../problem.ts';
import { impossibleDate } from '../problems/content.ts';
import {
  correctionBeforeSignOff,
  correctionOfNothing,
  correctionTakenBack,
  correctionTooEarly,
  logChanged,
  moreMoved,
  movedAsCorrected,
  numberGone,
  numberMoved,
  numbersAdded,
  numbersDrifted,
} from '../problems/sign-off.ts';
import type { Publication, TestResult } from '../result/result.ts';
import {
  changedLogs,
  compareWithRecord,
  coveredBy,
  freshCorrections,
  isNamedBy,
  isSameCorrection,
} from './moved.ts';
import { numbersOf } from './numbers.ts';

/** Moved numbers told one by one; the rest are counted. */
const MOST_TOLD = 40;

const testFileOf = (test: TestResult): string => test.articleFile.replace(/[^/]*$/, 'test.yaml');

/** Place of `corrections.<index>.<field>` in a test.yaml. */
export type CorrectionPlace = (test: TestResult, path: readonly (string | number)[]) => Place;

/** Every test of a publication held to its record. `placeOf` names the places of test.yaml. */
export function signOffProblems(publication: Publication, placeOf: CorrectionPlace): readonly Problem[] {
  return publication.tests.flatMap(test =>
    test.signedOff === undefined
      ? (test.content.corrections ?? []).length === 0
        ? []
        : [correctionBeforeSignOff(placeOf(test, ['corrections']), test.id)]
      : [
          ...correctionProblems(test, test.signedOff, placeOf),
          ...numberProblems(test, test.signedOff, publication),
        ],
  );
}

function correctionProblems(
  test: TestResult,
  { record }: SignedOffFile,
  placeOf: CorrectionPlace,
): readonly Problem[] {
  const corrections = test.content.corrections ?? [];
  const takenBack = record.corrections
    .filter(gone => !corrections.some(there => isSameCorrection(gone, there)))
    .map(({ date, what }) => correctionTakenBack(placeOf(test, ['corrections']), date, what));
  const wrong = corrections.flatMap(({ date, numbers = [] }, index) => [
    ...(dateTextToMs(date) === undefined
      ? [impossibleDate(placeOf(test, ['corrections', index, 'date']), 'date', date)]
      : // A correction that went out with an earlier record is older than this one; only new ones are held to it.
        date < record.signed_off &&
          !record.corrections.some(gone => isSameCorrection(gone, corrections[index]!))
        ? [correctionTooEarly(placeOf(test, ['corrections', index, 'date']), date, record.signed_off)]
        : []),
    ...numbers.flatMap((part, at) =>
      record.numbers.some(({ key }) => isNamedBy(key, part))
        ? []
        : [
            correctionOfNothing(
              placeOf(test, ['corrections', index, 'numbers', at]),
              part,
              nearMiss(part, [...new Set(record.numbers.flatMap(({ key }) => [key, ...key.split('/')]))]),
            ),
          ],
    ),
  ]);
  return [...takenBack, ...wrong];
}

function numberProblems(
  test: TestResult,
  { file, record, lineOf, logLineOf }: SignedOffFile,
  publication: Publication,
): readonly Problem[] {
  const { moved, drifted, added } = compareWithRecord(record, numbersOf(test, publication));
  const fresh = freshCorrections(record, test.content.corrections ?? []);
  const testFile = testFileOf(test);
  const uncovered = moved.filter(({ key }) => coveredBy(key, fresh) === undefined);
  const errors = uncovered.slice(0, MOST_TOLD).map(number => {
    const where = { file, line: lineOf.get(number.key) ?? 1 };
    return number.now === undefined
      ? numberGone(where, number, number.was, testFile)
      : numberMoved(where, number, number.was, number.now, testFile);
  });
  // Told first: what moved the numbers below.
  const logs = changedLogs(record, test.logSha256).map(log =>
    logChanged(
      { file, line: logLineOf.get(log.file) ?? 1 },
      uncovered.length > 0 ? 'error' : 'note',
      log.file,
      log.was,
      log.now,
    ),
  );
  const covered = fresh.flatMap(correction => {
    const its = moved.filter(({ key }) => coveredBy(key, fresh) === correction);
    const first = its[0];
    return first === undefined
      ? []
      : [
          movedAsCorrected(
            { file },
            test.id,
            correction.date,
            its.length,
            `${first.name}, ${first.was} to ${first.now ?? 'nothing'}`,
          ),
        ];
  });
  return [
    ...logs,
    ...errors,
    ...(uncovered.length > MOST_TOLD
      ? [
          // With the line of the first it stands for, so that it comes after those that are named.
          moreMoved({ file, line: lineOf.get(uncovered[MOST_TOLD]!.key) ?? 1 }, uncovered.length - MOST_TOLD),
        ]
      : []),
    ...covered,
    ...(drifted.length === 0
      ? []
      : [
          numbersDrifted(
            { file },
            drifted.length,
            `${drifted[0]!.name}, ${drifted[0]!.was} to ${drifted[0]!.now}`,
          ),
        ]),
    ...(added.length === 0
      ? []
      : [numbersAdded({ file }, added.length, `${added[0]!.name}, ${added[0]!.text}`)]),
  ];
}
