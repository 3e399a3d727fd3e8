/** A car that is already creeping when it is launched: the clock starts with the launch, and the creep is told. */
import type { Run } from '../run/run.ts';
import { medianOf } from '../trace/least-squares.ts';
import { slopeOver } from '../trace/slope.ts';
import type { Trace } from '../trace/trace.ts';
import { lastIndexAtOrBefore } from './tape.ts';

/** By this speed the launch is under way, m/s; its slope there tells when it began. */
const UNDER_WAY_MPS = 2.5;
const SLOPE_HALF_S = 0.2;
/** A ramp takes this much longer than a step, at most; the car that takes longer still has crept, s. */
const RAMP_ALLOWED_S = 0.9;
/** The launch begins at most this long before its straight part, drawn back, s. */
const RAMP_BEFORE_S = 0.45;
/** Creeping speed is taken over this long, s. */
const CREEP_S = 0.8;
/** Faster than this is no creep but a start of its own, m/s. */
const CREEP_MOST_MPS = 1.2;

export interface Creep {
  /** Last reading of the creep. */
  readonly index: number;
  readonly speedMps: number;
  /** From leaving rest to that reading, m. */
  readonly distanceM: number;
}

/** The creep between rest and launch of a standing start; undefined where it begins from rest. */
export function creepBefore({ timeS, speedMps, distanceM, rateHz }: Trace, run: Run): Creep | undefined {
  const rest = run.beginIndex;
  let under = rest;
  while (under < run.endIndex && speedMps[under]! < UNDER_WAY_MPS) under++;
  const begin = Math.max(rest, Math.min(under - 1, lastIndexAtOrBefore(timeS, timeS[under]! - SLOPE_HALF_S)));
  const end = Math.min(
    run.endIndex,
    Math.max(under + 1, lastIndexAtOrBefore(timeS, timeS[under]! + SLOPE_HALF_S)),
  );
  const slope = slopeOver(timeS, speedMps, begin, end);
  if (slope < 1) return undefined;
  const straightS = timeS[under]! - UNDER_WAY_MPS / slope;
  if (straightS - timeS[rest]! < RAMP_ALLOWED_S + 1 / rateHz) return undefined;
  const index = lastIndexAtOrBefore(timeS, straightS - RAMP_BEFORE_S);
  const first = Math.max(rest + 1, lastIndexAtOrBefore(timeS, timeS[index]! - CREEP_S) + 1);
  if (index - first < 3) return undefined;
  const creepMps = medianOf(speedMps.subarray(first, index + 1));
  if (creepMps > CREEP_MOST_MPS) return undefined;
  return { index, speedMps: creepMps, distanceM: distanceM[index]! - distanceM[rest]! };
}

/** The trace as seen from a car that creeps on: what is left is the launch. */
export function withoutCreep(trace: Trace, { speedMps: creepMps }: Creep): Trace {
  return { ...trace, speedMps: trace.speedMps.map(value => Math.abs(value - creepMps)) };
}
