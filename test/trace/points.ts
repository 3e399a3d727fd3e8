/** Traces of a few readings put down by hand. */
import type { Trace } from '../../pipeline/trace/trace.ts';

export type Point = readonly [timeS: number, speedMps: number];

/** A sound trace through these points, distance by trapezoids; `more` changes what it says of itself. */
export function traceOf(points: readonly Point[], more: Partial<Trace> = {}): Trace {
  const timeS = Float64Array.from(points, ([time]) => time);
  const speedMps = Float64Array.from(points, ([, speed]) => speed);
  const distanceM = new Float64Array(points.length);
  for (let i = 1; i < points.length; i++) {
    distanceM[i] = distanceM[i - 1]! + ((speedMps[i]! + speedMps[i - 1]!) / 2) * (timeS[i]! - timeS[i - 1]!);
  }
  return {
    file: 'points.csv',
    format: 'csv',
    speedSource: 'recorded',
    timeS,
    speedMps,
    distanceM,
    line: new Uint32Array(points.length),
    channels: {},
    rateHz: 1,
    noiseMps: 0.01,
    noiseFrom: 'standing',
    gaps: [],
    spikes: [],
    ...more,
  };
}
