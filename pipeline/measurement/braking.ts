/** Stopping distance from a passed speed, and mean fully developed deceleration. */

import type { Run } from '../run/run.ts';
import { slopeOver } from '../trace/slope.ts';
import type { Trace } from '../trace/trace.ts';
import { kmhToMps, mphToMps } from '../units.ts';
import { EARLIEST_S, passingAtBrakes, SCATTERING_MPS, SLOWEST_HZ } from './brake-onset.ts';
import { type Crossing, fallingThrough } from './crossing.ts';
import { crossingBudget } from './crossing-budget.ts';
import { lagOfMfdd, lagOfStop } from './lag.ts';
import type { BrakingFigure } from './measurement.ts';
import type { Stop } from './stop.ts';
import { betweenCrossings, lastIndexAtOrBefore, layTape } from './tape.ts';
import { type BudgetItem, combined, expanded, rectangular } from './uncertainty.ts';

/** Speeds from which stopping distances are given, by the unit they are named in. The distance begins where the car passes the speed. */
export const BRAKING_SPEEDS_KMH: readonly number[] = [100, 80, 50];
export const BRAKING_SPEEDS_MPH: readonly number[] = [70, 60];
export const BRAKING_SPEEDS_MPS: readonly number[] = [
  ...BRAKING_SPEEDS_KMH.map(kmhToMps),
  ...BRAKING_SPEEDS_MPH.map(mphToMps),
];
/** UN R13-H Annex 3, 1.1.2: the deceleration is fully developed between these shares of the initial speed. */
export const MFDD_UPPER_SHARE = 0.8;
export const MFDD_LOWER_SHARE = 0.1;
/** Braking has begun where speed falls faster than this, m/s². */
export const BRAKING_ONSET_MPS2 = 1.5;
/** Deceleration is fully there within this long; below this share of it, it is still rising where the speed is passed. */
const FULL_WITHIN_S = 0.6;
const STILL_RISING_SHARE = 0.6;
/** Half width over which the onset is looked for, s. */
const ONSET_HALF_WIDTH_S = 0.15;

/**
 * Mean fully developed deceleration, m/s², from two speeds (m/s) and the distances (m) at which they were passed:
 * (vb² − ve²) / (2 (se − sb)), which is the regulation's 25.92 with speeds in km/h.
 */
export function meanFullyDevelopedMps2(
  upperMps: number,
  lowerMps: number,
  upperM: number,
  lowerM: number,
): number {
  return (upperMps ** 2 - lowerMps ** 2) / (2 * (lowerM - upperM));
}

/** Figures from every speed passed under braking, down to rest. */
export function measureBraking(
  trace: Trace,
  run: Run,
  stop: Stop | undefined,
  receiverMps: number,
): BrakingFigure[] {
  if (run.braking === undefined || stop === undefined) return [];
  const { endIndex } = run.braking;
  const onsetIndex = brakingOnset(trace, run.braking.beginIndex, endIndex);
  return BRAKING_SPEEDS_MPS.flatMap((fromMps): BrakingFigure[] => {
    const from = passedUnderBrakes(trace, onsetIndex, run, fromMps);
    if (from === undefined) return [];
    const tape = layTape(trace, from.timeS, fromMps, receiverMps);
    const distanceM = tape.at(trace.timeS[stop.lastMovingIndex]!) + stop.lastM;
    const passedS = combined(crossingBudget(trace, from, receiverMps));
    const items: BudgetItem[] = [
      ...betweenCrossings(tape.uncertaintyAt(stop.atS)),
      { source: 'interpolation', standard: fromMps * passedS },
      { source: 'stop', standard: stop.distanceSdM },
      ...lagOfStop(trace, 'distance', fromMps),
    ];
    return [
      {
        fromMps,
        toMps: 0,
        distanceM,
        uncertaintyM: expanded(items),
        ...fullyDeveloped(trace, onsetIndex, endIndex, fromMps, receiverMps),
        timeS: stop.atS - from.timeS,
        timeUncertaintyS: expanded([
          { source: 'interpolation', standard: passedS },
          { source: 'stop', standard: stop.sdS },
          ...lagOfStop(trace, 'stop'),
        ]),
        budget: items,
      },
    ];
  });
}

/**
 * The crossing where a parabola describes it; soon after the brakes come on, where the fit of that puts it.
 * @param onsetIndex of `brakingOnset`
 * @returns undefined where the speed is not passed under braking
 */
export function passedUnderBrakes(
  trace: Trace,
  onsetIndex: number,
  run: Run,
  fromMps: number,
): Crossing | undefined {
  const near = fallingThrough(trace, onsetIndex, run.braking!.endIndex, fromMps);
  if (near === undefined) return undefined;
  const soon = near.timeS - trace.timeS[onsetIndex]! < Math.max(EARLIEST_S, 1 / trace.rateHz);
  if (!soon || trace.noiseMps < SCATTERING_MPS) return near;
  // A parabola cuts the corner where deceleration becomes full by less than scatter shows, and by more than it states.
  if (trace.rateHz > SLOWEST_HZ)
    return passingAtBrakes(trace, near, run.beginIndex, run.braking!.endIndex, fromMps);
  const last = Math.min(run.braking!.endIndex, lastIndexAtOrBefore(trace.timeS, near.timeS + FULL_WITHIN_S));
  const full = slopeOver(trace.timeS, trace.speedMps, near.index, last);
  const bends = near.interpolationS > near.noiseS || near.slopeMps2 > STILL_RISING_SHARE * full;
  // So few readings do not tell when the brakes came on: anywhere between two of them.
  if (!bends) return near;
  return { ...near, interpolationS: Math.max(near.interpolationS, rectangular(1 / trace.rateHz)) };
}

function fullyDeveloped(
  trace: Trace,
  onsetIndex: number,
  endIndex: number,
  fromMps: number,
  receiverMps: number,
): Pick<BrakingFigure, 'mfddMps2' | 'mfddUncertaintyMps2'> {
  const upper = fallingThrough(trace, onsetIndex, endIndex, MFDD_UPPER_SHARE * fromMps);
  const lower = fallingThrough(trace, onsetIndex, endIndex, MFDD_LOWER_SHARE * fromMps);
  if (upper === undefined || lower === undefined || lower.timeS <= upper.timeS) return {};
  const upperMps = MFDD_UPPER_SHARE * fromMps;
  const lowerMps = MFDD_LOWER_SHARE * fromMps;
  const tape = layTape(trace, upper.timeS, upperMps, receiverMps);
  const lengthM = tape.at(lower.timeS);
  const mfddMps2 = meanFullyDevelopedMps2(upperMps, lowerMps, 0, lengthM);
  const length = Math.hypot(
    combined(betweenCrossings(tape.uncertaintyAt(lower.timeS))),
    upperMps * combined(crossingBudget(trace, upper, receiverMps)),
    lowerMps * combined(crossingBudget(trace, lower, receiverMps)),
  );
  return {
    mfddMps2,
    mfddUncertaintyMps2: expanded([
      { source: 'sampling', standard: (length * mfddMps2) / lengthM },
      ...lagOfMfdd(trace),
    ]),
  };
}

/** Last reading before speed falls faster than coasting does. */
export function brakingOnset(trace: Trace, beginIndex: number, endIndex: number): number {
  const { timeS, speedMps } = trace;
  for (let i = beginIndex; i < endIndex; i++) {
    let last = i + 1;
    while (last < endIndex && timeS[last]! - timeS[i]! < 2 * ONSET_HALF_WIDTH_S) last++;
    if (slopeOver(timeS, speedMps, i, last) < -BRAKING_ONSET_MPS2) return i;
  }
  return beginIndex;
}
