/**
 * What a receiver's filter may do to a figure. Speeds come late by about the filter's time constant; how much of that
 * is left in a figure depends on whether both of its ends are late alike. Nothing is corrected: the share that may be
 * left is an item of the budget.
 */
import type { ClockRule } from '../run/run.ts';
import type { Trace } from '../trace/trace.ts';
import type { BudgetItem } from './uncertainty.ts';

/**
 * Shares of the time constant taken as standard uncertainty. Chosen so that twice the share covers how far simulated
 * figures come out behind first-order filters of 0.05 and 0.1 s: 0.2 to 1.3 of it from first movement, the more the
 * lower the rate; about 0.15 after one foot; 1.1 to 1.8 for the time of a stop. From first movement only the end is late, for the rise begins when it begins; after one foot, and
 * between two speeds, both ends are.
 */
export const LAG_SHARES = {
  'first-movement': 0.65,
  'one-foot-rollout': 0.2,
  rolling: 0.2,
  /** Stopping distance, times the speed it begins at. */
  distance: 0.15,
  /** Time of a stop: speed falls to rest by the filter's own curve. */
  stop: 1.2,
} as const;

/** Of a time under a start rule, or between two speeds; s. */
export function lagBudget(trace: Trace, rule: ClockRule): BudgetItem[] {
  return trace.filterS === undefined ? [] : [{ source: 'lag', standard: LAG_SHARES[rule] * trace.filterS }];
}

/** Of a figure of a stop, in the unit of `share` times seconds. */
export function lagOfStop(trace: Trace, share: number): BudgetItem[] {
  return trace.filterS === undefined ? [] : [{ source: 'lag', standard: share * trace.filterS }];
}
