/** Logs of motions with closed-form answers: speed as a function of time, read without noise. */
import type { Log } from '../../pipeline/log/log.ts';

/** Free of any reading's grid: starts and stops fall between readings. */
export const AT_S = 4.0371;

export interface Reading {
  readonly rateHz: number;
  readonly lastsS: number;
  readonly stepMps?: number;
}

/** What a perfect recorder writes of a motion; negative speeds read 0. */
export function motionToLog(speedAt: (timeS: number) => number, { rateHz, lastsS, stepMps }: Reading): Log {
  const count = Math.floor(lastsS * rateHz) + 1;
  const timeS = Float64Array.from({ length: count }, (_, i) => i / rateHz);
  const speedMps = timeS.map(t => {
    const exact = Math.max(0, speedAt(t));
    return stepMps === undefined ? exact : Math.round(exact / stepMps) * stepMps;
  });
  return readingsToLog(timeS, speedMps, stepMps);
}

/** A log of given readings, one a line after a header. */
export function readingsToLog(timeS: Float64Array, speedMps: Float64Array, stepMps?: number): Log {
  return {
    file: 'motion.csv',
    format: 'csv',
    timeS,
    speedMps,
    speedSource: 'recorded',
    line: Uint32Array.from(timeS, (_, i) => i + 2),
    ...(stepMps === undefined ? {} : { speedStepMps: stepMps }),
    channels: {},
    warnings: [],
  };
}

/** At rest until `AT_S`, then along a curve of the time since. */
export const fromRest =
  (speedSince: (sinceS: number) => number) =>
  (timeS: number): number =>
    timeS <= AT_S ? 0 : speedSince(timeS - AT_S);

/** At a steady speed until `AT_S`, then falling by a deceleration of the time since, to rest. */
export const braked =
  (fromMps: number, lostSince: (sinceS: number) => number) =>
  (timeS: number): number =>
    timeS <= AT_S ? fromMps : Math.max(0, fromMps - lostSince(timeS - AT_S));
