/**
 * The road plan: which speeds a road has room for, with the braking and a reserve, under stated assumptions. It is
 * arithmetic and clears nobody to drive.
 *
 * Every figure has three: in the middle, and at the adverse and the favourable end of what is not known. At the
 * adverse end the car gains speed slowly, goes on pulling hard while the driver reacts, and brakes weakly, all at
 * once: what is known only within bounds is added up and not averaged out.
 */
import { type SpeedScale, type SpeedUnit, speedScale } from '../speed-unit.ts';
import { kmhToMps, mphToMps, STANDARD_GRAVITY_MPS2 } from '../units.ts';
import { type Brakes, brakingDistanceM, steepestFallUpTo } from './plan-braking.ts';
import { type PullLaw, type PullPath, pullPath, type RoadSlope, reachedM, topOf } from './plan-pull.ts';

/** One figure in the middle and at either end of its uncertainty; `adverse` leaves the least road. */
export interface Edges<T> {
  readonly adverse: T;
  readonly middle: T;
  readonly favourable: T;
}

export type Edge = keyof Edges<unknown>;

/** The same for each edge. */
export const eachEdge = <T>(of: (edge: Edge) => T): Edges<T> => ({
  adverse: of('adverse'),
  middle: of('middle'),
  favourable: of('favourable'),
});

/** The larger side of the uncertainty. */
export const plusMinus = ({ adverse, middle, favourable }: Edges<number>): number =>
  Math.max(Math.abs(adverse - middle), Math.abs(favourable - middle));

/** A car as it is to be driven: loaded, towing, in the planned wind and on the planned surface. */
export interface PlannedCar {
  readonly pull: Edges<PullLaw>;
  /**
   * The same car without load, in the dry: what it may gain while the driver reacts. Taken so whatever the plan, so
   * that a load or a wet road never shortens a stop.
   */
  readonly pullingOn: Edges<PullLaw>;
  /** Deceleration on a level road with the brakes acting in full, for a stop from a speed, m/s². */
  readonly decelerationMps2: Edges<(fromMps: number) => number>;
  /** Mass with what turns, over mass, while the car pulls. */
  readonly apparentMass: number;
  /** Up to this speed acceleration is measured, m/s; 0 where it is estimated throughout. */
  readonly measuredToMps: number;
}

export interface PlanRoad {
  readonly lengthM: number;
  readonly slope: RoadSlope;
}

export interface PlanDriving {
  readonly reactionTimeS: number;
  /** Whether the car goes on pulling until the reaction is over, or holds its speed. */
  readonly whileReacting: 'pulls' | 'holds';
  readonly buildUpS: number;
  /** To be left over after the stop, m. */
  readonly reserveM: number;
  /** Speed at the line, m/s; 0 for a standing start. */
  readonly fromMps: number;
}

export interface PlanRow {
  readonly speedMps: number;
  readonly from: 'measured' | 'estimated';
  /** Distance from the line at which the speed is reached, m; infinite where it is not reached on this road. */
  readonly reachedM: Edges<number>;
  readonly reactionM: Edges<number>;
  /** Speed at the touch of the brake, m/s. */
  readonly brakeFromMps: Edges<number>;
  readonly brakingM: Edges<number>;
  /** Where the car stands, if the driver reacts as soon as the speed is reached, m from the line. */
  readonly stoppedM: Edges<number>;
  /** Road left after that, m; negative beyond the end. */
  readonly leftM: Edges<number>;
  /** Last place at this speed at which the driver may begin to react and still keep the reserve, m from the line. */
  readonly lastPointM: Edges<number>;
  /** Whether the reserve is kept: at the adverse end too, in the middle only, or not. */
  readonly room: 'room' | 'uncertain' | 'none';
}

/** The highest speed with the reserve kept, m/s. */
export interface HighestSpeed {
  readonly speedMps: number;
  /** What sets it: the road's length, or the car, which gets no faster on this road. */
  readonly limitedBy: 'road' | 'car';
}

export interface PlannedRoad {
  readonly rows: readonly PlanRow[];
  readonly highest: Edges<HighestSpeed>;
  /** Row of the last whole km/h or mph under the highest speed at the adverse end; absent where there is room for none. */
  readonly highestRow?: PlanRow;
}

/** Speeds of the rows, m/s. */
export const PLAN_SPEEDS_MPS: Readonly<Record<SpeedUnit, readonly number[]>> = {
  'km/h': [30, 50, 60, 80, 100, 120, 130, 140, 160, 180, 200, 220, 250, 300].map(kmhToMps),
  mph: [20, 30, 40, 50, 60, 70, 80, 90, 100, 110, 120, 140, 160, 180].map(mphToMps),
};

/** Step in which the highest speed is looked for, m/s. */
const SEARCH_MPS = 0.5;

/**
 * Works out one stop after another along the road.
 * @param speedsMps of the rows; the unit's round ones where absent
 * @param inUnit whose round speeds the rows are, and whose whole numbers the highest speed is cut to
 * @throws RangeError for a road or reserve that is no length
 */
export function planRoad(
  car: PlannedCar,
  road: PlanRoad,
  driving: PlanDriving,
  speedsMps?: readonly number[],
  inUnit: SpeedScale = speedScale('en'),
): PlannedRoad {
  if (!(road.lengthM > 0 && Number.isFinite(road.lengthM))) throw new RangeError('A road has a length');
  if (!(driving.reserveM >= 0)) throw new RangeError('A reserve is a length from 0');
  const fallUpTo = steepestFallUpTo(road.slope, road.lengthM);
  const paths = eachEdge(edge =>
    pullPath(car.pull[edge], road.slope, road.lengthM, driving.fromMps, car.apparentMass),
  );
  const scene: Scene = { car, road, driving, fallUpTo, paths };
  const highest = eachEdge(edge => highestSpeed(scene, edge));
  const rows = (speedsMps ?? PLAN_SPEEDS_MPS[inUnit.symbol])
    .filter(speedMps => speedMps > driving.fromMps && Number.isFinite(reachedM(paths.favourable, speedMps)))
    .map(speedMps => rowOf(scene, speedMps));
  const speedMps = inUnit.toMps(Math.floor(inUnit.fromMps(highest.adverse.speedMps) + 1e-9));
  return {
    rows,
    highest,
    ...(speedMps > driving.fromMps ? { highestRow: rowOf(scene, speedMps) } : {}),
  };
}

interface Scene {
  readonly car: PlannedCar;
  readonly road: PlanRoad;
  readonly driving: PlanDriving;
  /** Steepest fall between the line and a place, a fraction. */
  fallUpTo(placeM: number): number;
  readonly paths: Edges<PullPath>;
}

function rowOf(scene: Scene, speedMps: number): PlanRow {
  const { car, road, driving, paths } = scene;
  const stops = eachEdge(edge => stopAfter(scene, edge, speedMps, reachedM(paths[edge], speedMps)));
  const leftM = eachEdge(edge => road.lengthM - stops[edge].stoppedM);
  const kept = (edge: Edge): boolean => leftM[edge] >= driving.reserveM - 1e-6;
  return {
    speedMps,
    from: speedMps <= car.measuredToMps + 1e-9 ? 'measured' : 'estimated',
    reachedM: eachEdge(edge => reachedM(paths[edge], speedMps)),
    reactionM: eachEdge(edge => stops[edge].reactionM),
    brakeFromMps: eachEdge(edge => stops[edge].brakeFromMps),
    brakingM: eachEdge(edge => stops[edge].brakingM),
    stoppedM: eachEdge(edge => stops[edge].stoppedM),
    leftM,
    lastPointM: eachEdge(edge => lastPointM(scene, edge, speedMps)),
    room: kept('adverse') ? 'room' : kept('middle') ? 'uncertain' : 'none',
  };
}

interface StopAfter {
  readonly reactionM: number;
  readonly brakeFromMps: number;
  readonly brakingM: number;
  readonly stoppedM: number;
}

/** The driver begins to react at a speed and a place. */
const stopAfter = (scene: Scene, edge: Edge, speedMps: number, placeM: number): StopAfter =>
  stopsFrom(scene, edge, speedMps)(placeM);

/** The same for one speed at any place. */
function stopsFrom(scene: Scene, edge: Edge, speedMps: number): (placeM: number) => StopAfter {
  const { driving, fallUpTo } = scene;
  const reach = speedMps * driving.reactionTimeS;
  let fall = Number.NaN;
  let reaction: Reaction | undefined;
  return placeM => {
    const here = fallUpTo(placeM + reach);
    // Places near one another have the same steepest fall before them.
    if (reaction === undefined || here !== fall) reaction = react(scene, edge, speedMps, here);
    fall = here;
    return stopAt(scene, edge, placeM, reaction);
  };
}

interface Reaction {
  readonly reactionM: number;
  readonly brakeFromMps: number;
}

const react = ({ car, driving }: Scene, edge: Edge, speedMps: number, fall: number): Reaction =>
  driving.whileReacting === 'pulls'
    ? pulledOn(car.pullingOn[QUICK[edge]], speedMps, driving.reactionTimeS, STANDARD_GRAVITY_MPS2 * fall)
    : { reactionM: speedMps * driving.reactionTimeS, brakeFromMps: speedMps };

function stopAt(scene: Scene, edge: Edge, placeM: number, { reactionM, brakeFromMps }: Reaction): StopAfter {
  const { car, road, driving } = scene;
  const { buildUpS } = driving;
  const brakes: Brakes = { decelerationMps2: car.decelerationMps2[edge](brakeFromMps), buildUpS };
  // Where the speed is not reached on the road, the stop is reckoned from its end: the figures stay finite.
  const fromM = (Number.isFinite(placeM) ? placeM : road.lengthM) + reactionM;
  const brakingM = brakingDistanceM(brakeFromMps, fromM, brakes, road.slope);
  return { reactionM, brakeFromMps, brakingM, stoppedM: placeM + reactionM + brakingM };
}

/** Reacting, the car of the adverse end is the one that pulls hardest. */
const QUICK: Edges<Edge> = { adverse: 'favourable', middle: 'middle', favourable: 'adverse' };
const REACTION_STEPS = 20;

/**
 * Way and speed after the reaction, on the steepest fall of the road so far: a speed reached later is so never left
 * with a shorter stop. Midpoint rule, exact for a constant acceleration.
 */
function pulledOn(law: PullLaw, fromMps: number, reactionTimeS: number, fallMps2: number): Reaction {
  const stepS = reactionTimeS / REACTION_STEPS;
  const gain = (speedMps: number): number => Math.max(0, law(speedMps)) + fallMps2;
  let speed = fromMps;
  let reactionM = 0;
  for (let step = 0; step < REACTION_STEPS; step++) {
    const next = speed + gain(speed + (gain(speed) * stepS) / 2) * stepS;
    reactionM += ((speed + next) / 2) * stepS;
    speed = next;
  }
  return { reactionM, brakeFromMps: speed };
}

/** Every speed up to this one leaves the reserve; a road that rises late does not make up for one that failed. */
function highestSpeed(scene: Scene, edge: Edge): HighestSpeed {
  const { driving, paths, road } = scene;
  const endM = road.lengthM - driving.reserveM;
  const fits = (speedMps: number): boolean =>
    stopAfter(scene, edge, speedMps, reachedM(paths[edge], speedMps)).stoppedM <= endM;
  const top = topOf(paths[edge]);
  let low = driving.fromMps;
  if (!fits(low)) return { speedMps: driving.fromMps, limitedBy: 'road' };
  let high = low;
  while (fits(high)) {
    if (high >= top) return { speedMps: top, limitedBy: 'car' };
    low = high;
    high = Math.min(top, high + SEARCH_MPS);
  }
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (fits(middle)) low = middle;
    else high = middle;
  }
  return { speedMps: low, limitedBy: 'road' };
}

/** Place from which reacting and braking end exactly at the reserve, m; −∞ where the car does not stop. */
function lastPointM(scene: Scene, edge: Edge, speedMps: number): number {
  const { road, driving } = scene;
  const endM = road.lengthM - driving.reserveM;
  const stops = stopsFrom(scene, edge, speedMps);
  const stop = (placeM: number): number => stops(placeM).stoppedM;
  const takes = stop(endM) - endM;
  if (!Number.isFinite(takes)) return Number.NEGATIVE_INFINITY;
  let high = endM;
  let low = endM - takes;
  for (let step = 0; step < 20 && stop(low) > endM; step++) low -= takes;
  for (let step = 0; step < 60 && high - low > 1e-9; step++) {
    const middle = (low + high) / 2;
    if (stop(middle) <= endM) low = middle;
    else high = middle;
  }
  return low;
}
