/** One run cut out of its log's trace and put on a clock and a tape of its own. */
import type { Attempt } from '../result/result.ts';
import type { StartRule } from '../run/run.ts';
import { type ForReaders, speedScale } from '../speed-unit.ts';

/** Samples of a run; the start rule's clock shows 0 at its start. */
export interface RunSeries {
  readonly timeS: readonly number[];
  /** In the unit of those it is drawn for. */
  readonly speed: readonly number[];
  /** From where the car stood; only of runs from rest. */
  readonly distanceM: readonly number[];
}

/**
 * A standing start from `beforeS` before first movement to its highest speed: what comes after is lifting
 * and braking. First movement itself is put in as a sample at rest.
 * Undefined where the attempt has no measured start.
 */
export function standingStartSeries(
  { trace, measurement }: Attempt,
  startRule: StartRule,
  readers: ForReaders,
  beforeS = 0,
): RunSeries | undefined {
  const { start, run } = measurement;
  if (start === undefined) return undefined;
  const zeroS = start.firstMovementS + (startRule === 'one-foot-rollout' ? start.rolloutS : 0);
  const last = run.braking?.beginIndex ?? run.endIndex;
  let top = run.beginIndex;
  for (let index = run.beginIndex; index <= last; index += 1) {
    if (trace.speedMps[index]! > trace.speedMps[top]!) top = index;
  }
  const timeS: number[] = [];
  const speed: number[] = [];
  const { fromMps } = speedScale(readers);
  const distanceM: number[] = [];
  const originM = distanceAt(trace.timeS, trace.distanceM, start.firstMovementS);
  const push = (atS: number, passed: number, m: number) => {
    timeS.push(atS - zeroS);
    speed.push(passed);
    distanceM.push(m);
  };
  let begun = false;
  let first = run.beginIndex;
  while (first > 0 && trace.timeS[first - 1]! >= start.firstMovementS - beforeS) first -= 1;
  for (let index = first; index <= top; index += 1) {
    const atS = trace.timeS[index]!;
    if (atS < start.firstMovementS - beforeS) continue;
    if (!begun && atS > start.firstMovementS) push(start.firstMovementS, 0, 0);
    begun = atS >= start.firstMovementS;
    push(atS, fromMps(trace.speedMps[index]!), trace.distanceM[index]! - originM);
  }
  return { timeS, speed, distanceM };
}

function distanceAt(timeS: Float64Array, distanceM: Float64Array, atS: number): number {
  let after = timeS.findIndex(time => time >= atS);
  if (after < 0) after = timeS.length - 1;
  if (after <= 0) return distanceM[0] ?? 0;
  return interpolate(timeS[after - 1]!, distanceM[after - 1]!, timeS[after]!, distanceM[after]!, atS);
}

/** Straight line between two points. */
export const interpolate = (x0: number, y0: number, x1: number, y1: number, x: number): number =>
  x1 === x0 ? y1 : y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);

/**
 * Where a series that rises first passes a value: x by straight line between the samples around it.
 * Undefined where it never does.
 */
export function firstPassing(x: readonly number[], y: readonly number[], value: number): number | undefined {
  for (let index = 1; index < y.length; index += 1) {
    if (y[index - 1]! < value && y[index]! >= value) {
      return interpolate(y[index - 1]!, x[index - 1]!, y[index]!, x[index]!, value);
    }
  }
  return undefined;
}

/** y at x by straight line between samples in the order of x; undefined outside them. */
export function valueAt(x: readonly number[], y: readonly number[], at: number): number | undefined {
  for (let index = 1; index < x.length; index += 1) {
    if (x[index - 1]! <= at && x[index]! >= at) {
      return interpolate(x[index - 1]!, y[index - 1]!, x[index]!, y[index]!, at);
    }
  }
  return undefined;
}
