/** What all answers of a fitted onset say together: first movement, the first foot, and what the fit found. */
import { exp } from '../elementary.ts';
import { ROLLOUT_M } from '../units.ts';
import {
  leadShare,
  type Manner,
  type Motion,
  motionDistance,
  motionSpeed,
  type RampManner,
  timeToCover,
} from './onset-model.ts';
import type { Candidate } from './onset-solve.ts';

/** Answers of less than this share of the weight of the best are not worth their arithmetic. */
const NEGLIGIBLE = 1e-5;

/** A manner of the rise, or the whole force at once. */
export type MannerName = RampManner['name'] | 'at once';

/** An answer with the prior weight of its ramp and the share of its manner. */
export interface Weighed extends Candidate {
  readonly name: MannerName;
  readonly share: number;
  readonly doubt: number;
}

/** One motion of a fit: how acceleration rises and what it rises to, SI. */
export interface FittedMotion {
  readonly manner: MannerName;
  readonly rise: Manner;
  /** Time in which acceleration rises to its full value, s. */
  readonly rampS: number;
  /** Leaving rest, and where the straight part drawn back meets zero, s after the fit's origin. */
  readonly leavesS: number;
  readonly meetsS: number;
  /** Acceleration where the rise ends, its change (m/s³) and the change of that (m/s⁴). */
  readonly accelerationMps2: number;
  readonly jerkMps3: number;
  readonly snapMps4: number;
}

/**
 * What a fit found, so that it can be shown without fitting again. Times count from `originS`, forwards for a start
 * and backwards for a stop: a stop is an onset seen from its end.
 */
export interface OnsetFit {
  readonly originS: number;
  readonly direction: 1 | -1;
  /** Readings of the trace that were used. */
  readonly firstIndex: number;
  readonly lastIndex: number;
  /** The heaviest answer; its speeds are the curve through the readings (`fittedSpeed`). */
  readonly likeliest: FittedMotion;
  /** Mean of the ramp time over all answers and its standard deviation, s. */
  readonly rampS: number;
  readonly rampSdS: number;
  /** Mean full acceleration over all answers, m/s². */
  readonly accelerationMps2: number;
  /** What the readings and the shares leave to each manner, heaviest first; together 1. */
  readonly manners: readonly { readonly name: MannerName; readonly share: number }[];
  /** How many answers were solved. */
  readonly answers: number;
}

export interface Onset {
  /** First movement, s. */
  readonly atS: number;
  /** Standard deviation, s. */
  readonly sdS: number;
  /** When the car has covered 0.3048 m, s; its standard deviation; speed there, m/s. */
  readonly rolloutAtS: number;
  readonly rolloutSdS: number;
  readonly rolloutMps: number;
  readonly fit: OnsetFit;
}

/** Speed of the likeliest answer at an instant of the log, m/s. */
export function fittedSpeed({ likeliest, originS, direction }: OnsetFit, timeS: number): number {
  const { rise, rampS, meetsS, accelerationMps2, jerkMps3, snapMps4 } = likeliest;
  return motionSpeed(
    rise,
    rampS,
    [meetsS, accelerationMps2, jerkMps3, snapMps4],
    direction * (timeS - originS),
  );
}

/**
 * Moments of the mixture of all answers. The estimate weighs the manners by their shares; its variance is that about
 * the estimate when every manner counts by its doubt.
 */
export function averageOnsets(
  found: readonly Weighed[],
  originS: number,
  window: { readonly begin: number; readonly end: number },
): Onset {
  const highest = Math.max(...found.map(({ logWeight }) => logWeight));
  const starts = new Moments();
  const rolls = new Moments();
  let rollMps = 0;
  for (const { rise, rampS, motion, covariance, logWeight, share, doubt } of found) {
    const weight = exp(logWeight - highest);
    if (weight < NEGLIGIBLE) continue;
    const startS = motion[0] - rampS * leadShare(rise);
    const rollS = timeToCover(rise, rampS, motion, startS, ROLLOUT_M);
    const mps = motionSpeed(rise, rampS, motion, rollS);
    const slope = motion.map((value, k) => {
      const h = k === 0 ? 1e-4 : 1e-3;
      const changed = motion.with(k, value + h) as unknown as Motion;
      return (ROLLOUT_M - motionDistance(rise, rampS, changed, rollS)) / h / Math.max(mps, 0.05);
    });
    starts.add(weight * share, weight * doubt, startS, covariance[0]![0]!);
    rolls.add(weight * share, weight * doubt, rollS, quadratic(slope, covariance));
    rollMps += weight * share * mps;
  }
  return {
    atS: originS + starts.mean(),
    sdS: starts.sd(),
    rolloutAtS: originS + rolls.mean(),
    rolloutSdS: rolls.sd(),
    rolloutMps: rollMps / rolls.shared,
    fit: {
      originS,
      direction: 1,
      firstIndex: window.begin,
      lastIndex: window.end,
      ...described(found, highest),
    },
  };
}

function described(
  found: readonly Weighed[],
  highest: number,
): Omit<OnsetFit, 'originS' | 'direction' | 'firstIndex' | 'lastIndex'> {
  const shares = new Map<MannerName, number>();
  let total = 0;
  let ramp = 0;
  let squares = 0;
  let acceleration = 0;
  let likeliest = found[0]!;
  let most = 0;
  for (const one of found) {
    const weight = exp(one.logWeight - highest) * one.share;
    if (weight > most) {
      most = weight;
      likeliest = one;
    }
    shares.set(one.name, (shares.get(one.name) ?? 0) + weight);
    total += weight;
    ramp += weight * one.rampS;
    squares += weight * one.rampS ** 2;
    acceleration += weight * one.motion[1];
  }
  const { name, rise, rampS, motion } = likeliest;
  const [meetsS, accelerationMps2, jerkMps3, snapMps4] = motion;
  const rampMeanS = ramp / total;
  return {
    likeliest: {
      manner: name,
      rise,
      rampS,
      leavesS: meetsS - rampS * leadShare(rise),
      meetsS,
      accelerationMps2,
      jerkMps3,
      snapMps4,
    },
    rampS: rampMeanS,
    rampSdS: Math.sqrt(Math.max(0, squares / total - rampMeanS ** 2)),
    accelerationMps2: acceleration / total,
    manners: [...shares]
      .map(([manner, weight]) => ({ name: manner, share: weight / total }))
      .sort((a, b) => b.share - a.share),
    answers: found.length,
  };
}

/** Running sums of a mixture. */
class Moments {
  shared = 0;
  private total = 0;
  private sharedSum = 0;
  private sum = 0;
  private squares = 0;

  /** `shared`: weight in the estimate; `doubted`: weight in its uncertainty. */
  add(shared: number, doubted: number, value: number, variance: number): void {
    this.shared += shared;
    this.sharedSum += shared * value;
    this.total += doubted;
    this.sum += doubted * value;
    this.squares += doubted * (value * value + variance);
  }

  mean(): number {
    return this.sharedSum / this.shared;
  }

  sd(): number {
    const mean = this.mean();
    const { squares, sum, total } = this;
    return Math.sqrt(Math.max(0, squares / total - (2 * mean * sum) / total + mean * mean));
  }
}

function quadratic(slope: readonly number[], covariance: readonly (readonly number[])[]): number {
  let value = 0;
  for (const [r, row] of covariance.entries())
    for (const [q, c] of row.entries()) value += slope[r]! * c * slope[q]!;
  return value;
}
