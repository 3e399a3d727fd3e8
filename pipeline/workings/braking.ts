/** Workings of stopping distances and of mean fully developed decelerations. */
import {
  brakingOnset,
  MFDD_LOWER_SHARE,
  MFDD_UPPER_SHARE,
  passedUnderBrakes,
} from '../measurement/braking.ts';
import { type Crossing, fallingThrough } from '../measurement/crossing.ts';
import { crossingBudget } from '../measurement/crossing-budget.ts';
import type { BrakingFigure } from '../measurement/measurement.ts';
import { betweenCrossings, layTape } from '../measurement/tape.ts';
import { type BudgetItem, combined } from '../measurement/uncertainty.ts';
import { MEASURES, measureIds } from '../result/measures.ts';
import type { Attempt, MeasureId } from '../result/result.ts';
import type { Trace } from '../trace/trace.ts';
import { crossingWorkings } from './crossing.ts';
import { methodOfMeasure } from './method.ts';
import { stopWorkings } from './stop.ts';
import type { WorkedFigure } from './workings.ts';

const measuredBy = (method: 'stopping-distance' | 'mfdd'): readonly MeasureId[] =>
  measureIds.filter(id => methodOfMeasure(id) === method);
const STOPS = measuredBy('stopping-distance');
const MFDDS = measuredBy('mfdd');

export function brakingWorkings({ trace, measurement }: Attempt, receiverMps: number): WorkedFigure[] {
  const { braking } = measurement.run;
  const stop = measurement.fits?.stop;
  if (braking === undefined || stop === undefined) return [];
  const onset = brakingOnset(trace, braking.beginIndex, braking.endIndex);
  const falling = (speedMps: number): Crossing | undefined =>
    fallingThrough(trace, onset, braking.endIndex, speedMps);
  const which = (figure: BrakingFigure, ids: readonly MeasureId[]): MeasureId | undefined =>
    ids.find(id => MEASURES[id].valueOf({ ...measurement, braking: [figure] }) !== undefined);

  return measurement.braking.flatMap((figure): WorkedFigure[] => {
    const { fromMps } = figure;
    const from = passedUnderBrakes(trace, onset, measurement.run, fromMps);
    if (from === undefined) return [];
    const passedS = stop.atS - figure.timeS;
    const tape = layTape(trace, passedS, fromMps, receiverMps);
    const measure = which(figure, STOPS);
    const mfdd = which(figure, MFDDS);
    const upper = falling(MFDD_UPPER_SHARE * fromMps);
    const lower = falling(MFDD_LOWER_SHARE * fromMps);
    return [
      ...(measure === undefined
        ? []
        : [
            {
              measure,
              steps: {
                kind: 'stop' as const,
                begin: crossingWorkings(trace, from, fromMps, passedS),
                stop: stopWorkings(trace, stop, tape.at),
              },
              ...(figure.budget === undefined ? {} : { budget: figure.budget }),
            },
          ]),
      ...(mfdd === undefined || upper === undefined || lower === undefined
        ? []
        : [developed(trace, mfdd, figure, upper, lower, receiverMps)]),
    ];
  });
}

/** The budget is that of the length, m; a metre of it is `budgetFactor` of the deceleration. */
function developed(
  trace: Trace,
  measure: MeasureId,
  { fromMps, mfddMps2 = Number.NaN }: BrakingFigure,
  upper: Crossing,
  lower: Crossing,
  receiverMps: number,
): WorkedFigure {
  const upperMps = MFDD_UPPER_SHARE * fromMps;
  const lowerMps = MFDD_LOWER_SHARE * fromMps;
  const tape = layTape(trace, upper.timeS, upperMps, receiverMps);
  const lengthM = (upperMps ** 2 - lowerMps ** 2) / (2 * mfddMps2);
  const passing = (crossing: Crossing, mps: number): BudgetItem => ({
    source: 'interpolation',
    standard: mps * combined(crossingBudget(trace, crossing, receiverMps)),
  });
  return {
    measure,
    steps: {
      kind: 'mfdd',
      begin: crossingWorkings(trace, upper, upperMps),
      finish: crossingWorkings(trace, lower, lowerMps),
      lengthM,
    },
    budget: [
      ...betweenCrossings(tape.uncertaintyAt(lower.timeS)),
      passing(upper, upperMps),
      passing(lower, lowerMps),
    ],
    budgetFactor: mfddMps2 / lengthM,
  };
}
