/** The room a stop takes on a road that rises and falls. */
import { STANDARD_GRAVITY_MPS2 } from '../units.ts';
import type { RoadSlope } from './plan-pull.ts';

/** Steepest rise and fall of a road over any 5 m, fractions; the fall is negative or 0. */
export interface SlopeRange {
  readonly steepestRise: number;
  readonly steepestFall: number;
}

const EVERY_M = 5;

/** The steepest places of a road, its ends included. */
export function slopeRange(slope: RoadSlope, lengthM: number): SlopeRange {
  let steepestRise = 0;
  let steepestFall = 0;
  const count = Math.max(1, Math.ceil(lengthM / EVERY_M));
  for (let i = 0; i <= count; i++) {
    const here = slope.slopeAt((lengthM * i) / count);
    steepestRise = Math.max(steepestRise, here);
    steepestFall = Math.min(steepestFall, here);
  }
  return { steepestRise, steepestFall };
}

export interface Brakes {
  /** On a level road once the brakes act in full, m/s². */
  readonly decelerationMps2: number;
  /** In which the deceleration rises evenly from nothing, s. */
  readonly buildUpS: number;
}

/**
 * Distance from the touch of the brake to rest, m. On a level road v t/2 − a t²/24 + v²/2a exactly, with t the
 * build-up; on a slope the stop ends where a s + g Δh has used up v²/2. Infinite where the steepest fall of the road
 * pulls as hard as the brakes.
 */
export function brakingDistanceM(
  speedMps: number,
  fromM: number,
  { decelerationMps2, buildUpS }: Brakes,
  slope: RoadSlope,
  range: SlopeRange,
): number {
  const buildUpM = Math.max(0, (speedMps * buildUpS) / 2 - (decelerationMps2 * buildUpS * buildUpS) / 24);
  const weakest = decelerationMps2 + STANDARD_GRAVITY_MPS2 * range.steepestFall;
  if (!(weakest > 0)) return Number.POSITIVE_INFINITY;
  const energy = (speedMps * speedMps) / 2;
  const beginM = fromM + buildUpM;
  const beginHeightM = slope.heightAt(beginM);
  const used = (lengthM: number): number =>
    decelerationMps2 * lengthM + STANDARD_GRAVITY_MPS2 * (slope.heightAt(beginM + lengthM) - beginHeightM);
  let low = energy / (decelerationMps2 + STANDARD_GRAVITY_MPS2 * range.steepestRise);
  let high = energy / weakest;
  for (let step = 0; step < 60 && high - low > 1e-9; step++) {
    const middle = (low + high) / 2;
    if (used(middle) < energy) low = middle;
    else high = middle;
  }
  return buildUpM + high;
}
