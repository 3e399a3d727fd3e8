/** Finds the runs in a whole day's trace without being told where they are. */

import { localSlopes } from '../trace/slope.ts';
import { type Span, standingLimitMps, standingSpans } from '../trace/standing.ts';
import type { Trace } from '../trace/trace.ts';
import { kmhToMps } from '../units.ts';
import { type Found, findLaunches } from './launches.ts';
import { accelerations, decelerations } from './phases.ts';
import { firstAtLeast, highestIn, indexAtOrAfter } from './readings.ts';
import * as rules from './rules.ts';
import type { Run } from './run.ts';

/** The splits of which a rolling run must cover at least one, as [from, to] in m/s. */
export const ROLLING_SPLITS_MPS: readonly (readonly [number, number])[] = (
  [
    [50, 80],
    [60, 100],
    [80, 120],
    [100, 160],
    [100, 200],
  ] as const
).map(([fromKmh, toKmh]) => [kmhToMps(fromKmh), kmhToMps(toKmh)] as const);

/** Runs in order of time, numbered from 1. A run without its own beginning and end in the trace is none. */
export function findRuns(trace: Trace): Run[] {
  if (trace.timeS.length < 3) return [];
  const limitMps = standingLimitMps(trace.noiseMps, trace.speedStepMps);
  const stands = standingSpans(trace.timeS, trace.speedMps, limitMps);
  const slopes = localSlopes(trace.timeS, trace.speedMps, rules.FINDING_HALF_WIDTH_S);
  const gains = accelerations(trace, slopes);
  const stops = decelerations(trace, slopes).flatMap(span => stopOf(trace, span, limitMps));

  const launches = findLaunches(trace, stands, gains, limitMps);
  const inLaunch = (span: Span): boolean =>
    launches.some(run => span.beginIndex <= run.endIndex && span.endIndex >= run.beginIndex);
  const rolling = gains.filter(span => !inLaunch(span)).flatMap(span => rollingOf(trace, span));

  const moving = [...launches, ...rolling].sort((a, b) => a.beginIndex - b.beginIndex);
  const taken = new Set<Span>();
  const withStops = moving.map((run, k) => {
    if (run.kind !== 'standing-start') return run;
    const braking = stops.find(stop => follows(trace, run, stop, moving[k + 1]));
    if (braking === undefined) return run;
    taken.add(braking);
    return { ...run, endIndex: braking.endIndex, braking };
  });
  const brakings = stops
    .filter(stop => !taken.has(stop))
    .map((stop): Found => ({ kind: 'braking', status: 'complete', ...stop, braking: stop }));
  return [...withStops, ...brakings]
    .sort((a, b) => a.beginIndex - b.beginIndex)
    .map((run, k) => ({ number: k + 1, ...run }));
}

/** The rolling run in this acceleration, if it covers a rolling split hard enough. */
function rollingOf(trace: Trace, gain: Span): Found[] {
  const { timeS, speedMps } = trace;
  const endIndex = highestIn(speedMps, gain.beginIndex, gain.endIndex);
  const beginIndex = gain.beginIndex;
  if (speedMps[beginIndex]! < rules.ROLLING_FROM_MPS) return [];
  const hard = ROLLING_SPLITS_MPS.some(([fromMps, toMps]) => {
    if (speedMps[beginIndex]! > fromMps) return false;
    const first = firstAtLeast(speedMps, beginIndex, endIndex, fromMps);
    const reached = firstAtLeast(speedMps, beginIndex, endIndex, toMps);
    if (first === undefined || reached === undefined || reached === first) return false;
    const energy = (speedMps[reached]! ** 2 - speedMps[first]! ** 2) / 2;
    return energy / (timeS[reached]! - timeS[first]!) >= rules.ROLLING_POWER_WPKG;
  });
  return hard ? [{ kind: 'rolling', status: 'complete', beginIndex, endIndex }] : [];
}

/** The braking to rest in this deceleration, if it is one. */
function stopOf(trace: Trace, loss: Span, limitMps: number): Span[] {
  const { timeS, speedMps } = trace;
  // Smoothing blurs the onset by its half width: the highest reading within it is where braking began.
  const earliest = indexAtOrAfter(timeS, timeS[loss.beginIndex]! - 2 * rules.FINDING_HALF_WIDTH_S);
  const beginIndex = highestIn(speedMps, Math.min(earliest, loss.beginIndex), loss.beginIndex);
  if (speedMps[beginIndex]! < rules.BRAKING_FROM_MPS) return [];
  const lowestRateS = 1.5 / trace.rateHz;
  for (let i = loss.beginIndex; i < timeS.length; i++) {
    if (i > loss.endIndex && timeS[i]! - timeS[loss.endIndex]! > Math.max(1, lowestRateS)) return [];
    if (speedMps[i]! >= limitMps) continue;
    const mean = speedMps[beginIndex]! / (timeS[i]! - timeS[beginIndex]!);
    return mean >= rules.BRAKING_MEAN_MPS2 ? [{ beginIndex, endIndex: i }] : [];
  }
  return [];
}

function follows(trace: Trace, run: Found, stop: Span, next: Found | undefined): boolean {
  const pause = trace.timeS[stop.beginIndex]! - trace.timeS[run.endIndex]!;
  const before = next === undefined || stop.beginIndex < next.beginIndex;
  return before && stop.endIndex > run.endIndex && pause <= rules.BRAKING_FOLLOWS_S;
}
