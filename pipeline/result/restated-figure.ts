/** A restated figure by the word of its measure. */
import type { RestatedFigure } from '../conditions/restate.ts';
import type { Attempt, ResultQuery } from './result.ts';
import { restatedValue } from './tests-compared.ts';

/** With what each condition changed; undefined where the attempt was not restated or did not reach it. SI. */
export function restatedFigure(
  attempt: Attempt,
  query: Pick<ResultQuery, 'measure' | 'startRule'>,
): RestatedFigure | undefined {
  const { restated } = attempt;
  const value = restatedValue(attempt, query)?.value;
  if (restated === undefined || value === undefined) return undefined;
  // The same split that the measure itself picked: its time is the very same number.
  return [...restated.speedSplits, ...restated.distanceSplits].find(({ timeS }) => timeS === value);
}
