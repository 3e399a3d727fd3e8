/** Greatest acceleration held over a stated time. */
import { slopeOver } from '../trace/slope.ts';
import type { Trace } from '../trace/trace.ts';
import { COVERAGE_FACTOR } from './uncertainty.ts';

/** Time over which the acceleration is held, s; at low rates it stretches to three readings. */
export const PEAK_WINDOW_S = 0.5;

/** What every further window's length of stretching costs, as a share of the acceleration. */
const STRETCH_SHARE = 0.025;

export interface Peak {
  readonly peakMps2: number;
  /** Expanded, k = 2. */
  readonly peakUncertaintyMps2: number;
}

/** Steepest least-squares slope over the window within two readings; braking counts as negative. */
export function measurePeak(trace: Trace, firstIndex: number, lastIndex: number): Peak {
  const { timeS, speedMps, noiseMps } = trace;
  let peakMps2 = 0;
  let peakUncertaintyMps2 = 0;
  let end = firstIndex;
  for (let begin = firstIndex; begin < lastIndex; begin++) {
    while (end < lastIndex && (timeS[end]! - timeS[begin]! < PEAK_WINDOW_S - 1e-9 || end - begin < 2)) end++;
    if (timeS[end]! - timeS[begin]! < PEAK_WINDOW_S - 1e-9) break;
    if (trace.gaps.some(gap => gap.index >= begin && gap.index < end)) continue;
    const slope = slopeOver(timeS, speedMps, begin, end);
    if (slope <= peakMps2) continue;
    peakMps2 = slope;
    const count = end - begin + 1;
    const spread = (timeS[end]! - timeS[begin]!) * Math.sqrt((count * (count + 1)) / (12 * (count - 1)));
    // The highest of many slopes is on average about one standard deviation too high: that counts once more.
    const noise = (Math.SQRT2 * Math.hypot(noiseMps, slope * (trace.stampS ?? 0))) / spread;
    // At low rates the window is longer than it should be, and the mean over it lower.
    const stretched = Math.max(0, (timeS[end]! - timeS[begin]!) / PEAK_WINDOW_S - 1.5);
    peakUncertaintyMps2 = COVERAGE_FACTOR * Math.hypot(noise, STRETCH_SHARE * stretched * slope);
  }
  return { peakMps2, peakUncertaintyMps2 };
}
