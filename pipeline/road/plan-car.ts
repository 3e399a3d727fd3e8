/** The car of a plan: measured where it has been measured, estimated elsewhere, with load, tow, wind and a wet road. */
import { STANDARD_GRAVITY_MPS2 } from '../units.ts';
import { type Edge, type Edges, eachEdge, type PlannedCar } from './plan.ts';
import {
  apparentMassOf,
  type DescribedCar,
  dragAreaOf,
  estimatedPull,
  NO_BURDEN,
  type PlanBurden,
  rollingOf,
} from './plan-estimate.ts';
import { type MeasuredDeceleration, type MeasuredPull, PULL_STEP_MPS } from './plan-measured.ts';
import type { PullLaw } from './plan-pull.ts';

/**
 * Deceleration of a car nobody has measured, dry and level, m/s². At the adverse end what UN Regulation No. 13-H,
 * Annex 3 asks of a new car from up to 160 km/h, 1/(25.92 · 0.0067); at the other what road tyres reach on good dry
 * asphalt (common practice, no source).
 */
export const ESTIMATED_DECELERATION_MPS2: Edges<number> = {
  adverse: 1 / (25.92 * 0.0067),
  middle: 8,
  favourable: 10,
};

/** Share of the dry road's grip that is left on a wet or damp one (common practice, no source). */
export const WET_FACTOR = 0.65;

/**
 * A stop from twice the measured speed may be weaker or stronger by this share than the measured ones: heat, and
 * drag (our own estimate). It grows evenly from the measured speed on.
 */
const BEYOND_MEASURED_SHARE = 0.1;

export type DecelerationFrom = 'stated' | 'measured' | 'estimated';

/** What the day has shown so far. */
export interface SeenToday {
  /** On a dry road. */
  readonly dryPull?: MeasuredPull;
  /** On a wet or damp one. */
  readonly wetPull?: MeasuredPull;
  readonly dryStops?: MeasuredDeceleration;
  readonly wetStops?: MeasuredDeceleration;
}

export interface CarForPlan {
  readonly car: PlannedCar;
  readonly decelerationFrom: DecelerationFrom;
  /** The counted deceleration before the load is reckoned in, m/s²; the wet factor is in it. */
  readonly decelerationMps2: Edges<number>;
  /** The wet factor where one was put on, 1 otherwise. */
  readonly wetFactor: number;
}

/**
 * @param wet whether the plan is for a wet road
 * @param statedMps2 deceleration on a dry level road that a person states, m/s²; it goes before a measured one
 */
export function carForPlan(
  described: DescribedCar,
  burden: PlanBurden,
  seen: SeenToday,
  wet: boolean,
  statedMps2?: number,
): CarForPlan {
  const gripped = { ...burden, gripShare: wet ? WET_FACTOR : 1 };
  const estimated = estimatedPull(described, gripped);
  const { dryPull, wetPull } = seen;
  const still = { ...NO_BURDEN, densityKgm3: burden.densityKgm3 };
  const unburdened = estimatedPull(described, still);
  // A road as wet as the runs were needs no factor; one wetter than they were does.
  const asWet = { ...burden, gripShare: 1 };
  const laws = [
    ...(dryPull === undefined ? [] : [joined(dryPull, described, gripped, estimated)]),
    ...(wetPull === undefined || (!wet && dryPull !== undefined)
      ? []
      : [joined(wetPull, described, asWet, estimated)]),
  ];
  const shown = dryPull ?? wetPull;
  const brakes = decelerationFor(seen, wet, statedMps2);
  const massShare = described.massKg / (described.massKg + burden.loadKg + burden.towKg);
  const measuredToMps = wet && wetPull !== undefined ? wetPull.toMps : (shown?.toMps ?? 0);
  const topMps = Math.max(described.topMps ?? Number.POSITIVE_INFINITY, measuredToMps);
  return {
    ...brakes,
    car: {
      pull: eachEdge(edge => noFasterThan(topMps, (laws.length === 0 ? estimated : weakest(laws))[edge])),
      pullingOn: shown === undefined ? unburdened : joined(shown, described, still, unburdened),
      // The brakes are taken to give the same force whatever is loaded or towed.
      decelerationMps2: eachEdge(edge => speedMps => massShare * brakes.at(edge, speedMps)),
      apparentMass: apparentMassOf(described),
      measuredToMps,
    },
  };
}

const noFasterThan =
  (topMps: number, law: PullLaw): PullLaw =>
  speedMps =>
    speedMps < topMps ? law(speedMps) : 0;

/** At every speed the least of these: a wet road is not counted on for more than a dry one has shown. */
const weakest = (laws: readonly Edges<PullLaw>[]): Edges<PullLaw> =>
  eachEdge(edge => speedMps => Math.min(...laws.map(law => law[edge](speedMps))));

interface Deceleration extends Omit<CarForPlan, 'car'> {
  at(edge: Edge, fromMps: number): number;
}

function decelerationFor(seen: SeenToday, wet: boolean, statedMps2: number | undefined): Deceleration {
  const factor = wet ? WET_FACTOR : 1;
  if (statedMps2 !== undefined) {
    const mps2 = eachEdge(() => statedMps2 * factor);
    return { decelerationFrom: 'stated', decelerationMps2: mps2, wetFactor: factor, at: edge => mps2[edge] };
  }
  const { dryStops, wetStops } = seen;
  const found = wet ? (wetStops ?? dryStops) : (dryStops ?? wetStops);
  if (found === undefined) {
    const mps2 = eachEdge(edge => ESTIMATED_DECELERATION_MPS2[edge] * factor);
    return {
      decelerationFrom: 'estimated',
      decelerationMps2: mps2,
      wetFactor: factor,
      at: edge => mps2[edge],
    };
  }
  const put = wet && wetStops === undefined ? factor : 1;
  const mps2 = eachEdge(edge => {
    const own = found.mps2[edge] * put;
    // A wet road is not counted on for more than a dry one has shown.
    return wet && dryStops !== undefined ? Math.min(own, dryStops.mps2[edge]) : own;
  });
  const beyond = (fromMps: number): number =>
    BEYOND_MEASURED_SHARE * Math.min(1, Math.max(0, fromMps / found.fromMps - 1));
  const side = { adverse: -1, middle: 0, favourable: 1 } as const;
  return {
    decelerationFrom: 'measured',
    decelerationMps2: mps2,
    wetFactor: put,
    at: (edge, fromMps) => mps2[edge] * (1 + side[edge] * beyond(fromMps)),
  };
}

/** The measured law as far as it goes, then the estimate in its shape, scaled so that the two meet. */
function joined(
  measured: MeasuredPull,
  described: DescribedCar,
  burden: PlanBurden,
  estimated: Edges<PullLaw>,
): Edges<PullLaw> {
  const { stepsMps2, toMps, uncertainty } = measured;
  const totalKg = described.massKg + burden.loadKg + burden.towKg;
  const massShare = described.massKg / totalKg;
  const rolling = STANDARD_GRAVITY_MPS2 * rollingOf(described, 'middle');
  const held =
    burden.gripShare < 1
      ? burden.gripShare * (Math.max(...stepsMps2) + rolling) - rolling
      : Number.POSITIVE_INFINITY;
  const scale: Edges<number> = { adverse: 1 / (1 + uncertainty), middle: 1, favourable: 1 + uncertainty };
  return eachEdge(edge => {
    const dragAreaM2 = dragAreaOf(described, 'middle');
    const at = (speedMps: number): number => {
      const step = Math.min(stepsMps2.length - 1, Math.floor(speedMps / PULL_STEP_MPS));
      const own = Math.min(stepsMps2[step]!, held) * scale[edge];
      const air = speedMps + burden.headwindMps;
      const addedN =
        0.5 *
        burden.densityKgm3 *
        ((dragAreaM2 + burden.towDragAreaM2) * air * Math.abs(air) - dragAreaM2 * speedMps * speedMps);
      return massShare * (own + rolling) - rolling - addedN / totalKg;
    };
    const endMps = toMps - PULL_STEP_MPS / 2;
    const join = at(endMps) / estimated[edge](endMps);
    return speedMps => {
      if (speedMps < toMps) return at(speedMps);
      const shape = estimated[edge](speedMps);
      return join > 0 && Number.isFinite(join) ? join * shape : Math.min(shape, 0);
    };
  });
}
