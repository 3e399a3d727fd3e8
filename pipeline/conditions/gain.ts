/** By how much a car accelerates harder where conditions of the day give way to those of the reference. */
import { roadLoad } from '../road/road-load.ts';
import type { KnownCircumstances } from './circumstances.ts';
import type { Pull } from './pull.ts';
import { REFERENCE_DENSITY_KGM3 } from './reference.ts';
import { inFirstGear, rotatingShare } from './rotating-mass.ts';

/** In the order their changes are printed. */
export const CONDITIONS = ['slope', 'wind', 'air'] as const;
export type Condition = (typeof CONDITIONS)[number];

/** By how much an input is moved to see what it does; relative, but for wind in m/s and power as a share of it. */
export interface Moved {
  readonly mass: number;
  readonly dragArea: number;
  readonly headwindMps: number;
  /** In standard uncertainties, which are larger where the road was not surveyed. */
  readonly slope: number;
  readonly density: number;
  readonly rotating: number;
  readonly power: number;
  /** Share of the launch in which the engine and not the clutch or the tyres sets the push. */
  readonly launchPower: number;
}
export const AS_KNOWN: Moved = {
  mass: 0,
  dragArea: 0,
  headwindMps: 0,
  slope: 0,
  density: 0,
  rotating: 0,
  power: 0,
  launchPower: 0,
};

export interface Workings {
  readonly known: KnownCircumstances;
  readonly pull: Pull;
  readonly power: PowerChange;
}

export interface PowerChange {
  /** Power in the reference air over power in the day's, less one; 0 where nothing is corrected. */
  readonly change: number;
  /** By how much that falls where the day's density is this much higher than taken, relative to relative. */
  readonly perDensity: number;
}

/** Standard uncertainty of slope where a run leaves the surveyed stretch, a fraction (our own estimate). */
const NOT_SURVEYED_SLOPE = 0.003;

/**
 * A clutch is in, and tyres hold, at about half of the speed that first gear goes to (common practice, no source).
 * Up to there the push may be the engine's or not: half of a change of power is taken.
 */
const CLUTCH_IN_SHARE = 0.5;
const HALF_AT_LAUNCH = 0.5;

/** Gain at each node of the pull, m/s², where `away` have their reference value and the rest stay as on the day. */
export function gainMps2(workings: Workings, away: readonly Condition[], moved: Moved): Float64Array {
  const { known, pull, power } = workings;
  const car = {
    massKg: known.massKg * (1 + moved.mass),
    dragAreaM2: known.dragAreaM2 * (1 + moved.dragArea),
    rollingResistance: known.rollingResistance,
  };
  const day = {
    densityKgm3: known.densityKgm3 * (1 + moved.density),
    headwindMps: known.headwindMps + moved.headwindMps,
  };
  const then = {
    densityKgm3: away.includes('air') ? REFERENCE_DENSITY_KGM3 : day.densityKgm3,
    headwindMps: away.includes('wind') ? 0 : day.headwindMps,
  };
  const level = away.includes('slope');
  const powerChange = away.includes('air')
    ? power.change - power.perDensity * moved.density + moved.power
    : 0;
  const gains = new Float64Array(pull.timeS.length);
  for (let i = 0; i < gains.length; i++) {
    const speed = pull.speedMps[i]!;
    const slope = slopeAt(known, pull.distanceM[i]!, moved.slope);
    const share = rotatingShare(known.drive, speed, known.rotatingMassFactor);
    const apparentKg = car.massKg * (1 + share.wheels + share.engine * (1 + moved.rotating));
    const loadN = roadLoad(car, speed, day, slope).totalN;
    const thenN = roadLoad(car, speed, then, level ? 0 : slope).totalN;
    const pushMps2 = pull.accelerationMps2[i]! + loadN / apparentKg;
    const byEngine = inFirstGear(known.drive, speed / CLUTCH_IN_SHARE)
      ? HALF_AT_LAUNCH + moved.launchPower
      : 1;
    gains[i] =
      (loadN - thenN) / apparentKg + (powerChange === 0 ? 0 : byEngine * powerChange * Math.max(0, pushMps2));
  }
  return gains;
}

function slopeAt({ road, uncertainty }: KnownCircumstances, distanceM: number, sds: number): number {
  const slope = road.slopeAt(distanceM);
  if (sds === 0) return slope;
  const surveyed = distanceM >= road.fromM && distanceM <= road.toM;
  return slope + sds * Math.hypot(uncertainty.slope, surveyed ? 0 : NOT_SURVEYED_SLOPE);
}
