/** How a car gained and lost speed on the first runs of a day, brought to a level road, for the plan of the next. */
import { kmhToMps, STANDARD_GRAVITY_MPS2 } from '../units.ts';
import { type Edges, eachEdge } from './plan.ts';

/** One standing start as measured: readings from first movement to the end of the pull, in the order of time. */
export interface MeasuredStart {
  readonly speedMps: ArrayLike<number>;
  /** From first movement, m. */
  readonly distanceM: ArrayLike<number>;
  /** Mean rise of the road in the driven direction, a fraction; taken as level where absent. */
  readonly slope?: number;
  /** Along the run, positive against the car; still air where absent. */
  readonly headwindMps?: number;
  readonly densityKgm3?: number;
  /** Mass with what turns, over mass; 1 where absent. */
  readonly apparentMass?: number;
}

/** Acceleration of the day's starts on a level road in still air, by steps of speed. */
export interface MeasuredPull {
  /** Mean of each step, m/s²; step i goes from i to i + 1 times `PULL_STEP_MPS`. */
  readonly stepsMps2: readonly number[];
  readonly toMps: number;
  readonly runs: number;
  /** Relative uncertainty of the distances: how far the runs lie apart, and what is not known of their slope. */
  readonly uncertainty: number;
}

export const PULL_STEP_MPS = kmhToMps(5);
/** Least relative uncertainty of several runs, and that of a single one (our own estimates). */
const LEAST_UNCERTAINTY = 0.02;
const SINGLE_UNCERTAINTY = 0.08;
/**
 * Share of what a slope did to a run that is not known: in low gears the engine turns with it and takes up to a third
 * (1.04 + 0.0025 i², a handbook fit, from memory).
 */
const SLOPE_SHARE = 0.3;

/**
 * Mean of the distances that the runs took for each step of speed, so that the plan's distances on the road of the
 * day are the measured ones, gear changes included. Undefined where no run passes the first step.
 * @param drag drag area (m²) and mass (kg) for taking the wind out; without it wind stays in.
 */
export function measuredPull(
  starts: readonly MeasuredStart[],
  drag?: { readonly dragAreaM2: number; readonly massKg: number },
): MeasuredPull | undefined {
  const laid = starts.map(start => stepLengths(start, drag)).filter(({ length }) => length > 0);
  if (laid.length === 0) return undefined;
  const longest = Math.max(...laid.map(({ length }) => length));
  const stepsMps2 = Array.from({ length: longest }, (_, i) => {
    const lengths = laid.flatMap(steps => steps[i] ?? []);
    const meanM = lengths.reduce((sum, length) => sum + length, 0) / lengths.length;
    return stepEnergy(i) / meanM;
  });
  const common = Math.min(...laid.map(({ length }) => length));
  const totals = laid.map(steps => steps.slice(0, common).reduce((sum, length) => sum + length, 0));
  const mean = totals.reduce((sum, total) => sum + total, 0) / totals.length;
  const range = Math.max(...totals) - Math.min(...totals);
  const spread = laid.length === 1 ? SINGLE_UNCERTAINTY : Math.max(LEAST_UNCERTAINTY, range / mean);
  const steepest = Math.max(...starts.map(({ slope = 0 }) => Math.abs(slope)));
  const meanMps2 = (common * PULL_STEP_MPS) ** 2 / (2 * mean);
  return {
    stepsMps2,
    toMps: longest * PULL_STEP_MPS,
    runs: laid.length,
    uncertainty: spread + (SLOPE_SHARE * STANDARD_GRAVITY_MPS2 * steepest) / meanMps2,
  };
}

/** Kinetic energy of a step, J/kg. */
const stepEnergy = (i: number): number => (((i + 1) * PULL_STEP_MPS) ** 2 - (i * PULL_STEP_MPS) ** 2) / 2;

/** Distances that the steps would have taken on a level road in still air, m, as far as the run goes. */
function stepLengths(
  { speedMps, distanceM, slope = 0, headwindMps = 0, densityKgm3 = 1.2, apparentMass = 1 }: MeasuredStart,
  drag: { readonly dragAreaM2: number; readonly massKg: number } | undefined,
): number[] {
  const lengths: number[] = [];
  let from = 0;
  let index = 0;
  for (let step = 1; ; step++) {
    const limit = step * PULL_STEP_MPS;
    while (index < speedMps.length && speedMps[index]! < limit) index++;
    if (index === 0 || index >= speedMps.length) return lengths;
    const before = speedMps[index - 1]!;
    const share = (limit - before) / (speedMps[index]! - before);
    const at = distanceM[index - 1]! + share * (distanceM[index]! - distanceM[index - 1]!);
    const middle = limit - PULL_STEP_MPS / 2;
    const air = middle + headwindMps;
    const wind =
      drag === undefined
        ? 0
        : (0.5 * densityKgm3 * drag.dragAreaM2 * (air * Math.abs(air) - middle * middle)) / drag.massKg;
    const level = stepEnergy(step - 1) / (at - from) + (STANDARD_GRAVITY_MPS2 * slope + wind) / apparentMass;
    // Downhill with the wind behind, a run may tell nothing of what the car does by itself.
    if (!(level > 0) || !(at > from)) return lengths;
    lengths.push(stepEnergy(step - 1) / level);
    from = at;
  }
}

/** One measured stop: from a passed speed to rest under braking. */
export interface MeasuredStop {
  readonly fromMps: number;
  readonly distanceM: number;
  /** Expanded, m. */
  readonly uncertaintyM: number;
  /** Mean rise of the road in the driven direction, a fraction; taken as level where absent. */
  readonly slope?: number;
}

export interface MeasuredDeceleration {
  /** On a level road, v²/2s, m/s². Adverse: the lowest of the stops less its uncertainty. */
  readonly mps2: Edges<number>;
  /** Lowest speed that a counted stop was measured from, m/s. */
  readonly fromMps: number;
  readonly stops: number;
  /** Stops braked less hard than `FULL_STOP_SHARE` of the hardest. */
  readonly left: number;
}

/** A stop that is less hard than this share of the day's hardest was not braked in full, and tells nothing of it. */
export const FULL_STOP_SHARE = 0.8;
/** What a single stop may be off beyond its own uncertainty, relative (our own estimate). */
const SINGLE_STOP = 0.05;

/** From the day's stops; undefined where there is none. */
export function measuredDeceleration(stops: readonly MeasuredStop[]): MeasuredDeceleration | undefined {
  const all = stops
    .map(({ fromMps, distanceM, uncertaintyM, slope = 0 }) => {
      const mean = (fromMps * fromMps) / (2 * distanceM);
      return {
        fromMps,
        level: mean - STANDARD_GRAVITY_MPS2 * slope,
        uncertainty: (mean * uncertaintyM) / distanceM,
      };
    })
    .filter(({ level }) => level > 0);
  const hardest = Math.max(...all.map(({ level }) => level));
  const full = all.filter(({ level }) => level >= FULL_STOP_SHARE * hardest);
  if (full.length === 0) return undefined;
  const single = full.length === 1 ? SINGLE_STOP : 0;
  const mean = full.reduce((sum, { level }) => sum + level, 0) / full.length;
  const of = {
    adverse: Math.min(...full.map(({ level, uncertainty }) => level * (1 - single) - uncertainty)),
    middle: mean,
    favourable: Math.max(...full.map(({ level, uncertainty }) => level * (1 + single) + uncertainty)),
  };
  return {
    mps2: eachEdge(edge => of[edge]),
    fromMps: Math.min(...full.map(({ fromMps }) => fromMps)),
    stops: full.length,
    left: stops.length - full.length,
  };
}
