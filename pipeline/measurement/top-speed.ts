/** Highest speed held by three readings, so that one noisy reading cannot make it. */
import type { Trace } from '../trace/trace.ts';
import { COVERAGE_FACTOR } from './uncertainty.ts';

/** Readings among which the middle one is taken. */
export const TOP_READINGS = 3;

export interface Top {
  readonly topMps: number;
  /** Expanded, k = 2. */
  readonly topUncertaintyMps: number;
}

/** The greatest median of three neighbouring readings. */
export function measureTop(trace: Trace, firstIndex: number, lastIndex: number, receiverMps: number): Top {
  const { speedMps } = trace;
  let topMps = 0;
  let passedMps = 0;
  for (let i = firstIndex + 1; i < lastIndex; i++) {
    const [a, b, c] = [speedMps[i - 1]!, speedMps[i]!, speedMps[i + 1]!];
    const middle = Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    if (middle <= topMps) continue;
    topMps = middle;
    passedMps = Math.max(a, b, c) - middle;
  }
  // A sharp peak stands between and above the readings, by about as much as the highest stands above the middle one.
  const standard = Math.hypot(trace.noiseMps, receiverMps, passedMps);
  return { topMps, topUncertaintyMps: COVERAGE_FACTOR * standard };
}
