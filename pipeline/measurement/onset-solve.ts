/** The motion of one manner and one ramp time that the readings make most likely, and how likely it makes them. */
import { exp, log } from '../elementary.ts';
import { solveSymmetric } from '../trace/least-squares.ts';
import { leadShare, type Manner, type Motion, riseAt, riseIntegral } from './onset-model.ts';

/** Spread of a slow change of acceleration, m/s³, and of its own change, m/s⁴, before any reading is seen. */
const JERK_SPREAD = 4;
const SNAP_SPREAD = 12;
const ITERATIONS = 10;
/** A fit stands still when the sum of squares falls by less than this. */
const SETTLED = 1e-3;
const LEAST_ACCELERATION_MPS2 = 0.2;

/** Readings around an onset; a reading of 0 at `hiddenMps` > 0 says only that speed is below it. */
export interface Readings {
  readonly t: Float64Array;
  readonly v: Float64Array;
  /** Standard deviation of each, m/s. */
  readonly sd: Float64Array;
  readonly hiddenMps: number;
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
  { t, v, sd, hiddenMps }: Readings,
  rise: Manner,
  rampS: number,
  guess: Motion,
): Candidate | undefined {
  const lead = rampS * leadShare(rise);
  let best: Candidate | undefined;
  let step = 1;
  let bestCost = Number.POSITIVE_INFINITY;
  let trial = guess;
  let direction: readonly number[] = [0, 0, 0, 0];
  const g = new Float64Array(4);
  const normal = new Float64Array(16);
  const right = new Float64Array(4);
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    normal.fill(0);
    right.fill(0);
    const [z, a, c, d] = trial;
    let cost = (c / JERK_SPREAD) ** 2 + (d / SNAP_SPREAD) ** 2;
    const start = z - lead;
    for (let k = 0; k < t.length; k++) {
      const since = t[k]! - start;
      let speed = 0;
      g.fill(0);
      if (since >= rampS) {
        const s = since - rampS;
        g[1] = t[k]! - z;
        g[2] = (s * s) / 2;
        g[3] = (s * s * s) / 6;
        speed = a * g[1] + c * g[2] + d * g[3];
        g[0] = -(a + c * s + d * g[2]);
      } else if (since > 0) {
        const u = since / rampS;
        g[1] = rampS * riseIntegral(rise, u);
        speed = a * g[1];
        g[0] = -a * riseAt(rise, u);
      }
      const sigma = sd[k]!;
      let pull: number;
      let weight: number;
      if (v[k] === 0 && hiddenMps > 0) {
        const below = (hiddenMps - speed) / sigma;
        if (below > 6) continue;
        // The car is slower than what shows: the hazard of the normal distribution pulls, and never pushes.
        const { logProbability, hazard } = normalTail(below);
        cost -= 2 * logProbability;
        pull = -hazard / sigma;
        weight = (hazard * (hazard + below)) / (sigma * sigma);
      } else {
        const folded = foldedMean(Math.abs(speed), sigma);
        const residual = v[k]! - folded.mean;
        weight = 1 / folded.variance;
        cost += residual * residual * weight + log(folded.variance / (sigma * sigma));
        pull = folded.slope * weight * residual;
        weight *= folded.slope * folded.slope;
      }
      if (since <= 0) continue;
      for (let r = 0; r < 4; r++) {
        right[r]! += g[r]! * pull;
        for (let q = 0; q <= r; q++) normal[4 * r + q]! += weight * g[r]! * g[q]!;
      }
    }
    normal[10]! += JERK_SPREAD ** -2;
    normal[15]! += SNAP_SPREAD ** -2;
    right[2]! -= c * JERK_SPREAD ** -2;
    right[3]! -= d * SNAP_SPREAD ** -2;
    if (cost < bestCost - 1e-9) {
      const at = (r: number, q: number): number => normal[r >= q ? 4 * r + q : 4 * q + r]!;
      const matrix = [0, 1, 2, 3].map(r => [0, 1, 2, 3].map(q => at(r, q)));
      const solved = solveSymmetric(matrix, [...right]);
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
      if (gained < SETTLED) break;
      step = 1;
      direction = solved.solution;
    } else {
      step /= 3;
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

/** Mean and variance of |x| for a normal x, and how the mean follows the normal's mean. */
function foldedMean(mean: number, sigma: number): { mean: number; variance: number; slope: number } {
  const z = mean / sigma;
  if (z > 4) return { mean, variance: sigma * sigma, slope: 1 };
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
