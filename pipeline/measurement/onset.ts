/**
 * The instant a car leaves rest, from the whole rise of speed and not from a threshold.
 *
 * Acceleration is taken to rise from nothing to its full value in a time nobody knows, in a manner nobody knows,
 * and then to change slowly:
 *
 *   acceleration(t) = a · r(u), u = (t − t₀)/τ while u < 1;  a + c·s + d·s²/2 with s = t − t₀ − τ afterwards.
 *
 * For every ramp time τ of a grid and every manner r the rest is solved by least squares; the answers are then
 * averaged with the weight the readings give each of them (a posterior mean, JCGM 101 in spirit). Averaging rather
 * than picking the best keeps the estimate unbiased where the ramp falls between two readings, and its spread
 * states honestly how much the unknown manner of the rise matters.
 */

import { solveSymmetric } from '../trace/least-squares.ts';
import { slopeOver } from '../trace/slope.ts';
import { ROLLOUT_M } from '../units.ts';

/** What is taken for possible before any reading is seen. */
export interface RampRange {
  readonly shortestS: number;
  readonly longestS: number;
  /** A ramp of time τ is taken for as likely as τ to this power, per unit of log τ. */
  readonly lean: number;
}
/** Drivers and drivelines: a step is possible, a few tenths of a second are usual. */
export const START_RAMPS: RampRange = { shortestS: 0.002, longestS: 0.7, lean: 1.5 };
/** Brakes hold until the wheels stand still, so that the end is close to a step. */
export const STOP_RAMPS: RampRange = { shortestS: 0.002, longestS: 0.15, lean: -0.5 };
const RAMP_COUNT = 28;
/** The second beginning is tried at every so many ramps. */
const FRESH_EVERY = 4;
/** Rolling resistance is about a thirtieth of a hard start's force: a smooth ramp gets there after this share of it. */
const HELD_SHARE = 0.09;
/** How acceleration may rise: c₁u + c₂u² + c₃u³, from 0 at u = 0 to 1 at u = 1. */
type Manner = readonly [c1: number, c2: number, c3: number];
const MANNERS: readonly Manner[] = [[1, 0, 0], heldSmooth(HELD_SHARE)];

/**
 * A smooth rise 3x² − 2x³ of the driving force, seen from where it exceeds what holds the car: `heldX` of the ramp is
 * over before anything moves.
 */
function heldSmooth(heldX: number): Manner {
  const left = 1 - heldX;
  const rise = 1 - heldX * heldX * (3 - 2 * heldX);
  return [
    (6 * heldX * left * left) / rise,
    (3 * left * left * (1 - 2 * heldX)) / rise,
    (-2 * left ** 3) / rise,
  ];
}

/** The model is trusted to this share of speed, so that what happens later weighs less than the onset; less beyond `AFTER_S`. */
export const ONSET_MODEL_SHARE = 0.025;
/** Spread of a slow change of acceleration, m/s³, and of its own change, m/s⁴, before any reading is seen. */
const JERK_SPREAD = 4;
const SNAP_SPREAD = 12;
/** Readings at rest before the rise that are looked at, s. */
const BEFORE_S = 1;
/** The rise is followed up to this speed or for this long, but for at least `AFTER_READINGS` readings. */
const AFTER_MPS = 6;
const AFTER_S = 1.2;
const AFTER_READINGS = 5;
/** Readings on the edge of a stretch belong to it whatever the last bits of their times. */
const EDGE_S = 1e-6;
/** The first guess looks at this much of the rise, s. */
const EARLY_S = 0.7;
/** Readings scatter if their noise is more than this, m/s; zeros hide at most so much speed, m/s. */
const SCATTERING_MPS = 0.001;
const HIDDEN_MOST_MPS = 0.17;
const ITERATIONS = 8;

export interface Onset {
  /** First movement, s. */
  readonly atS: number;
  /** Standard deviation, s. */
  readonly sdS: number;
  /** When the car has covered 0.3048 m, s; its standard deviation; speed there, m/s. */
  readonly rolloutAtS: number;
  readonly rolloutSdS: number;
  readonly rolloutMps: number;
  /** Standard deviation of the time spent on the first 0.3048 m, s. */
  readonly rolloutTimeSdS: number;
}

interface Candidate {
  readonly manner: Manner;
  readonly rampS: number;
  readonly logWeight: number;
  /** Where the straight part, drawn back, meets zero (s); a, c, d. */
  readonly parameters: readonly number[];
  readonly covariance: readonly (readonly number[])[];
}

/**
 * Fits the rise that begins after the reading `restIndex`, the last one at rest. `firstIndex` and `lastIndex` bound
 * the readings that may be used. Returns undefined with fewer than two readings on the way up.
 */
export function fitOnset(
  timeS: Float64Array,
  speedMps: Float64Array,
  restIndex: number,
  firstIndex: number,
  lastIndex: number,
  noiseMps: number,
  ramps: RampRange = START_RAMPS,
): Onset | undefined {
  const window = readingsAround(timeS, speedMps, restIndex, firstIndex, lastIndex);
  if (window.end - restIndex < 2) return undefined;
  const originS = timeS[restIndex]!;
  const count = window.end - window.begin + 1;
  const t = new Float64Array(count);
  const v = new Float64Array(count);
  const sd = new Float64Array(count);
  // A recorder whose readings scatter on the move but are 0 at rest hides speeds under its smallest reading.
  const smallest = smallestPositive(speedMps, window.begin, window.end);
  const hiddenMps = noiseMps > SCATTERING_MPS ? Math.min(HIDDEN_MOST_MPS, 0.6 * smallest) : 0;
  for (let k = 0; k < count; k++) {
    t[k] = timeS[window.begin + k]! - originS;
    v[k] = speedMps[window.begin + k]!;
    const held = v[k] === 0 ? hiddenMps : 0;
    // Readings taken in for want of nearer ones are trusted the less the later they come.
    const trust = ONSET_MODEL_SHARE * Math.max(1, t[k]! / AFTER_S) ** 2;
    sd[k] = Math.hypot(Math.max(noiseMps, 1e-4), held, trust * v[k]!);
  }
  const candidates: Candidate[] = [];
  const fresh = firstGuess(t, v);
  for (const manner of MANNERS) {
    let previous: readonly number[] = fresh;
    for (let k = 0; k < RAMP_COUNT; k++) {
      const rampS = ramps.shortestS * (ramps.longestS / ramps.shortestS) ** (k / (RAMP_COUNT - 1));
      const expectation = ramps.lean * Math.log(rampS);
      // Two beginnings, because the sum of squares can have a second valley where the acceleration dips.
      const guesses = k % FRESH_EVERY === 0 ? [previous, fresh] : [previous];
      const found = guesses.flatMap(guess => solve(t, v, sd, manner, rampS, guess) ?? []);
      const [best] = found.sort((one, other) => other.logWeight - one.logWeight);
      if (best === undefined) continue;
      candidates.push({ ...best, logWeight: best.logWeight + expectation });
      previous = best.parameters;
    }
  }
  return candidates.length === 0 ? undefined : average(candidates, originS);
}

function readingsAround(
  timeS: Float64Array,
  speedMps: Float64Array,
  restIndex: number,
  firstIndex: number,
  lastIndex: number,
): { begin: number; end: number } {
  let begin = restIndex;
  while (begin > firstIndex && timeS[restIndex]! - timeS[begin - 1]! <= BEFORE_S + EDGE_S) begin--;
  let end = restIndex;
  while (end < lastIndex) {
    const enough = end - restIndex >= AFTER_READINGS;
    if (enough && (speedMps[end + 1]! > AFTER_MPS || timeS[end + 1]! - timeS[restIndex]! > AFTER_S + EDGE_S))
      break;
    end++;
  }
  return { begin, end };
}

function smallestPositive(values: Float64Array, begin: number, end: number): number {
  let smallest = Number.POSITIVE_INFINITY;
  for (let k = begin; k <= end; k++) if (values[k]! > 0 && values[k]! < smallest) smallest = values[k]!;
  return Number.isFinite(smallest) ? smallest : 0;
}

/** A straight line through the early readings of the rise, where no later change of acceleration misleads. */
function firstGuess(t: Float64Array, v: Float64Array): number[] {
  const last = t.length - 1;
  let end = last;
  while (end > 2 && t[end - 1]! > EARLY_S) end--;
  let begin = end;
  while (begin > 0 && v[begin - 1]! > v[end]! / 4 && t[begin - 1]! > 0) begin--;
  begin = Math.min(begin, end - 1);
  const slope = Math.max(0.5, slopeOver(t, v, begin, end));
  return [(t[begin]! + t[end]!) / 2 - (v[begin]! + v[end]!) / 2 / slope, slope, 0, 0];
}

const riseAt = ([c1, c2, c3]: Manner, u: number): number => u * (c1 + u * (c2 + u * c3));
/** Integral of the rise from 0 to u. */
const riseIntegral = ([c1, c2, c3]: Manner, u: number): number =>
  u * u * (c1 / 2 + u * (c2 / 3 + (u * c3) / 4));
/** Integral of that integral from 0 to u. */
const riseSecondIntegral = ([c1, c2, c3]: Manner, u: number): number =>
  u * u * u * (c1 / 6 + u * (c2 / 12 + (u * c3) / 20));

/** First movement before the point where the straight part, drawn back, meets zero, as a share of τ. */
const leadShare = (manner: Manner): number => 1 - riseIntegral(manner, 1);

function modelSpeed(manner: Manner, rampS: number, p: readonly number[], t: number): number {
  const since = t - (p[0]! - rampS * leadShare(manner));
  if (since <= 0) return 0;
  if (since < rampS) return p[1]! * rampS * riseIntegral(manner, since / rampS);
  const s = since - rampS;
  return p[1]! * (t - p[0]!) + (p[2]! * s * s) / 2 + (p[3]! * s * s * s) / 6;
}

function modelDistance(manner: Manner, rampS: number, p: readonly number[], t: number): number {
  const since = t - (p[0]! - rampS * leadShare(manner));
  if (since <= 0) return 0;
  if (since < rampS) return p[1]! * rampS * rampS * riseSecondIntegral(manner, since / rampS);
  const s = since - rampS;
  const ramp = p[1]! * rampS * (rampS * riseSecondIntegral(manner, 1) + riseIntegral(manner, 1) * s);
  return ramp + (p[1]! * s * s) / 2 + (p[2]! * s ** 3) / 6 + (p[3]! * s ** 4) / 24;
}

/** Gauss–Newton with priors on c and d; the weight is the Laplace approximation of the marginal likelihood. */
function solve(
  t: Float64Array,
  v: Float64Array,
  sd: Float64Array,
  manner: Manner,
  rampS: number,
  guess: readonly number[],
): Candidate | undefined {
  const lead = rampS * leadShare(manner);
  const p = [...guess];
  let best: Candidate | undefined;
  let step = 1;
  let bestCost = Number.POSITIVE_INFINITY;
  let trial = p;
  let direction: number[] = [0, 0, 0, 0];
  for (let iteration = 0; iteration < ITERATIONS; iteration++) {
    const normal = [0, 1, 2, 3].map(() => [0, 0, 0, 0]);
    const right = [0, 0, 0, 0];
    let cost = (trial[2]! / JERK_SPREAD) ** 2 + (trial[3]! / SNAP_SPREAD) ** 2;
    const [z, a, c, d] = trial as [number, number, number, number];
    const start = z - lead;
    for (let k = 0; k < t.length; k++) {
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
      } else if (since > 0) {
        const u = since / rampS;
        const rise = riseIntegral(manner, u);
        g1 = rampS * rise;
        speed = a * g1;
        g0 = -a * riseAt(manner, u);
      }
      const sigma = sd[k]!;
      const folded = foldedMean(Math.abs(speed), sigma);
      const residual = v[k]! - folded.mean;
      const weight = 1 / folded.variance;
      cost += residual * residual * weight + Math.log(folded.variance / (sigma * sigma));
      const damp = folded.slope;
      const g = [g0 * damp, g1 * damp, g2 * damp, g3 * damp];
      for (let r = 0; r < 4; r++) {
        right[r]! += weight * g[r]! * residual;
        for (let q = 0; q <= r; q++) normal[r]![q]! += weight * g[r]! * g[q]!;
      }
    }
    for (let r = 0; r < 4; r++) for (let q = r + 1; q < 4; q++) normal[r]![q] = normal[q]![r]!;
    normal[2]![2]! += JERK_SPREAD ** -2;
    normal[3]![3]! += SNAP_SPREAD ** -2;
    right[2]! -= trial[2]! * JERK_SPREAD ** -2;
    right[3]! -= trial[3]! * SNAP_SPREAD ** -2;
    if (cost < bestCost - 1e-9) {
      const solved = solveSymmetric(normal, right);
      if (solved === undefined) return best;
      const gained = bestCost - cost;
      bestCost = cost;
      best = {
        manner,
        rampS,
        logWeight: -cost / 2 - solved.logDeterminant / 2,
        parameters: trial,
        covariance: solved.inverse,
      };
      if (gained < 1e-3) break;
      step = 1;
      direction = solved.solution;
    } else {
      step /= 3;
    }
    trial = best!.parameters.map((value, k) => value + step * direction[k]!);
    trial[1] = Math.max(0.2, trial[1]!);
  }
  return best;
}

/** Mean and variance of |x| for a normal x, and how the mean follows the normal's mean. */
function foldedMean(mean: number, sigma: number): { mean: number; variance: number; slope: number } {
  const z = mean / sigma;
  if (z > 4) return { mean, variance: sigma * sigma, slope: 1 };
  const slope = errorFunction(z / Math.SQRT2);
  const folded = sigma * Math.sqrt(2 / Math.PI) * Math.exp((-z * z) / 2) + mean * slope;
  return { mean: folded, variance: mean * mean + sigma * sigma - folded * folded, slope };
}

/** Abramowitz and Stegun 7.1.26, to 1.5e-7, for x ≥ 0. */
function errorFunction(x: number): number {
  const k = 1 / (1 + 0.3275911 * x);
  const series =
    ((((1.061405429 * k - 1.453152027) * k + 1.421413741) * k - 0.284496736) * k + 0.254829592) * k;
  return 1 - series * Math.exp(-x * x);
}

/** Moments of the mixture of all candidates. */
function average(candidates: readonly Candidate[], originS: number): Onset {
  const highest = Math.max(...candidates.map(candidate => candidate.logWeight));
  let total = 0;
  let start = 0;
  let startSquare = 0;
  let roll = 0;
  let rollSquare = 0;
  let spent = 0;
  let spentSquare = 0;
  let rollMps = 0;
  for (const candidate of candidates) {
    const weight = Math.exp(candidate.logWeight - highest);
    if (weight < 1e-5) continue;
    const { manner, rampS, parameters: p, covariance } = candidate;
    const startS = p[0]! - rampS * leadShare(manner);
    const rollS = timeToCover(manner, rampS, p, startS, ROLLOUT_M);
    const mps = modelSpeed(manner, rampS, p, rollS);
    const slope = p.map((value, k) => {
      const h = k === 0 ? 1e-4 : 1e-3;
      const changed = p.map((other, j) => (j === k ? value + h : other));
      return (ROLLOUT_M - modelDistance(manner, rampS, changed, rollS)) / h / Math.max(mps, 0.05);
    });
    const spentSlope = slope.map((value, k) => (k === 0 ? value - 1 : value));
    total += weight;
    start += weight * startS;
    startSquare += weight * (startS * startS + covariance[0]![0]!);
    roll += weight * rollS;
    rollSquare += weight * (rollS * rollS + quadratic(slope, covariance));
    spent += weight * (rollS - startS);
    spentSquare += weight * ((rollS - startS) ** 2 + quadratic(spentSlope, covariance));
    rollMps += weight * mps;
  }
  const sd = (sum: number, squares: number): number =>
    Math.sqrt(Math.max(0, squares / total - (sum / total) ** 2));
  return {
    atS: originS + start / total,
    sdS: sd(start, startSquare),
    rolloutAtS: originS + roll / total,
    rolloutSdS: sd(roll, rollSquare),
    rolloutMps: rollMps / total,
    rolloutTimeSdS: sd(spent, spentSquare),
  };
}

function quadratic(slope: readonly number[], covariance: readonly (readonly number[])[]): number {
  let value = 0;
  for (const [r, row] of covariance.entries())
    for (const [q, c] of row.entries()) value += slope[r]! * c * slope[q]!;
  return value;
}

function timeToCover(
  manner: Manner,
  rampS: number,
  p: readonly number[],
  startS: number,
  distanceM: number,
): number {
  let low = startS;
  let high = startS + 0.1;
  while (modelDistance(manner, rampS, p, high) < distanceM && high < startS + 10) high += 0.1;
  for (let k = 0; k < 40; k++) {
    const middle = (low + high) / 2;
    if (modelDistance(manner, rampS, p, middle) < distanceM) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
