/** The start of a standing start: first movement, and the instant the car has covered one foot. */
import { exp } from '../elementary.ts';
import type { Run } from '../run/run.ts';
import type { Trace } from '../trace/trace.ts';
import { ROLLOUT_M, STANDARD_GRAVITY_MPS2 } from '../units.ts';
import { creepBefore, withoutCreep } from './creep.ts';
import type { Start } from './measurement.ts';
import { fitOnset } from './onset.ts';
import type { OnsetFit } from './onset-average.ts';
import { layTape } from './tape.ts';
import { type BudgetItem, budget, expanded, rectangular } from './uncertainty.ts';

/** A car leaving rest gently may move for this long before a reading shows it, s. */
const UNNOTICED_S = 0.3;

/**
 * What the family of ramps leaves out, s, one standard deviation: tyres wind up, clutches grab. Set so that the stated
 * intervals cover the truth of simulated starts at every rate.
 */
export const START_MODEL_S = 0.006;

/**
 * Share of the fit's spread that the first foot is uncertain by. The fit trusts its model no further than first
 * movement allows, where the manner of the rise is all there is; the foot is told by the straight part after it.
 * Simulated feet stray from the truth by 0.9 of what the fit says, by as much at every rate, and what strays has
 * nothing to do with what the tape adds (correlations of −0.1 to 0.1): the share belongs here and to no other item.
 */
export const ROLLOUT_SHARE = 0.92;

/** No car on the road covers its first foot sooner, s: 0.3048 m at 1 g (closed form). */
const ROLLOUT_SHORTEST_S = Math.sqrt((2 * ROLLOUT_M) / STANDARD_GRAVITY_MPS2);

/** A start as the other measurements need it. */
export interface FittedStart {
  readonly firstMovementS: number;
  readonly rolloutAtS: number;
  readonly rolloutMps: number;
  /** Standard uncertainties of the two instants, s. */
  readonly firstMovementBudget: readonly BudgetItem[];
  readonly rolloutBudget: readonly BudgetItem[];
  readonly onset: OnsetFit;
  /** Speed of a car that was creeping when it was launched, m/s: the onset was fitted as seen from it. */
  readonly creepMps?: number;
}

/** Undefined where too few readings follow the car's leaving rest. */
export function fitStart(trace: Trace, run: Run): FittedStart | undefined {
  const { timeS } = trace;
  const rest = run.beginIndex;
  const creep = creepBefore(trace, run);
  const onset =
    creep === undefined
      ? fitOnset(trace, rest, 0, run.endIndex)
      : fitOnset(withoutCreep(trace, creep), creep.index, Math.min(creep.index - 1, rest + 1), run.endIndex);
  if (onset === undefined) return undefined;
  // Between the last reading at rest and the next the car has left, whatever a fit through few readings says.
  const first =
    creep === undefined
      ? withinBounds(onset.atS, onset.sdS, timeS[rest]! - UNNOTICED_S, timeS[rest + 1]!)
      : { mean: onset.atS, sd: onset.sdS };
  const firstMovementS = first.mean;
  const covered = creep && layTape(trace, firstMovementS, creep.speedMps);
  const fittedS = covered?.timeOf(ROLLOUT_M, run.endIndex) ?? onset.rolloutAtS;
  const rolloutAtS = Math.max(fittedS, firstMovementS + ROLLOUT_SHORTEST_S);
  const around = 1 / trace.rateHz;
  const gapS = Math.hypot(
    ...trace.gaps
      .filter(gap => gap.toS > firstMovementS - around && gap.fromS < rolloutAtS + around)
      .map(gap => rectangular(gap.toS - gap.fromS)),
  );
  const shared = { 'held-values': rectangular(trace.heldS ?? 0), gap: gapS };
  return {
    firstMovementS,
    rolloutAtS,
    rolloutMps: covered?.speedAt(rolloutAtS) ?? onset.rolloutMps,
    firstMovementBudget: budget({ start: Math.hypot(START_MODEL_S, first.sd), ...shared }),
    rolloutBudget: budget({
      rollout: Math.max(ROLLOUT_SHARE * onset.rolloutSdS, rolloutAtS - fittedS),
      ...shared,
    }),
    onset: onset.fit,
    ...(creep === undefined ? {} : { creepMps: creep.speedMps }),
  };
}

/** Mean and standard deviation of a normal distribution that is cut off at both ends, by summation. */
function withinBounds(
  mean: number,
  sd: number,
  lowest: number,
  highest: number,
): { mean: number; sd: number } {
  const steps = 200;
  const spread = Math.max(sd, (highest - lowest) / steps);
  let total = 0;
  let first = 0;
  let second = 0;
  for (let k = 0; k < steps; k++) {
    const offset = ((k + 0.5) / steps) * (highest - lowest);
    // Relative to the nearest allowed value, so that a mean far outside does not vanish to nothing.
    const nearest = Math.min(highest, Math.max(lowest, mean));
    const weight = exp(((nearest - mean) ** 2 - (lowest + offset - mean) ** 2) / (2 * spread * spread));
    total += weight;
    first += weight * offset;
    second += weight * offset * offset;
  }
  const centre = first / total;
  const within = Math.sqrt(Math.max(0, second / total - centre * centre));
  const untouched = mean - lowest > 4 * spread && highest - mean > 4 * spread;
  return untouched ? { mean, sd } : { mean: lowest + centre, sd: within };
}

/** The start as published; its uncertainty is that of first movement. */
export function startFigure(start: FittedStart): Start {
  return {
    firstMovementS: start.firstMovementS,
    rolloutS: start.rolloutAtS - start.firstMovementS,
    uncertaintyS: expanded(start.firstMovementBudget),
  };
}
