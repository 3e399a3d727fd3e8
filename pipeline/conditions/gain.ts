/** By how much a car accelerates harder where conditions of the day give way to those of the reference. */
import { type Grade, gradeOf, LEVEL, roadLoadOn } from '../road/road-load.ts';
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

/** What does not depend on which conditions give way, at each node of a pull. */
interface Nodes {
  /** Shares of the car's mass that turn, in `rotatingShare`'s words. */
  readonly wheels: Float64Array;
  readonly engine: Float64Array;
  /** 1 where the push may not be the engine's. */
  readonly launching: Uint8Array;
  /** Slope moved by so many standard uncertainties. */
  readonly gradesAt: (sds: number) => readonly Grade[];
}

function nodesOf({ known, pull }: Workings): Nodes {
  const { drive, rotatingMassFactor } = known;
  const wheels = new Float64Array(pull.timeS.length);
  const engine = new Float64Array(pull.timeS.length);
  for (const [i, speedMps] of pull.speedMps.entries()) {
    const share = rotatingShare(drive, speedMps, rotatingMassFactor);
    wheels[i] = share.wheels;
    engine[i] = share.engine;
  }
  const grades = new Map<number, readonly Grade[]>();
  return {
    wheels,
    engine,
    launching: Uint8Array.from(pull.speedMps, speedMps =>
      Number(inFirstGear(drive, speedMps / CLUTCH_IN_SHARE)),
    ),
    gradesAt(sds) {
      const made =
        grades.get(sds) ?? Array.from(pull.distanceM, distanceM => gradeOf(slopeAt(known, distanceM, sds)));
      grades.set(sds, made);
      return made;
    },
  };
}

/**
 * Gain at each node of the pull, m/s², where the conditions given as `away` have their reference value and the rest
 * stay as on the day.
 */
export function gainsOf(workings: Workings): (away: readonly Condition[], moved: Moved) => Float64Array {
  const { known, pull, power } = workings;
  const { wheels, engine, launching, gradesAt } = nodesOf(workings);
  return (away, moved) => {
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
    const grades = gradesAt(moved.slope);
    const gains = new Float64Array(pull.timeS.length);
    for (let i = 0; i < gains.length; i++) {
      const speed = pull.speedMps[i]!;
      const grade = grades[i]!;
      const apparentKg = car.massKg * (1 + wheels[i]! + engine[i]! * (1 + moved.rotating));
      const loadN = roadLoadOn(car, speed, day, grade).totalN;
      const thenN = roadLoadOn(car, speed, then, level ? LEVEL : grade).totalN;
      const pushMps2 = pull.accelerationMps2[i]! + loadN / apparentKg;
      const byEngine = launching[i] === 1 ? HALF_AT_LAUNCH + moved.launchPower : 1;
      gains[i] =
        (loadN - thenN) / apparentKg +
        (powerChange === 0 ? 0 : byEngine * powerChange * Math.max(0, pushMps2));
    }
    return gains;
  };
}

function slopeAt({ road, uncertainty }: KnownCircumstances, distanceM: number, sds: number): number {
  const slope = road.slopeAt(distanceM);
  if (sds === 0) return slope;
  const surveyed = distanceM >= road.fromM && distanceM <= road.toM;
  return slope + sds * Math.hypot(uncertainty.slope, surveyed ? 0 : NOT_SURVEYED_SLOPE);
}
