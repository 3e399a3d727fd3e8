/** The motion of one manner and one ramp time that the readings make most likely, and how likely it makes them. */
import { exp, log } from '../elementary.ts';
import { solveSymmetric } from '../trace/least-squares.ts';
import { leadShare, type Manner, type Motion } from './onset-model.ts';
import { lastIndexAtOrBefore } from './tape.ts';

/** Spread of a slow change of acceleration, m/s³, and of its own change, m/s⁴, before any reading is seen. */
const JERK_SPREAD = 4;
const SNAP_SPREAD = 12;
const ITERATIONS = 10;
/** A fit stands still when the sum of squares falls by less than this. */
const SETTLED = 1e-3;
/**
 * And when the next step would gain less than this, if the model were straight: a hundredth part of a standard
 * deviation (Newton decrement: Boyd and Vandenberghe, Convex Optimization, 9.5.1; from memory).
 */
const NOTHING_LEFT = 1e-5;
const LEAST_ACCELERATION_MPS2 = 0.2;
/** Beyond so many standard deviations from 0, a normal speed and its size are the same. */
const FOLDED_SDS = 4;
/** Further below what shows than so many, a reading of 0 says nothing. */
const SURELY_HIDDEN_SDS = 6;

/** Readings around an onset; a reading of 0 at `hiddenMps` > 0 says only that speed is below it. */
export interface Readings {
  readonly t: Float64Array;
  readonly v: Float64Array;
  /** Standard deviation of each, m/s. */
  readonly sd: Float64Array;
  readonly hiddenMps: number;
  /** What so many of the first cost while the car is still at rest: `restCosts`, the same for every motion that is tried. */
  readonly atRest: Float64Array;
}

/**
 * Twice the negative logarithm of the likelihood of the first readings of a car at rest, as far as it depends on the
 * motion: of none, of one, of two and so on.
 */
export function restCosts({ v, sd, hiddenMps }: Pick<Readings, 'v' | 'sd' | 'hiddenMps'>): Float64Array {
  const costs = new Float64Array(v.length + 1);
  for (const [k, speed] of v.entries()) costs[k + 1] = costs[k]! + restCost(speed, sd[k]!, hiddenMps);
  return costs;
}

function restCost(speedMps: number, sigma: number, hiddenMps: number): number {
  if (speedMps === 0 && hiddenMps > 0) {
    const below = hiddenMps / sigma;
    return below > SURELY_HIDDEN_SDS ? 0 : -2 * normalTail(below).logProbability;
  }
  const folded = foldedMean(0, sigma);
  const residual = speedMps - folded.mean;
  return residual * residual * (1 / folded.variance) + log(folded.variance / (sigma * sigma));
}

export interface Candidate {
  readonly rise: Manner;
  readonly rampS: number;
  /** Logarithm of the marginal likelihood, up to what all candidates share. */
  readonly logWeight: number;
  readonly motion: Motion;
  readonly covariance: readonly (readonly number[])[];
}

/** Gauss–Newton with priors on c and d; the weight is the Laplace approximation of the marginal likelihood. */
export function solveOnset(
  { t, v, sd, hiddenMps, atRest }: Readings,
  rise: Manner,
  rampS: number,
  guess: Motion,
): Candidate | undefined {
  const lead = rampS * leadShare(rise);
  // Written out below, as `riseAt` and `riseIntegral` say it: called for each reading they take a fifth of the time.
  const [c0, c1, c2, c3] = rise;
  const [half1, third2] = [c1 / 2, c2 / 3];
  let best: Candidate | undefined;
  let step = 1;
  let bestCost = Number.POSITIVE_INFINITY;
  let trial = guess;
  let direction: readonly number[] = [0, 0, 0, 0];
  /** What the sum of squares would fall by with the whole step, if the model were straight. */
  let promised = 0;
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    const [z, a, c, d] = trial;
    const start = z - lead;
    const resting = lastIndexAtOrBefore(t, start) + 1;
    let cost = (c / JERK_SPREAD) ** 2 + (d / SNAP_SPREAD) ** 2 + atRest[resting]!;
    // The lower half of the normal matrix and the right side, by name: an array of them takes twice as long.
    let [n00, n10, n11, n20, n21, n22, n30, n31, n32, n33] = [0, 0, 0, 0, 0, 0, 0, 0, 0, 0];
    let [r0, r1, r2, r3] = [0, 0, 0, 0];
    for (let k = resting; k < t.length; k++) {
      const since = t[k]! - start;
      let speed = 0;
      let g0 = 0;
      let g1 = 0;
      let g2 = 0;
      let g3 = 0;
      if (since >= rampS) {
        const s = since - rampS;
        g1 = t[k]! - z;
        g2 = (s * s) / 2;
        g3 = (s * s * s) / 6;
        speed = a * g1 + c * g2 + d * g3;
        g0 = -(a + c * s + d * g2);
      } else {
        const u = since / rampS;
        g1 = rampS * (u * (c0 + u * (half1 + u * (third2 + (u * c3) / 4))));
        speed = a * g1;
        g0 = -a * (c0 + u * (c1 + u * (c2 + u * c3)));
      }
      const sigma = sd[k]!;
      let pull: number;
      let weight: number;
      if (v[k] === 0 && hiddenMps > 0) {
        const below = (hiddenMps - speed) / sigma;
        if (below > SURELY_HIDDEN_SDS) continue;
        // The car is slower than what shows: the hazard of the normal distribution pulls, and never pushes.
        const { logProbability, hazard } = normalTail(below);
        cost -= 2 * logProbability;
        pull = -hazard / sigma;
        weight = (hazard * (hazard + below)) / (sigma * sigma);
      } else if (Math.abs(speed) / sigma > FOLDED_SDS) {
        const residual = v[k]! - Math.abs(speed);
        weight = 1 / (sigma * sigma);
        cost += residual * residual * weight;
        pull = weight * residual;
      } else {
        const folded = foldedMean(Math.abs(speed), sigma);
        const residual = v[k]! - folded.mean;
        weight = 1 / folded.variance;
        cost += residual * residual * weight + log(folded.variance / (sigma * sigma));
        pull = folded.slope * weight * residual;
        weight *= folded.slope * folded.slope;
      }
      r0 += g0 * pull;
      r1 += g1 * pull;
      r2 += g2 * pull;
      r3 += g3 * pull;
      n00 += weight * g0 * g0;
      n10 += weight * g1 * g0;
      n11 += weight * g1 * g1;
      n20 += weight * g2 * g0;
      n21 += weight * g2 * g1;
      n22 += weight * g2 * g2;
      n30 += weight * g3 * g0;
      n31 += weight * g3 * g1;
      n32 += weight * g3 * g2;
      n33 += weight * g3 * g3;
    }
    n22 += JERK_SPREAD ** -2;
    n33 += SNAP_SPREAD ** -2;
    r2 -= c * JERK_SPREAD ** -2;
    r3 -= d * SNAP_SPREAD ** -2;
    if (cost < bestCost - 1e-9) {
      const matrix = [
        [n00, n10, n20, n30],
        [n10, n11, n21, n31],
        [n20, n21, n22, n32],
        [n30, n31, n32, n33],
      ];
      const solved = solveSymmetric(matrix, [r0, r1, r2, r3]);
      if (solved === undefined) return best;
      const gained = bestCost - cost;
      bestCost = cost;
      best = {
        rise,
        rampS,
        logWeight: -cost / 2 - solved.logDeterminant / 2,
        motion: trial,
        covariance: solved.inverse,
      };
      step = 1;
      direction = solved.solution;
      promised = r0 * direction[0]! + r1 * direction[1]! + r2 * direction[2]! + r3 * direction[3]!;
      if (gained < SETTLED || promised < NOTHING_LEFT) break;
    } else {
      step /= 3;
      // A step of a share s gains at most 2s − s² of what the whole one promised.
      if (2 * step * promised < SETTLED) break;
    }
    const [fromZ, fromA, fromC, fromD] = best!.motion;
    trial = [
      fromZ + step * direction[0]!,
      Math.max(LEAST_ACCELERATION_MPS2, fromA + step * direction[1]!),
      fromC + step * direction[2]!,
      fromD + step * direction[3]!,
    ];
  }
  return best;
}

/** Logarithm of the probability of being below z, and density over probability there. */
function normalTail(z: number): { logProbability: number; hazard: number } {
  const density = exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  // Below −5 the asymptotic form; above, the tail itself.
  if (z < -5) {
    const ratio = -z + 1 / -z;
    return { logProbability: (-z * z) / 2 - log(ratio * Math.sqrt(2 * Math.PI)), hazard: ratio };
  }
  const half = errorFunction(Math.abs(z) / Math.SQRT2) / 2;
  const probability = Math.max(1e-9, z >= 0 ? 0.5 + half : 0.5 - half);
  return { logProbability: log(probability), hazard: density / probability };
}

/** Mean and variance of |x| for a normal x of a mean up to `FOLDED_SDS`, and how the mean follows the normal's mean. */
function foldedMean(mean: number, sigma: number): { mean: number; variance: number; slope: number } {
  const z = mean / sigma;
  const slope = errorFunction(z / Math.SQRT2);
  const folded = sigma * Math.sqrt(2 / Math.PI) * exp((-z * z) / 2) + mean * slope;
  return { mean: folded, variance: mean * mean + sigma * sigma - folded * folded, slope };
}

/** Abramowitz and Stegun 7.1.26, to 1.5e-7, for x ≥ 0. */
function errorFunction(x: number): number {
  const k = 1 / (1 + 0.3275911 * x);
  const series =
    ((((1.061405429 * k - 1.453152027) * k + 1.421413741) * k - 0.284496736) * k + 0.254829592) * k;
  return 1 - series * exp(-x * x);
}
