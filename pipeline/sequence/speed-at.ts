/** Speed of a run at any instant, for a display that runs with the picture. */
import type { Trace } from '../trace/trace.ts';

/** Half of the window around the instant, s: wide enough to quieten single readings, too short to blur a gear change. */
const HALF_WINDOW_S = 0.12;

/**
 * The height, at `atS`, of the least-squares straight line through the readings within ± 0.12 s, or within one
 * and a half reading intervals of a slower log; m/s. Readings before `fromS` are left out, so that a car at rest
 * does not seem to move before it does. Where fewer than two readings are near, the nearest one, or 0 without any.
 */
export function speedAt(trace: Trace, atS: number, fromS: number): number {
  const { timeS, speedMps } = trace;
  const half = Math.max(HALF_WINDOW_S, 1.5 / trace.rateHz);
  const first = firstAtOrAfter(timeS, Math.max(fromS, atS - half));
  let count = 0;
  let sumT = 0;
  let sumV = 0;
  let end = first;
  while (end < timeS.length && timeS[end]! <= atS + half) {
    count++;
    sumT += timeS[end]! - atS;
    sumV += speedMps[end]!;
    end++;
  }
  if (count < 2) return speedMps[Math.min(first, speedMps.length - 1)] ?? 0;
  const meanT = sumT / count;
  const meanV = sumV / count;
  let top = 0;
  let bottom = 0;
  for (let k = first; k < end; k++) {
    const dt = timeS[k]! - atS - meanT;
    top += dt * (speedMps[k]! - meanV);
    bottom += dt * dt;
  }
  return Math.max(0, bottom > 0 ? meanV - (top / bottom) * meanT : meanV);
}

/** Index of the first reading at or after a time; the length where there is none. */
function firstAtOrAfter(timeS: Float64Array, atS: number): number {
  let low = 0;
  let high = timeS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeS[middle]! < atS) low = middle + 1;
    else high = middle;
  }
  return low;
}
