/** The start of a standing start: the readings around it, the fitted instants, and a ruler laid through two readings. */
import { CLOCK_THRESHOLD_MPS } from '../measurement/threshold-clock.ts';
import { type BudgetItem, combined } from '../measurement/uncertainty.ts';
import type { Attempt } from '../result/result.ts';
import type { Trace } from '../trace/trace.ts';
import { type FitWorkings, fitWorkings } from './fit.ts';
import { type Reading, readingAt, readingsBetween } from './readings.ts';

/** Readings before first movement and after the first foot that are shown, s; more where the rate is low. */
const BEFORE_S = 0.3;
const AFTER_S = 0.4;
const FEWEST_EITHER_SIDE = 3;
/** Rows of the table at most: at high rates every so many readings would say no more. */
const MOST_READINGS = 40;

export interface StartWorkings {
  readonly readings: readonly Reading[];
  readonly firstMovementS: number;
  readonly rolloutAtS: number;
  /** Speed where the first foot ends, m/s. */
  readonly rolloutMps: number;
  /** Standard uncertainties of the two instants, s. */
  readonly firstMovementBudget: readonly BudgetItem[];
  readonly rolloutBudget: readonly BudgetItem[];
  readonly fit: FitWorkings;
  /** The straight line through two readings, drawn back to rest; absent where the second is not the faster. */
  readonly ruler?: { readonly from: Reading; readonly to: Reading; readonly meetsS: number };
}

/** Undefined for anything but a standing start whose start could be fitted. */
export function startWorkings({ trace, measurement }: Attempt): StartWorkings | undefined {
  const { run } = measurement;
  const published = run.kind === 'standing-start' ? measurement.start : undefined;
  const fitted = published && measurement.fits?.start;
  if (published === undefined || fitted === undefined) return undefined;
  const { rolloutMps, firstMovementBudget, rolloutBudget, onset, creepMps } = fitted;
  const { firstMovementS } = published;
  const rolloutAtS = firstMovementS + published.rolloutS;
  const ruler = rulerOf(trace, run.beginIndex, run.endIndex);
  const readings = readingsAround(trace, firstMovementS, rolloutAtS);
  return {
    readings,
    firstMovementS,
    rolloutAtS,
    rolloutMps,
    firstMovementBudget,
    rolloutBudget,
    fit: fitWorkings(trace, onset, readings, creepMps),
    ...(ruler === undefined ? {} : { ruler }),
  };
}

function readingsAround(trace: Trace, fromS: number, toS: number): readonly Reading[] {
  const { timeS } = trace;
  let first = 0;
  while (first + 1 < timeS.length && timeS[first + 1]! <= fromS) first++;
  let last = first;
  while (last + 1 < timeS.length && timeS[last]! < toS) last++;
  const [between, rest] = [first, last];
  while (first > 0 && (between - first < FEWEST_EITHER_SIDE || fromS - timeS[first]! < BEFORE_S)) first--;
  while (
    last + 1 < timeS.length &&
    (last - rest < FEWEST_EITHER_SIDE || timeS[last]! - toS < AFTER_S) &&
    last - first + 1 < MOST_READINGS
  )
    last++;
  return readingsBetween(trace, first, last);
}

/** Through the first reading at or over 1 km/h and the one after it. */
function rulerOf(trace: Trace, begin: number, end: number): StartWorkings['ruler'] {
  for (let i = begin; i < end; i++) {
    if (trace.speedMps[i]! < CLOCK_THRESHOLD_MPS) continue;
    const from = readingAt(trace, i);
    const to = readingAt(trace, i + 1);
    const slope = (to.speedMps - from.speedMps) / (to.timeS - from.timeS);
    return slope > 0 ? { from, to, meetsS: from.timeS - from.speedMps / slope } : undefined;
  }
  return undefined;
}

/** Instant the clock of a rule starts, s of the log. */
export const clockStartS = (start: StartWorkings, rule: 'first-movement' | 'one-foot-rollout'): number =>
  rule === 'first-movement' ? start.firstMovementS : start.rolloutAtS;

/** Standard uncertainty of the instant a rule's clock starts, s. */
export const clockStandardS = (start: StartWorkings, rule: 'first-movement' | 'one-foot-rollout'): number =>
  combined(rule === 'first-movement' ? start.firstMovementBudget : start.rolloutBudget);
