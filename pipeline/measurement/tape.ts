/** Distance along a run: the integral of recorded speed from a known instant, and how well it is known. */
import { alikeFactor } from '../trace/noise.ts';
import type { Trace } from '../trace/trace.ts';
import { type BudgetItem, budget, rectangular } from './uncertainty.ts';

export interface Tape {
  /** Distance covered since the instant the tape was laid, m. */
  at(timeS: number): number;
  /** Speed at an instant by the straight line between two readings, m/s. */
  speedAt(timeS: number): number;
  /** First instant a distance is covered, before the reading `lastIndex`; undefined if not reached. */
  timeOf(distanceM: number, lastIndex: number): number | undefined;
  /** Standard uncertainties of the distance since the tape was laid, m. */
  uncertaintyAt(timeS: number): BudgetItem[];
}

/**
 * Lays the tape at an instant. Between the instant and the next reading the speed `speedMps` holds the near end
 * of the trapezoid; from then on readings alone.
 */
export function layTape(trace: Trace, fromS: number, speedMps: number, receiverMps = 0): Tape {
  const { timeS, speedMps: readings } = trace;
  const first = lastIndexAtOrBefore(timeS, fromS) + 1;
  const leadM = first < timeS.length ? ((speedMps + readings[first]!) / 2) * (timeS[first]! - fromS) : 0;
  const atIndex = (i: number): number => trace.distanceM[i]! - trace.distanceM[first]! + leadM;
  const intervalAt = (i: number) => {
    const begin =
      i < first ? { t: fromS, v: speedMps, d: 0 } : { t: timeS[i]!, v: readings[i]!, d: atIndex(i) };
    const end = Math.min(i + 1, timeS.length - 1);
    const lengthS = timeS[end]! - begin.t;
    return { ...begin, slope: lengthS > 0 ? (readings[end]! - begin.v) / lengthS : 0 };
  };
  const within = (atS: number) => {
    const part = intervalAt(lastIndexAtOrBefore(timeS, atS));
    return { ...part, s: atS - part.t };
  };
  return {
    at(atS) {
      const { d, v, slope, s } = within(atS);
      return d + v * s + (slope * s * s) / 2;
    },
    speedAt(atS) {
      const { v, slope, s } = within(atS);
      return v + slope * s;
    },
    timeOf(distanceM, lastIndex) {
      if (first > lastIndex || atIndex(lastIndex) < distanceM) return undefined;
      let low = first - 1;
      let high = lastIndex;
      while (high - low > 1) {
        const middle = (low + high) >> 1;
        if (atIndex(middle) < distanceM) low = middle;
        else high = middle;
      }
      const { t, d, v, slope } = intervalAt(low);
      const left = distanceM - d;
      // The root in the form that does not cancel where acceleration is small.
      return t + (2 * left) / (v + Math.sqrt(Math.max(0, v * v + 2 * slope * left)));
    },
    uncertaintyAt(atS) {
      const lastIndex = lastIndexAtOrBefore(timeS, atS);
      const durationS = Math.max(0, atS - fromS);
      const intervalS = 1 / trace.rateHz;
      let gapM = 0;
      for (const gap of trace.gaps) {
        if (gap.index < first - 1 || gap.index > lastIndex) continue;
        const change = Math.abs(readings[gap.index + 1]! - readings[gap.index]!);
        gapM = Math.hypot(gapM, rectangular(change * (gap.toS - gap.fromS)));
      }
      let bend = 0;
      for (let i = first; i < lastIndex - 1; i++) {
        const second = readings[i + 2]! - 2 * readings[i + 1]! + readings[i]!;
        bend += second * second;
      }
      // The noise's own share of the second differences (6σ² each) is not bending.
      const count = Math.max(0, lastIndex - 1 - first);
      const bending = Math.sqrt(Math.max(0, bend - 6 * count * trace.noiseMps ** 2));
      return budget({
        noise: trace.noiseMps * alikeFactor(trace.filterS, trace.rateHz) * Math.sqrt(intervalS * durationS),
        sampling: (bending * intervalS) / 12,
        receiver: receiverMps * durationS,
        gap: gapM,
      });
    },
  };
}

/**
 * A distance between two speeds passed takes its noise from the crossings alone. A reading that is high by a little
 * moves a crossing on a slope a by that over a, and so the distance by v times it; over a whole even deceleration from
 * v₁ to v₂ the covariance of that with the integral is −(v₁ − v₂)/a · Δt · σ², which is minus the variance T · Δt · σ²
 * of the integral itself (JCGM 100, 5.2.2). The integral's own noise is therefore no item of such a distance.
 */
export function betweenCrossings(items: readonly BudgetItem[]): BudgetItem[] {
  return items.filter(({ source }) => source !== 'noise');
}

/** Index of the last reading at or before a time; −1 before the first. */
export function lastIndexAtOrBefore(timeS: Float64Array, atS: number): number {
  let low = 0;
  let high = timeS.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (timeS[middle]! <= atS) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
