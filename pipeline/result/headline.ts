/** The figure a day of standing starts is told by. */
import { timesFromRest } from './measures.ts';
import { pickResult } from './pick.ts';
import type { Attempt, House, MeasureId, TestResult } from './result.ts';

/** Whether an attempt begins at rest with a start that could be measured. */
export const fromRest = (attempt: Attempt): boolean =>
  attempt.measurement.run.kind === 'standing-start' && attempt.measurement.start !== undefined;

export const isKept = (attempt: Attempt): boolean => attempt.setAside === undefined;

/**
 * 0–100 km/h or 0–60 mph by the house's unit, or the highest speed below it that at least half of the kept standing starts reached.
 * Undefined where there is none.
 */
export function headlineMeasure(test: TestResult, house: House): MeasureId | undefined {
  const starts = test.attempts.filter(attempt => isKept(attempt) && fromRest(attempt)).length;
  return timesFromRest(house).find(
    measure => (pickResult(test, house, { measure })?.n ?? 0) * 2 >= Math.max(1, starts),
  );
}
