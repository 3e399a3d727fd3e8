/** The start of a standing start: first movement, and the instant the car has covered one foot. */
import type { Run } from '../run/run.ts';
import type { Trace } from '../trace/trace.ts';
import type { Start } from './measurement.ts';
import { fitOnset } from './onset.ts';
import { type BudgetItem, budget, expanded, rectangular } from './uncertainty.ts';

/** A car leaving rest gently may move for this long before a reading shows it, s. */
const UNNOTICED_S = 0.5;

/** No log tells the instant of first movement better than this, s: tyres wind up before the car moves. */
const UNRESOLVED_S = 0.002;

/** A start as the other measurements need it. */
export interface FittedStart {
  readonly firstMovementS: number;
  readonly rolloutAtS: number;
  readonly rolloutMps: number;
  /** Standard uncertainties of the two instants, s. */
  readonly firstMovementBudget: readonly BudgetItem[];
  readonly rolloutBudget: readonly BudgetItem[];
}

/** Undefined where too few readings follow the car's leaving rest. */
export function fitStart(trace: Trace, run: Run): FittedStart | undefined {
  const { timeS } = trace;
  const rest = run.beginIndex;
  const onset = fitOnset(timeS, trace.speedMps, rest, 0, run.endIndex, trace.noiseMps);
  if (onset === undefined) return undefined;
  // Between the last reading at rest and the next the car has left, whatever a fit through few readings says.
  const earliestS = timeS[rest]! - UNNOTICED_S;
  const latestS = timeS[rest + 1]!;
  const firstMovementS = Math.min(latestS, Math.max(earliestS, onset.atS));
  const mostS = rectangular(latestS - earliestS);
  const around = 1 / trace.rateHz;
  const gapS = Math.hypot(
    ...trace.gaps
      .filter(gap => gap.toS > firstMovementS - around && gap.fromS < onset.rolloutAtS + around)
      .map(gap => rectangular(gap.toS - gap.fromS)),
  );
  const shared = { 'held-values': rectangular(trace.heldS ?? 0), gap: gapS };
  return {
    firstMovementS,
    rolloutAtS: onset.rolloutAtS,
    rolloutMps: onset.rolloutMps,
    firstMovementBudget: budget({ start: Math.max(UNRESOLVED_S, Math.min(onset.sdS, mostS)), ...shared }),
    rolloutBudget: budget({ rollout: Math.min(onset.rolloutSdS, mostS), ...shared }),
  };
}

/** The start as published; its uncertainty is that of first movement. */
export function startFigure(start: FittedStart): Start {
  return {
    firstMovementS: start.firstMovementS,
    rolloutS: start.rolloutAtS - start.firstMovementS,
    uncertaintyS: expanded(start.firstMovementBudget),
  };
}
