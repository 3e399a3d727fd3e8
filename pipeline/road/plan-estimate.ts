/** How a car gains speed before it has been measured: from its power, its mass and what its driven tyres hold. */
import { STANDARD_GRAVITY_MPS2 } from '../units.ts';
import { type Edge, type Edges, eachEdge } from './plan.ts';
import type { PullLaw } from './plan-pull.ts';

/** What is known of a car that has not been measured, SI. */
export interface DescribedCar {
  /** With the driver and what is aboard, without the load that a plan adds. */
  readonly massKg: number;
  /** Rated power of engine or motor, W. */
  readonly powerW: number;
  readonly drive: 'electric' | 'petrol' | 'petrol-boosted' | 'diesel' | 'diesel-boosted';
  readonly drivenWheels: 'front' | 'rear' | 'all';
  readonly dragAreaM2?: number;
  readonly rollingResistance?: number;
  /** Top speed its maker states, m/s: no plan counts on more unless more was measured. */
  readonly topMps?: number;
  /** Scale put on the power at the wheels where a time is known, see `scaledToTime`; 1 where absent. */
  readonly powerScale?: number;
}

/** What is added to the car, and what it drives through. */
export interface PlanBurden {
  /** In and on the car, kg. */
  readonly loadKg: number;
  readonly towKg: number;
  /** Of what is towed, m². */
  readonly towDragAreaM2: number;
  readonly headwindMps: number;
  readonly densityKgm3: number;
  /** Share of the dry road's grip; 1 dry. */
  readonly gripShare: number;
}

export const NO_BURDEN: PlanBurden = {
  loadKg: 0,
  towKg: 0,
  towDragAreaM2: 0,
  headwindMps: 0,
  densityKgm3: 1.2,
  gripShare: 1,
};

interface Guess {
  readonly adverse: number;
  readonly middle: number;
  readonly favourable: number;
}

/**
 * Share of rated power that reaches the road, averaged over a pull with its gear changes and the stretches in which
 * the engine turns too slowly or too fast (common practice, no source). Times from rest to 60 mph of recorded cars
 * over m v²/2P are 1.5 to 3.5; these shares stay inside that.
 */
const POWER_SHARE: Readonly<Record<'electric' | 'engine', Guess>> = {
  electric: { adverse: 0.68, middle: 0.84, favourable: 0.98 },
  engine: { adverse: 0.52, middle: 0.7, favourable: 0.88 },
};
/**
 * Most that the driven tyres accelerate the car with on a dry road, over weight: load on the driven axle times a
 * friction of 0.7 to 1 (common practice, no source).
 */
const TRACTION: Readonly<Record<DescribedCar['drivenWheels'], Guess>> = {
  front: { adverse: 0.32, middle: 0.44, favourable: 0.6 },
  rear: { adverse: 0.36, middle: 0.52, favourable: 0.72 },
  all: { adverse: 0.5, middle: 0.78, favourable: 1.05 },
};
/** Drag area where the content does not tell it, from a low car to a small van, m²; a share of it where it does. */
const DRAG_AREA_M2: Guess = { adverse: 1.1, middle: 0.72, favourable: 0.5 };
const DRAG_SHARE: Guess = { adverse: 1.12, middle: 1, favourable: 0.9 };
/** Rolling resistance where it is not told, and a share of it where it is. */
const ROLLING: Guess = { adverse: 0.016, middle: 0.012, favourable: 0.009 };
const ROLLING_SHARE: Guess = { adverse: 1.2, middle: 1, favourable: 0.85 };
const MASS_SHARE: Guess = { adverse: 1.03, middle: 1, favourable: 0.97 };
/** What turns, as a share of mass: wheels and motor, or wheels and engine over the gears. */
const APPARENT_MASS = { electric: 1.05, engine: 1.07 } as const;

/** Mass with what turns, over mass. */
export const apparentMassOf = ({ drive }: Pick<DescribedCar, 'drive'>): number =>
  APPARENT_MASS[drive === 'electric' ? 'electric' : 'engine'];

/** Under this speed power no longer limits the push, m/s: keeps P/v finite. */
const SLOWEST_MPS = 0.5;

/** Drag area as told or guessed, m². */
export const dragAreaOf = ({ dragAreaM2 }: DescribedCar, edge: Edge): number =>
  dragAreaM2 === undefined ? DRAG_AREA_M2[edge] : dragAreaM2 * DRAG_SHARE[edge];

/** Rolling resistance as told or guessed. */
export const rollingOf = ({ rollingResistance }: DescribedCar, edge: Edge): number =>
  rollingResistance === undefined ? ROLLING[edge] : rollingResistance * ROLLING_SHARE[edge];

/**
 * Acceleration over speed on a level road, m/s²: power at the wheels over speed, at most what the driven tyres hold,
 * less drag and rolling, over all that has to be moved. The push of the tyres does not grow with the load.
 */
export function estimatedPull(car: DescribedCar, burden: PlanBurden): Edges<PullLaw> {
  const kind = car.drive === 'electric' ? 'electric' : 'engine';
  return eachEdge(edge => {
    const emptyKg = car.massKg * MASS_SHARE[edge];
    const massKg = emptyKg + burden.loadKg + burden.towKg;
    const powerW = car.powerW * POWER_SHARE[kind][edge] * (car.powerScale ?? 1);
    const tractionN = TRACTION[car.drivenWheels][edge] * emptyKg * STANDARD_GRAVITY_MPS2 * burden.gripShare;
    const rollingN = massKg * STANDARD_GRAVITY_MPS2 * rollingOf(car, edge);
    const dragAreaM2 = dragAreaOf(car, edge) + burden.towDragAreaM2;
    return speedMps => {
      const pushN = Math.min(powerW / Math.max(speedMps, SLOWEST_MPS) / APPARENT_MASS[kind], tractionN);
      const airMps = speedMps + burden.headwindMps;
      const dragN = 0.5 * burden.densityKgm3 * dragAreaM2 * airMps * Math.abs(airMps);
      return (pushN - dragN - rollingN) / massKg;
    };
  });
}

/** Time from rest to a speed under a law on a level road, s; infinite where it is not reached. */
export function timeToSpeedS(law: PullLaw, toMps: number): number {
  const steps = 400;
  let timeS = 0;
  for (let i = 0; i < steps; i++) {
    const gain = law(((i + 0.5) * toMps) / steps);
    if (!(gain > 0)) return Number.POSITIVE_INFINITY;
    timeS += toMps / steps / gain;
  }
  return timeS;
}

/**
 * The same car with its power scaled so that the middle of the estimate needs this time from rest to a speed: for a
 * car whose time is known from elsewhere. A time shorter than the driven tyres allow leaves the scale at its largest.
 */
export function scaledToTime(car: DescribedCar, toMps: number, timeS: number): DescribedCar {
  const needs = (powerScale: number): number =>
    timeToSpeedS(estimatedPull({ ...car, powerScale }, NO_BURDEN).middle, toMps);
  let low = 0.05;
  let high = 20;
  for (let step = 0; step < 60; step++) {
    const middle = Math.sqrt(low * high);
    if (needs(middle) > timeS) low = middle;
    else high = middle;
  }
  return { ...car, powerScale: high };
}
