/** The figures of one run, SI, at full double precision. A figure that was not reached is absent. */

import type { ClockRule, Run } from '../run/run.ts';
import type { FlagCode, FlagFacts } from './flag-words.ts';
import type { FittedStart } from './start.ts';
import type { Stop } from './stop.ts';
import type { BudgetItem } from './uncertainty.ts';

/** Instants on the log's own clock; `uncertaintyS` is expanded, k = 2. */
export interface Start {
  /** Estimated instant the car leaves rest, s. */
  readonly firstMovementS: number;
  /** Time spent on the first 0.3048 m, s. */
  readonly rolloutS: number;
  readonly uncertaintyS: number;
}

export interface SpeedSplit {
  readonly fromMps: number;
  readonly toMps: number;
  readonly startRule: ClockRule;
  readonly timeS: number;
  /** Expanded, k = 2. */
  readonly uncertaintyS: number;
  readonly distanceM: number;
  /** Standard uncertainties of the time, s, item by item. */
  readonly budget?: readonly BudgetItem[];
}

export interface DistanceSplit {
  readonly toM: number;
  readonly startRule: ClockRule;
  readonly timeS: number;
  readonly uncertaintyS: number;
  /** Speed at the line, m/s. */
  readonly speedMps: number;
  /** Standard uncertainties of the time, s, item by item. */
  readonly budget?: readonly BudgetItem[];
  /** Expanded, k = 2; absent where none can be stated. */
  readonly speedUncertaintyMps?: number;
}

export interface BrakingFigure {
  readonly fromMps: number;
  readonly toMps: 0;
  readonly distanceM: number;
  readonly uncertaintyM: number;
  /** Mean fully developed deceleration, m/s² (UN R13-H Annex 3). */
  readonly mfddMps2?: number;
  readonly mfddUncertaintyMps2?: number;
  readonly timeS: number;
  readonly timeUncertaintyS?: number;
  /** Standard uncertainties of the distance, m, item by item. */
  readonly budget?: readonly BudgetItem[];
}

export interface Flag {
  /** Permanent short name: `gap`, `low-rate`, `held-values`, `noisy`, `slope`, `poor-fix`, … */
  readonly code: string;
  /** In English; `flagText` in `flag-words.ts` says it in the reader's language. */
  readonly text: string;
  /** The numbers it tells, for saying it in another language. */
  readonly facts?: FlagFacts[FlagCode];
}

/** The fits behind start and stop, so that what shows how a figure came about need not fit again. */
export interface Fits {
  /** Of a standing start. */
  readonly start?: FittedStart;
  /** Of a run that brakes to rest. */
  readonly stop?: Stop;
}

export interface RunMeasurement {
  readonly run: Run;
  readonly beginsS: number;
  readonly endsS: number;
  readonly start?: Start;
  readonly speedSplits: readonly SpeedSplit[];
  readonly distanceSplits: readonly DistanceSplit[];
  readonly braking: readonly BrakingFigure[];
  readonly peakMps2: number;
  readonly peakUncertaintyMps2?: number;
  readonly topMps: number;
  readonly topUncertaintyMps?: number;
  readonly flags: readonly Flag[];
  /** Absent where figures were not measured from a trace. */
  readonly fits?: Fits;
}
