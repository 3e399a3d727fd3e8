/** The figures at the head of a test, each under both start rules, with uncertainty and count. */

import { MEASURES, measureLabel, measuresOf, stopsFrom, timesFromRest } from '../result/measures.ts';
import { pickResult } from '../result/pick.ts';
import type { House, MeasureId, Result, TestResult } from '../result/result.ts';
import { type PrintedResult, printResult } from '../result/words.ts';
import type { StartRule } from '../run/run.ts';
import { type HouseUnits, houseUnits } from '../speed-unit.ts';

/** In the order of print; what a test did not reach is left out. */
const KEY_MEASURES: Readonly<Record<HouseUnits, readonly MeasureId[]>> = {
  kmh: ['0-100-kmh', '0-60-mph', '0-402-m', '402-m-speed', '80-120-kmh', 'stop-from-100-kmh'],
  mph: ['0-60-mph', '0-402-m', '402-m-speed', '30-70-mph', 'stop-from-70-mph'],
};

/** One measure as printed: best under each rule that applies, and the median under the house's. */
export interface KeyFigure {
  readonly measure: MeasureId;
  readonly label: string;
  readonly best: PrintedResult;
  /** The best under each start rule; absent for figures that are not timed from rest. */
  readonly byRule?: Readonly<Record<StartRule, PrintedResult>>;
  readonly median: PrintedResult;
  /** Kept attempts that reached it. */
  readonly n: number;
  readonly nSetAside: number;
  /** What was picked: best, median. */
  readonly results: readonly Result[];
  /** The best under each start rule, as picked; absent with `byRule`. */
  readonly resultsByRule?: Readonly<Record<StartRule, Result>>;
}

/** @returns undefined where no kept attempt reached the measure */
export function keyFigure(test: TestResult, house: House, measure: MeasureId): KeyFigure | undefined {
  const best = pickResult(test, house, { measure });
  const median = pickResult(test, house, { measure, statistic: 'median' });
  if (best === undefined || median === undefined) return undefined;
  const first = pickResult(test, house, { measure, startRule: 'first-movement' });
  const rollout = pickResult(test, house, { measure, startRule: 'one-foot-rollout' });
  const fromRest = MEASURES[measure].fromRest && first !== undefined && rollout !== undefined;
  return {
    measure,
    label: measureLabel(measure, house),
    best: printResult(best, house),
    ...(fromRest
      ? {
          byRule: {
            'first-movement': printResult(first, house),
            'one-foot-rollout': printResult(rollout, house),
          },
          resultsByRule: { 'first-movement': first, 'one-foot-rollout': rollout },
        }
      : {}),
    median: printResult(median, house),
    n: best.n,
    nSetAside: best.nSetAside,
    results: [best, median],
  };
}

export function keyFigures(test: TestResult, house: House): readonly KeyFigure[] {
  const found = KEY_MEASURES[houseUnits(house)].flatMap(measure => keyFigure(test, house, measure) ?? []);
  const lead = leadFigure(test, house);
  return found.length > 0 || lead === undefined ? found : [lead];
}

/** The one figure a test is announced with, from rest before stops; undefined where it measured nothing. */
export function leadFigure(test: TestResult, house: House): KeyFigure | undefined {
  for (const measure of [...timesFromRest(house), ...stopsFrom(house), ...measuresOf(house)]) {
    const figure = keyFigure(test, house, measure);
    if (figure !== undefined) return figure;
  }
  return undefined;
}
