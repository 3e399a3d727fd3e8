/** Messages about numbers that went out and corrections to them; ids are permanent. */
import type { Place, Problem, Severity } from '../problem.ts';

const make = (
  id: string,
  severity: Severity,
  where: Place | undefined,
  what: string,
  mend: string,
  facts: { expected?: string; found?: string } = {},
): Problem => ({
  id: `sign-off-${id}`,
  severity,
  what,
  ...(where === undefined ? {} : { where }),
  ...facts,
  mend,
});

export const signedOffUnreadable = (where: Place, why: string): Problem =>
  make(
    'unreadable',
    'error',
    where,
    `The record of the numbers that went out cannot be read: ${why}`,
    'The program writes this file; put back the one it wrote, from your backup or version control.',
  );

export const signedOffOther = (where: Place, test: string, found: string): Problem =>
  make(
    'other-test',
    'error',
    where,
    'The record of the numbers that went out is that of another test',
    'Put back the file that was written for this test.',
    { expected: test, found },
  );

/** What the numbers were measured from is no longer what it was; an error where a number moved with it. */
export const logChanged = (
  where: Place,
  severity: Severity,
  log: string,
  was: string,
  now: string | undefined,
): Problem =>
  make(
    'log-changed',
    severity,
    where,
    `A log is not the one that the numbers went out with: ${log}`,
    severity === 'error'
      ? 'If it was changed by mistake, put back the one from the card; the numbers that moved with it follow.'
      : 'No number is printed otherwise for it without a correction; sign off again to record the log as it is.',
    { expected: `SHA-256 ${was}`, found: now === undefined ? 'no such log' : `SHA-256 ${now}` },
  );

/** A number reads otherwise than it went out, and no correction covers it. */
export const numberMoved = (
  where: Place,
  number: { readonly key: string; readonly name: string },
  was: string,
  now: string,
  testFile: string,
): Problem =>
  make(
    'number-moved',
    'error',
    where,
    `A number that went out has moved: ${number.name}`,
    `If the new one is right, add to corrections in ${testFile} its date, what, reason and numbers: ["${number.key}"]; if not, undo what moved it.`,
    { expected: was, found: now },
  );

export const numberGone = (
  where: Place,
  number: { readonly key: string; readonly name: string },
  was: string,
  testFile: string,
): Problem =>
  make(
    'number-gone',
    'error',
    where,
    `A number that went out is no longer published: ${number.name}`,
    `If that is right, add to corrections in ${testFile} its date, what, reason and numbers: ["${number.key}"]; if not, undo what took it away.`,
    { expected: was, found: 'nothing' },
  );

export const moreMoved = (where: Place, count: number): Problem =>
  make(
    'more-moved',
    'error',
    where,
    `${count} more numbers that went out have moved`,
    'One change moves many numbers as a rule: mend or correct the ones named first.',
  );

export const movedAsCorrected = (
  where: Place,
  test: string,
  date: string,
  count: number,
  first: string,
): Problem =>
  make(
    'moved-as-corrected',
    'warning',
    where,
    `${counted(count)} moved, as the correction of ${date} says: ${first}`,
    `Run \`npm run evenground -- sign-off ${test} --again\` to record the numbers as they now go out.`,
  );

export const numbersDrifted = (where: Place, count: number, first: string): Problem =>
  make(
    'numbers-drifted',
    'note',
    where,
    `${counted(count)} drifted without a change in print, such as ${first}`,
    'Nothing needs doing; a reader sees the same.',
  );

export const numbersAdded = (where: Place, count: number, first: string): Problem =>
  make(
    'numbers-added',
    'note',
    where,
    `${counted(count)} came after the sign-off, such as ${first}`,
    'Nothing needs doing; the next sign-off records them.',
  );

export const correctionTakenBack = (where: Place, date: string, what: string): Problem =>
  make(
    'correction-taken-back',
    'error',
    where,
    `The correction of ${date} went out and is no longer in test.yaml as it was: ${what}`,
    'Put it back word for word; write a further correction where it was wrong itself.',
  );

export const correctionTooEarly = (where: Place, date: string, signed: string): Problem =>
  make(
    'correction-too-early',
    'error',
    where,
    'A correction is dated before the numbers went out',
    'Correct its date.',
    { expected: `${signed} or later`, found: date },
  );

export const correctionBeforeSignOff = (where: Place, test: string): Problem =>
  make(
    'correction-before-sign-off',
    'warning',
    where,
    'There is a correction, but the numbers of this test have not gone out yet',
    `Run \`npm run evenground -- sign-off ${test}\` when they do; before that, a correction tells readers of what they never saw.`,
  );

export const correctionOfNothing = (where: Place, found: string, near: string | undefined): Problem =>
  make(
    'correction-of-nothing',
    'error',
    where,
    `A correction names a number that never went out: ${found}`,
    near === undefined
      ? 'Write a key of signed-off.json, or a part of one such as 0-100-kmh.'
      : `Did you mean ${near}?`,
  );

const counted = (n: number): string => `${n} ${n === 1 ? 'number' : 'numbers'}`;

// Of the command itself; these have no place in a file.

export const noSuchTest = (found: string, near: string | undefined, known: readonly string[]): Problem =>
  make(
    'no-such-test',
    'error',
    undefined,
    'There is no such test',
    near === undefined ? 'Name a folder of content/tests/.' : `Did you mean ${near}?`,
    { expected: `one of ${known.length === 0 ? 'none yet' : known.join(', ')}`, found },
  );

export const signedOffAlready = (where: Place, date: string): Problem =>
  make(
    'already',
    'error',
    where,
    `The numbers of this test went out on ${date}`,
    'Where they had to change, write a correction in test.yaml and say --again.',
  );

export const againWithoutCorrection = (where: Place): Problem =>
  make(
    'no-correction',
    'error',
    where,
    'There is nothing to sign off again: no number moved, none is new, and no correction was added',
    'Leave the record as it is, or write a correction in test.yaml first.',
  );
