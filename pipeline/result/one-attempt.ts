/** The figure of one attempt as a result of its own, for printing it alone. */

import type { StartRule } from '../run/run.ts';
import type { MeasuredValue } from './measures.ts';
import { MEASURES } from './measures.ts';
import type { Attempt, MeasureId, Result } from './result.ts';

/** Counts nothing beside itself; the start rule falls away where none applies. */
export function resultOfOne(
  { value, uncertainty }: MeasuredValue,
  measure: MeasureId,
  startRule: StartRule,
  attempt?: Pick<Attempt, 'id'>,
): Result {
  return {
    measure,
    statistic: 'this',
    ...(MEASURES[measure].fromRest ? { startRule } : {}),
    value,
    ...(uncertainty === undefined ? {} : { uncertainty }),
    n: 1,
    nSetAside: 0,
    median: value,
    among: attempt === undefined ? {} : { attempt: attempt.id },
    attemptIds: attempt === undefined ? [] : [attempt.id],
  };
}
