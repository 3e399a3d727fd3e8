/**
 * What a receiver's filter may do to a figure, and what working speed out from positions may. Speeds come late by about the filter's time constant; how much of that
 * is left in a figure depends on whether both of its ends are late alike. Nothing is corrected: the share that may be
 * left is an item of the budget.
 */
import { log } from '../elementary.ts';
import type { ClockRule } from '../run/run.ts';
import type { Trace } from '../trace/trace.ts';
import type { BudgetItem } from './uncertainty.ts';

/**
 * Shares of the time constant taken as standard uncertainty. Chosen so that twice the share covers how far simulated
 * figures come out behind first-order filters of 0.05 to 0.2 s: 0.2 to 1.3 of it from first movement, the more the
 * lower the rate; about 0.15 after one foot; 1.1 to 2.6 for the time of a stop, 0.2 to 0.33 for its distance. From first movement only the end is late, for the rise begins when it begins; after one foot, and
 * between two speeds, both ends are.
 */
export const LAG_SHARES = {
  'first-movement': 0.65,
  'one-foot-rollout': 0.2,
  rolling: 0.2,
  /** Stopping distance, times the speed it begins at. */
  distance: 0.24,
  /** Time of a stop: speed falls to rest by the filter's own curve. */
  stop: 1.5,
  /** Mean fully developed deceleration, m/s² for each second of the time constant: what is left of the brakes’ coming on. */
  mfdd: 0.1,
} as const;

/**
 * Standard uncertainties where speed was worked out from positions: the difference smooths the start and the stop, and
 * the scatter of positions is not white. Set from how far simulated figures of four kinds of car, at 1, 5 and 10 Hz,
 * came out from those of the recorded speed of the same drives; a real receiver's positions may be worse.
 */
export const DERIVED_SPEED = {
  'first-movement': 0.18,
  'one-foot-rollout': 0.2,
  rolling: 0.1,
  /** Stopping distance, s, times the speed it begins at. */
  distance: 0.025,
  /** Time of a stop, s. */
  stop: 0.25,
  /** Mean fully developed deceleration, m/s². */
  mfddMps2: 0.2,
} as const;

/**
 * What a first-order filter of τ takes off a speed that rises at a and then falls at b: b τ ln(1 + a/b), the closed
 * form. A top between is lower by no more than that.
 *
 * @param rise before the top and `fall` after it, m/s², both positive
 * @returns m/s
 */
export function topLostMps(filterS: number, rise: number, fall: number): number {
  return rise <= 0 || fall <= 0 ? 0 : fall * filterS * log(1 + rise / fall);
}

/** Of a time under a start rule, or between two speeds; s. */
export function lagBudget(trace: Trace, rule: ClockRule): BudgetItem[] {
  return lateOrDerived(trace, LAG_SHARES[rule], DERIVED_SPEED[rule]);
}

/** Of a stop: its time, s, or its distance from a speed, m. */
export function lagOfStop(trace: Trace, figure: 'stop' | 'distance', times = 1): BudgetItem[] {
  return lateOrDerived(trace, LAG_SHARES[figure] * times, DERIVED_SPEED[figure] * times);
}

/** Of a mean fully developed deceleration, m/s². */
export const lagOfMfdd = (trace: Trace): BudgetItem[] =>
  lateOrDerived(trace, LAG_SHARES.mfdd, DERIVED_SPEED.mfddMps2);

function lateOrDerived(trace: Trace, lagShare: number, derived: number): BudgetItem[] {
  return [
    ...(trace.filterS === undefined ? [] : [{ source: 'lag' as const, standard: lagShare * trace.filterS }]),
    ...(isDerived(trace) ? [{ source: 'position' as const, standard: derived }] : []),
  ];
}

/** Whether the log held positions and no speed. */
export const isDerived = (trace: Trace): boolean => trace.speedSource === 'derived-from-position';
