/** A run's acceleration from rest or from its first speed, ready to be replayed: readings and their slope. */
import type { RunMeasurement } from '../measurement/measurement.ts';
import type { Trace } from '../trace/trace.ts';

/** Struct of arrays of equal length, in the order of time. */
export interface Pull {
  /** On the log's own clock, s; the first node is first movement, or the first reading of a rolling run. */
  readonly timeS: Float64Array;
  readonly speedMps: Float64Array;
  /** Since the first node, m. */
  readonly distanceM: Float64Array;
  /** Slope of a straight line through the readings around each node, m/s². */
  readonly accelerationMps2: Float64Array;
  /** Its standard uncertainty from the noise of the readings, and the width of the line it comes from. */
  readonly accelerationSd: Float64Array;
  readonly widthS: Float64Array;
}

/** Half widths of the lines tried for acceleration, s: the narrowest that is steady enough is used. */
export const PULL_HALF_WIDTHS_S: readonly number[] = [0.2, 0.3, 0.45, 0.7, 1, 1.5, 2.2];
/** Steady enough: scatter of the slope over the slope. */
const STEADY_SHARE = 0.03;

/** The pull of a run; undefined where fewer than five readings are in it. */
export function traceToPull(trace: Trace, measurement: RunMeasurement): Pull | undefined {
  const { run, start } = measurement;
  if (run.kind === 'braking' || (run.kind === 'standing-start' && start === undefined)) return undefined;
  const last = run.braking?.beginIndex ?? run.endIndex;
  const beginS = start?.firstMovementS ?? trace.timeS[run.beginIndex]!;
  let first = run.beginIndex;
  while (first <= last && trace.timeS[first]! <= beginS) first++;
  const count = last - first + 2;
  if (count < 5) return undefined;
  const timeS = new Float64Array(count);
  const speedMps = new Float64Array(count);
  timeS[0] = beginS;
  speedMps[0] = start === undefined ? trace.speedMps[run.beginIndex]! : 0;
  timeS.set(trace.timeS.subarray(first, last + 1), 1);
  speedMps.set(trace.speedMps.subarray(first, last + 1), 1);
  return readingsToPull(timeS, speedMps, trace.noiseMps);
}

/** Puts distance and acceleration beside times and speeds. `noiseMps`: standard deviation of one speed. */
export function readingsToPull(timeS: Float64Array, speedMps: Float64Array, noiseMps: number): Pull {
  const count = timeS.length;
  const distanceM = new Float64Array(count);
  for (let i = 1; i < count; i++) {
    distanceM[i] = distanceM[i - 1]! + ((speedMps[i]! + speedMps[i - 1]!) / 2) * (timeS[i]! - timeS[i - 1]!);
  }
  const accelerationMps2 = new Float64Array(count);
  const accelerationSd = new Float64Array(count);
  const widthS = new Float64Array(count);
  const line = runningLine(timeS, speedMps);
  for (let i = 0; i < count; i++) {
    for (const halfWidthS of PULL_HALF_WIDTHS_S) {
      const found = line(i, halfWidthS);
      accelerationMps2[i] = found.slope;
      accelerationSd[i] = noiseMps * found.unitSd;
      widthS[i] = found.widthS;
      if (accelerationSd[i]! <= STEADY_SHARE * Math.abs(found.slope)) break;
    }
  }
  return { timeS, speedMps, distanceM, accelerationMps2, accelerationSd, widthS };
}

/** Least-squares lines over any stretch in constant time, by running sums about the first node. */
function runningLine(timeS: Float64Array, speedMps: Float64Array) {
  const n = timeS.length;
  const sums = { t: new Float64Array(n + 1), tt: new Float64Array(n + 1) };
  const v = new Float64Array(n + 1);
  const tv = new Float64Array(n + 1);
  for (let i = 0; i < n; i++) {
    const t = timeS[i]! - timeS[0]!;
    sums.t[i + 1] = sums.t[i]! + t;
    sums.tt[i + 1] = sums.tt[i]! + t * t;
    v[i + 1] = v[i]! + speedMps[i]!;
    tv[i + 1] = tv[i]! + t * speedMps[i]!;
  }
  const lastBefore = (atS: number): number => {
    let low = 0;
    let high = n - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (timeS[middle]! <= atS) low = middle;
      else high = middle - 1;
    }
    return low;
  };
  return (i: number, halfWidthS: number): { slope: number; unitSd: number; widthS: number } => {
    // At the ends the line has one arm only, but is never shorter than that arm.
    const begin = Math.max(0, Math.min(i - 1, n - 3, lastBefore(timeS[i]! - halfWidthS - 1e-9) + 1));
    const end = Math.min(n - 1, Math.max(i + 1, 2, lastBefore(timeS[i]! + halfWidthS + 1e-9)));
    const count = end - begin + 1;
    const of = (sum: Float64Array): number => sum[end + 1]! - sum[begin]!;
    const meanT = of(sums.t) / count;
    const spread = of(sums.tt) - count * meanT * meanT;
    const slope = (of(tv) - meanT * of(v)) / spread;
    return { slope, unitSd: 1 / Math.sqrt(spread), widthS: timeS[end]! - timeS[begin]! };
  };
}
