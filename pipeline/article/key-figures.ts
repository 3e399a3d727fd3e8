/** The figures at the head of a test, each under both start rules, with uncertainty and count. */
import { MEASURES, measureIds, measureLabel } from '../result/measures.ts';
import { pickResult } from '../result/pick.ts';
import type { House, MeasureId, Result, TestResult } from '../result/result.ts';
import { type PrintedResult, printResult } from '../result/words.ts';
import type { StartRule } from '../run/run.ts';

/** In the order of print; what a test did not reach is left out. */
const KEY_MEASURES: readonly MeasureId[] = [
  '0-100-kmh',
  '0-60-mph',
  '0-402-m',
  '402-m-speed',
  '80-120-kmh',
  'stop-from-100-kmh',
];
/** Asked in turn where a test reached none of the key measures, or where the lead needs one. */
const LEAD_MEASURES: readonly MeasureId[] = [
  '0-100-kmh',
  '0-80-kmh',
  '0-60-kmh',
  '0-50-kmh',
  'stop-from-100-kmh',
  'stop-from-80-kmh',
  'stop-from-50-kmh',
];

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
  const found = KEY_MEASURES.flatMap(measure => keyFigure(test, house, measure) ?? []);
  const lead = leadFigure(test, house);
  return found.length > 0 || lead === undefined ? found : [lead];
}

/** The one figure a test is announced with; undefined where it measured nothing. */
export function leadFigure(test: TestResult, house: House): KeyFigure | undefined {
  for (const measure of [...LEAD_MEASURES, ...measureIds]) {
    const figure = keyFigure(test, house, measure);
    if (figure !== undefined) return figure;
  }
  return undefined;
}
