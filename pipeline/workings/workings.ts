/**
 * The workings behind the figures of one attempt: the readings, the crossing, the start and the budget, so that a
 * reader can redo each figure with a calculator. SI throughout, times on the log's own clock, nothing rounded.
 *
 * Nothing is measured anew by other means: what stands here comes from the functions that measured the attempt.
 */
import type { MethodId } from '../measurement/methods.ts';
import type { BudgetItem } from '../measurement/uncertainty.ts';
import { MEASURES, measureIds } from '../result/measures.ts';
import type { Attempt, MeasureId, TestResult } from '../result/result.ts';
import { workingsAnchor } from '../result/workings-address.ts';
import type { StartRule } from '../run/run.ts';
import { kmhToMps } from '../units.ts';
import { brakingWorkings } from './braking.ts';
import type { CrossingWorkings } from './crossing.ts';
import { distanceWorkings, type LineWorkings } from './distance.ts';
import { type PeakWorkings, peakWorkings, type TopWorkings, topWorkings } from './greatest.ts';
import { methodOfMeasure } from './method.ts';
import { rollingWorkings } from './rolling.ts';
import { speedWorkings } from './speed.ts';
import { type StartWorkings, startWorkings } from './start.ts';
import { type RestWorkings, restWorkings, type StopWorkings } from './stop.ts';

/** A time from rest to a speed. */
export interface SpeedSteps {
  readonly kind: 'speed';
  readonly fromS: number;
  readonly finish: CrossingWorkings;
}
/** A time over a distance from rest, or the speed at its end. */
export interface DistanceSteps {
  readonly kind: 'distance';
  readonly fromS: number;
  readonly finish: LineWorkings;
}
/** A time between two speeds of a car already rolling. */
export interface RollingSteps {
  readonly kind: 'rolling';
  readonly begin: CrossingWorkings;
  readonly finish: CrossingWorkings;
}
/** A stopping distance. */
export interface StopSteps {
  readonly kind: 'stop';
  readonly begin: CrossingWorkings;
  readonly stop: StopWorkings;
}
/** A mean fully developed deceleration. */
export interface MfddSteps {
  readonly kind: 'mfdd';
  readonly begin: CrossingWorkings;
  readonly finish: CrossingWorkings;
  readonly lengthM: number;
}
export interface PeakSteps extends PeakWorkings {
  readonly kind: 'peak';
}
export interface TopSteps extends TopWorkings {
  readonly kind: 'top';
}
export type Steps = SpeedSteps | DistanceSteps | RollingSteps | StopSteps | MfddSteps | PeakSteps | TopSteps;

/** A figure as a stage of the workings gives it, before it has its words. */
export interface WorkedFigure {
  readonly measure: MeasureId;
  readonly startRule?: StartRule;
  readonly steps: Steps;
  /** Standard uncertainties in `budgetUnit`; absent where none can be stated. */
  readonly budget?: readonly BudgetItem[];
  /** What a unit of the budget is of the figure; 1 unless told (MFDD: m/s² a metre of its length). */
  readonly budgetFactor?: number;
}

export interface FigureWorkings extends WorkedFigure {
  readonly anchor: string;
  readonly method: MethodId;
  /** As published, SI. */
  readonly value: number;
  /** Expanded, k = 2. */
  readonly uncertainty?: number;
}

export interface Workings {
  readonly testId: string;
  readonly attempt: Attempt;
  readonly logSha256?: string;
  /** First and last line of the log that the run lies between. */
  readonly lines: readonly [number, number];
  /** Of standing starts. */
  readonly start?: StartWorkings;
  /** Of runs that brake to rest and have a figure of it. */
  readonly rest?: RestWorkings;
  /** In the order figures are printed; those from rest under both start rules. */
  readonly figures: readonly FigureWorkings[];
}

/** Everything behind the figures of one attempt, kept or set aside. */
export function workingsOf(test: TestResult, attempt: Attempt): Workings {
  const { trace, measurement } = attempt;
  const { run } = measurement;
  const accuracy = test.content.receiver.speed_accuracy_kmh;
  const receiverMps = accuracy === undefined ? 0 : kmhToMps(accuracy);
  const start = startWorkings(attempt);
  const worked = [
    ...(start === undefined ? [] : speedWorkings(attempt, start)),
    ...(start === undefined ? [] : distanceWorkings(attempt, start)),
    ...rollingWorkings(attempt),
    ...brakingWorkings(attempt, receiverMps),
    ...peakWorkings(attempt),
    ...topWorkings(attempt, receiverMps),
  ];
  const figures = worked.flatMap((figure): FigureWorkings[] => {
    const value = MEASURES[figure.measure].valueOf(measurement, figure.startRule);
    if (value === undefined) return [];
    return [
      {
        ...figure,
        ...value,
        anchor: workingsAnchor(figure.measure, figure.startRule),
        method: methodOfMeasure(figure.measure),
      },
    ];
  });
  const stop = measurement.fits?.stop;
  const stops = figures.some(({ steps }) => steps.kind === 'stop');
  const hash = test.logSha256[attempt.log];
  return {
    testId: test.id,
    attempt,
    ...(hash === undefined ? {} : { logSha256: hash }),
    lines: [trace.line[run.beginIndex]!, trace.line[run.endIndex]!],
    ...(start === undefined ? {} : { start }),
    ...(stop === undefined || !stops ? {} : { rest: restWorkings(trace, stop) }),
    figures: figures.sort((a, b) => measureIds.indexOf(a.measure) - measureIds.indexOf(b.measure)),
  };
}
