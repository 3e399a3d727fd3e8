/** What a road asks of a car, and how much of it a stop takes: closed forms on stated assumptions. */
import { FOOT_M, MPH_MPS, STANDARD_GRAVITY_MPS2 } from '../units.ts';

export interface LoadedCar {
  readonly massKg: number;
  /** Rolling resistance over weight. */
  readonly rollingResistance: number;
  /** Drag coefficient times frontal area, m². */
  readonly dragAreaM2: number;
}

export interface RoadLoad {
  readonly rollingN: number;
  readonly dragN: number;
  readonly gradeN: number;
  readonly totalN: number;
}

export interface RoadAir {
  readonly densityKgm3: number;
  /** Positive against the car; still air unless told. */
  readonly headwindMps?: number;
}

/** Cosine and sine of a road's angle. */
export interface Grade {
  readonly cos: number;
  readonly sin: number;
}
export const LEVEL: Grade = { cos: 1, sin: 0 };

/** @param slope rise over run as a fraction, 0.01 for 1 %. */
export function gradeOf(slope: number): Grade {
  const angle = Math.atan(slope);
  return { cos: Math.cos(angle), sin: Math.sin(angle) };
}

/** Force needed to hold a speed: m g f cos θ + ½ ρ CdA v|v| of the air's speed + m g sin θ. */
export function roadLoadOn(car: LoadedCar, speedMps: number, air: RoadAir, { cos, sin }: Grade): RoadLoad {
  const weightN = car.massKg * STANDARD_GRAVITY_MPS2;
  const airMps = speedMps + (air.headwindMps ?? 0);
  const rollingN = weightN * car.rollingResistance * cos;
  const dragN = 0.5 * air.densityKgm3 * car.dragAreaM2 * airMps * Math.abs(airMps);
  const gradeN = weightN * sin;
  return { rollingN, dragN, gradeN, totalN: rollingN + dragN + gradeN };
}

/** The same by the slope, a fraction; level unless told. */
export const roadLoad = (car: LoadedCar, speedMps: number, air: RoadAir, slope = 0): RoadLoad =>
  roadLoadOn(car, speedMps, air, gradeOf(slope));

/**
 * Speed at which a power at the wheels is used up by road load, m/s; 0 where it cannot move the car.
 * Infinite where a slope or wind carries the car without bound below 1000 m/s.
 */
export function balanceSpeedMps(car: LoadedCar, powerW: number, air: RoadAir, slope = 0): number {
  const spare = (speedMps: number): number => powerW - roadLoad(car, speedMps, air, slope).totalN * speedMps;
  let low = 0;
  let high = 1000;
  if (!(powerW > 0)) return 0;
  if (spare(high) > 0) return Number.POSITIVE_INFINITY;
  while (true) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) return low;
    if (spare(middle) > 0) low = middle;
    else high = middle;
  }
}

/**
 * Factor by which rotating parts add to the mass, 1.04 + 0.0025 i² for an overall ratio i of engine to wheel.
 * Handbook estimate for cars with engine and gearbox (Wong; Gillespie; from memory), not for a given car.
 */
export function rotatingMassFactor(overallRatio: number): number {
  return 1.04 + 0.0025 * overallRatio * overallRatio;
}

/**
 * Rolling resistance coefficient of a car tyre, 0.005 + (0.01 + 0.0095 (v/100)²)/p, p in bar over atmosphere and v
 * in km/h. Handbook formula (engineeringtoolbox.com, rolling friction); an estimate where none is measured.
 */
export function handbookRollingResistance(tyrePressurePa: number, speedMps: number): number {
  const speedKmh = speedMps * 3.6;
  return 0.005 + (0.01 + 0.0095 * (speedKmh / 100) ** 2) / (tyrePressurePa / 1e5);
}

export interface StoppingAssumptions {
  readonly reactionTimeS: number;
  /** Constant from the first touch of the brake, m/s². */
  readonly decelerationMps2: number;
}

export interface StoppingDistance {
  readonly thinkingM: number;
  readonly brakingM: number;
  readonly totalM: number;
}

/** Distance to stop from a speed under these assumptions, m: v t + v²/2a. @throws RangeError without a deceleration. */
export function stoppingDistance(speedMps: number, assumed: StoppingAssumptions): StoppingDistance {
  if (!(assumed.decelerationMps2 > 0)) throw new RangeError('A car that does not slow down never stops');
  const thinkingM = speedMps * assumed.reactionTimeS;
  const brakingM = (speedMps * speedMps) / (2 * assumed.decelerationMps2);
  return { thinkingM, brakingM, totalM: thinkingM + brakingM };
}

/**
 * What the table of typical stopping distances in the UK Highway Code (rule 126) rests on: a foot of thinking for
 * each mile per hour, and v²/20 feet of braking, v in miles per hour. Dry road, good brakes, alert driver.
 */
export const HIGHWAY_CODE: StoppingAssumptions = {
  reactionTimeS: FOOT_M / MPH_MPS,
  decelerationMps2: (MPH_MPS * MPH_MPS * 20) / (2 * FOOT_M),
};
