/** What can be wrong with how a road plan is asked for. Ids are permanent. */
import type { Problem } from '../problem.ts';

const usage = (
  id: string,
  what: string,
  mend: string,
  facts: { expected?: string; found?: string } = {},
): Problem => ({ id: `usage-plan-${id}`, severity: 'error', what, ...facts, mend });

/** `--car` and `--road` were not both given, or something stands that is no option. */
export const carAndRoadWanted = (accepted: string): Problem =>
  usage('names', 'A plan needs one car and one road', `Accepted: ${accepted}.`);

/** An option that is not known, or without its value. */
export const planOptionWrong = (option: string, accepted: string): Problem =>
  usage('option', `The option ${option} is not used as it should be`, `Accepted: ${accepted}.`);

/** A number outside what the plan is worked out for. */
export const planNumberWrong = (option: string, found: string, expected: string): Problem =>
  usage('number', `The value of ${option} cannot be used`, 'Correct it, or leave the option out.', {
    expected,
    found: `'${found}'`,
  });

/** No car, road, test or direction of this name. */
export const planNameUnknown = (
  what: 'car' | 'road' | 'test' | 'direction',
  found: string,
  known: readonly string[],
): Problem =>
  usage(
    what,
    `There is no such ${what}`,
    what === 'direction'
      ? 'Name it as the road file does.'
      : `Name it as its file under content/${what}s/ is named.`,
    {
      expected: known.length === 0 ? `a ${what} that could be read` : `one of ${known.join(', ')}`,
      found: `'${found}'`,
    },
  );

/** A test of another car says nothing of this one. */
export const planTestOfOtherCar = (test: string, its: string, car: string): Problem =>
  usage('other-car', `The test ${test} is of another car`, 'Name a test of this car, or leave --test out.', {
    expected: car,
    found: its,
  });

/** Nothing of the test could be used: the plan is estimated throughout. */
export const planTestTellsNothing = (test: string): Problem => ({
  id: 'plan-test-empty',
  severity: 'note',
  what: `The test ${test} holds no kept start or stop`,
  mend: 'The plan is estimated; it follows the first runs as soon as they are in.',
});

/** The card could not be written. `code` is the system's, such as EACCES. */
export const planCardNotWritten = (file: string, code: string): Problem => ({
  id: 'plan-card',
  severity: 'error',
  what: `The card cannot be written (${code})`,
  where: { file },
  mend: 'Name a file in a folder that exists and may be written to.',
});
