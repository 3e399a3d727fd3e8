/** How far a car comes while it gains speed: integration of its acceleration along a road that rises and falls. */
import { STANDARD_GRAVITY_MPS2 } from '../units.ts';

/** A road by height, as `SlopeProfile` gives it; the driven direction, 0 m at the line. */
export interface RoadSlope {
  /** Height over the line, m; beyond the ends the nearest stretch goes on. */
  heightAt(distanceM: number): number;
  /** Rise over run, a fraction. */
  slopeAt(distanceM: number): number;
}

/** Acceleration at a speed on a level road, m/s²; 0 or less where the car gets no faster. */
export type PullLaw = (speedMps: number) => number;

/** A drive at full power; struct of arrays of equal length, in the order of time. */
export interface PullPath {
  readonly speedMps: readonly number[];
  readonly distanceM: readonly number[];
  readonly timeS: readonly number[];
  /** Greatest speed so far. */
  readonly topMps: readonly number[];
}

const STEP_S = 0.02;
/** A car that has not come to the end by then does not: it stands on a slope, s. */
const LONGEST_S = 400;
/** Less than this is not counted as gaining speed, m/s². */
const LEAST_MPS2 = 1e-3;

/**
 * Full power from the line at `fromMps` until the end of the road, by the midpoint rule: exact for a constant
 * acceleration. No speed is counted on that the car would not also hold on a level road, however the road falls.
 * @param apparentMass mass with what turns, over mass: a slope has the wheels and the engine to move as well
 */
export function pullPath(
  law: PullLaw,
  slope: RoadSlope,
  lengthM: number,
  fromMps = 0,
  apparentMass = 1,
): PullPath {
  const path = { speedMps: [fromMps], distanceM: [0], timeS: [0], topMps: [fromMps] };
  let speed = fromMps;
  let top = fromMps;
  let distance = 0;
  for (let step = 1; distance < lengthM && step * STEP_S < LONGEST_S; step++) {
    const ahead = speed * STEP_S;
    // Over the step and not at its beginning: where the slope changes inside it, no height is lost.
    const rise =
      ahead > 1e-6
        ? (slope.heightAt(distance + ahead) - slope.heightAt(distance)) / ahead
        : slope.slopeAt(distance);
    const uphill = (STANDARD_GRAVITY_MPS2 * rise) / apparentMass;
    if (law(speed) < LEAST_MPS2) break;
    const first = law(speed) - uphill;
    const next = speed + (law(Math.max(0, speed + (first * STEP_S) / 2)) - uphill) * STEP_S;
    if (!(next > 0)) break;
    distance += ((speed + next) / 2) * STEP_S;
    speed = next;
    path.speedMps.push(speed);
    path.distanceM.push(distance);
    path.timeS.push(step * STEP_S);
    top = Math.max(top, speed);
    path.topMps.push(top);
  }
  return path;
}

/** Distance from the line at which a speed is first reached, m; infinite where it is not reached on the road. */
export function reachedM(path: PullPath, speedMps: number): number {
  const { speedMps: speeds, distanceM, timeS, topMps } = path;
  if (!(speedMps <= topOf(path))) return Number.POSITIVE_INFINITY;
  let at = 0;
  for (let after = topMps.length - 1; at < after; ) {
    const middle = (at + after) >> 1;
    if (topMps[middle]! >= speedMps) after = middle;
    else at = middle + 1;
  }
  if (at === 0) return 0;
  const before = speeds[at - 1]!;
  const share = (speedMps - before) / (speeds[at]! - before);
  return distanceM[at - 1]! + ((before + speedMps) / 2) * share * (timeS[at]! - timeS[at - 1]!);
}

/** Greatest speed of the drive, m/s. */
export const topOf = ({ topMps }: PullPath): number => topMps.at(-1)!;
