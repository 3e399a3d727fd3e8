/** The splits of one run as a running plate shows them: what is printed, and the instant each is reached. */

import { MEASURES, measureLabel, measuresOf } from '../result/measures.ts';
import { pickResult } from '../result/pick.ts';
import type { Attempt, House, MeasureId, Result, TestResult } from '../result/result.ts';
import { type PrintedResult, printResult } from '../result/words.ts';
import type { StartRule } from '../run/run.ts';
import { type HouseUnits, houseUnits } from '../speed-unit.ts';

export interface RunSplit {
  readonly measure: MeasureId;
  /** As printed, such as `0–100 km/h`. */
  readonly label: string;
  readonly printed: PrintedResult;
  /** The published figure on the start rule's clock, s, not rounded. */
  readonly timeS: number;
  /** Since first movement, s, whatever the start rule. */
  readonly afterMovementS: number;
  /** Place in the order of importance, from 0; absent where a plate never shows it unasked. */
  readonly rank?: number;
}

/** Times from rest, in the order of importance; a plate has room for the first of these that the run has. */
const WANTED: Readonly<Record<HouseUnits, readonly MeasureId[]>> = {
  kmh: ['0-100-kmh', '0-50-kmh', '0-402-m', '0-80-kmh', '0-130-kmh', '0-160-kmh', '0-30-kmh', '0-100-m'],
  mph: ['0-60-mph', '0-30-mph', '0-402-m', '0-50-mph', '0-80-mph', '0-100-mph', '0-100-m'],
};
const MOST = 4;

/** Seconds the start rule's clock begins after first movement; 0 without a measured start. */
export function clockBeginsS({ measurement }: Attempt, startRule: StartRule): number {
  return startRule === 'one-foot-rollout' ? (measurement.start?.rolloutS ?? 0) : 0;
}

/** Every time from rest that this run reached, by the instant it was reached. */
export function splitsReached(
  test: TestResult,
  attempt: Attempt,
  house: House,
  startRule: StartRule,
): readonly RunSplit[] {
  const beginsS = clockBeginsS(attempt, startRule);
  return measuresOf(house)
    .filter(id => MEASURES[id].fromRest && MEASURES[id].unit === 's')
    .flatMap((id): RunSplit[] => {
      const result = resultOf(test, attempt, house, startRule, id);
      if (result === undefined) return [];
      const { value: timeS } = result;
      const printed = printResult(result, house);
      const rank = WANTED[houseUnits(house)].indexOf(id);
      return [
        {
          measure: id,
          label: measureLabel(id, house),
          printed,
          timeS,
          afterMovementS: timeS + beginsS,
          ...(rank < 0 ? {} : { rank }),
        },
      ];
    })
    .sort((a, b) => a.afterMovementS - b.afterMovementS);
}

/** The published figure of a kept attempt; of one set aside its own, which is published nowhere else. */
function resultOf(
  test: TestResult,
  attempt: Attempt,
  house: House,
  startRule: StartRule,
  measure: MeasureId,
): Result | undefined {
  if (attempt.setAside === undefined) {
    return pickResult(test, house, { measure, startRule, attempt: attempt.id });
  }
  const measured = MEASURES[measure].valueOf(attempt.measurement, startRule);
  if (measured === undefined) return undefined;
  return {
    measure,
    statistic: 'this',
    startRule,
    ...measured,
    n: 1,
    nSetAside: 1,
    median: measured.value,
    among: { attempt: attempt.id },
    attemptIds: [attempt.id],
  };
}

/** The few splits a plate has room for, of those reached up to and with `last`, by the instant they are reached. */
export function splitsShown(reached: readonly RunSplit[], last: RunSplit): readonly RunSplit[] {
  const before = reached.filter(
    split => split !== last && split.afterMovementS < last.afterMovementS && split.rank !== undefined,
  );
  const shown = new Set([...before].sort((a, b) => a.rank! - b.rank!).slice(0, MOST - 1));
  return [...before.filter(split => shown.has(split)), last];
}

/** The split that ends the clock where none is asked for: the last of the wanted ones, or the last of all. */
export function lastSplit(reached: readonly RunSplit[]): RunSplit | undefined {
  return reached.findLast(({ rank }) => rank !== undefined) ?? reached.at(-1);
}
