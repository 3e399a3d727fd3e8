/** Greatest acceleration held over a stated time. */
import { slopeOver } from '../trace/slope.ts';
import type { Trace } from '../trace/trace.ts';
import { type Line, peakDoubtMps2 } from './peak-doubt.ts';

/** Time over which the acceleration is held, s; at low rates it stretches to three readings. */
export const PEAK_WINDOW_S = 0.5;

/** What every further window's length of stretching costs, as a share of the acceleration. */
const STRETCH_SHARE = 0.025;

export interface Peak {
  readonly peakMps2: number;
  /** Expanded: half the width of an interval that holds 95 %. */
  readonly peakUncertaintyMps2: number;
}

/** Steepest least-squares slope over the window within two readings; braking counts as negative. */
export function measurePeak(trace: Trace, firstIndex: number, lastIndex: number): Peak {
  const { timeS, speedMps } = trace;
  const lines: Line[] = [];
  let steepest: Line | undefined;
  let end = firstIndex;
  for (let begin = firstIndex; begin < lastIndex; begin++) {
    while (end < lastIndex && (timeS[end]! - timeS[begin]! < PEAK_WINDOW_S - 1e-9 || end - begin < 2)) end++;
    if (timeS[end]! - timeS[begin]! < PEAK_WINDOW_S - 1e-9) break;
    if (trace.gaps.some(gap => gap.index >= begin && gap.index < end)) continue;
    const line = { begin, end, slopeMps2: slopeOver(timeS, speedMps, begin, end) };
    lines.push(line);
    if (line.slopeMps2 > (steepest?.slopeMps2 ?? 0)) steepest = line;
  }
  if (steepest === undefined) return { peakMps2: 0, peakUncertaintyMps2: 0 };
  const peakMps2 = steepest.slopeMps2;
  // At low rates the window is longer than it should be, and the mean over it lower.
  const stretched = Math.max(0, (timeS[steepest.end]! - timeS[steepest.begin]!) / PEAK_WINDOW_S - 1.5);
  return {
    peakMps2,
    peakUncertaintyMps2: Math.hypot(
      peakDoubtMps2(trace, lines, steepest),
      2 * STRETCH_SHARE * stretched * peakMps2,
    ),
  };
}
