/** The room a stop takes on a road that rises and falls. */
import { risingRoot } from '../root.ts';
import { STANDARD_GRAVITY_MPS2 } from '../units.ts';
import type { RoadSlope } from './plan-pull.ts';

const EVERY_M = 5;
const LONGEST_M = 20_000;
/** Nearer than any figure is printed. */
const NEAR_M = 1e-9;

/** Steepest fall of a road between the line and a place, a fraction, 0 or more; it only grows with the place. */
export function steepestFallUpTo(slope: RoadSlope, lengthM: number): (placeM: number) => number {
  const falls: number[] = [];
  let steepest = 0;
  for (let i = 0; i * EVERY_M < lengthM + EVERY_M; i++) {
    steepest = Math.max(steepest, -slope.slopeAt(i * EVERY_M));
    falls.push(steepest);
  }
  return placeM => falls[Math.min(falls.length - 1, Math.max(0, Math.ceil(placeM / EVERY_M)))]!;
}

export interface Brakes {
  /** On a level road once the brakes act in full, m/s². */
  readonly decelerationMps2: number;
  /** In which the deceleration rises evenly from nothing, s. */
  readonly buildUpS: number;
}

/**
 * Distance from the touch of the brake to rest, m. On a level road v t/2 − a t²/24 + v²/2a exactly, with t the
 * build-up; on a slope the stop ends where a s + g Δh has used up v²/2. Infinite where the road falls so far and so
 * steeply that the brakes do not stop the car within 20 km.
 */
export function brakingDistanceM(
  speedMps: number,
  fromM: number,
  { decelerationMps2, buildUpS }: Brakes,
  slope: RoadSlope,
): number {
  const buildUpM = Math.max(0, (speedMps * buildUpS) / 2 - (decelerationMps2 * buildUpS * buildUpS) / 24);
  const energy = (speedMps * speedMps) / 2;
  const beginM = fromM + buildUpM;
  const beginHeightM = slope.heightAt(beginM);
  const used = (lengthM: number): number =>
    decelerationMps2 * lengthM + STANDARD_GRAVITY_MPS2 * (slope.heightAt(beginM + lengthM) - beginHeightM);
  let low = 0;
  let high = energy / decelerationMps2 / 2;
  while (used(high) < energy) {
    if (high > LONGEST_M) return Number.POSITIVE_INFINITY;
    low = high;
    high = 1.25 * high + 0.1;
  }
  const lengthM = risingRoot(
    each => used(each) - energy,
    each => decelerationMps2 + STANDARD_GRAVITY_MPS2 * slope.slopeAt(beginM + each),
    low,
    high,
    NEAR_M,
  );
  return buildUpM + lengthM;
}
