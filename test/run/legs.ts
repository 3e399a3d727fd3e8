/** Drives in straight legs, for looking for runs in them. */
import { findRuns } from '../../pipeline/run/find.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import type { Trace } from '../../pipeline/trace/trace.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { motionToLog } from '../measurement/trajectories.ts';

/** Legs of a drive: change speed to `toKmh` at a steady acceleration, or hold it for some seconds. */
export type Leg = readonly ['to', toKmh: number, mps2: number] | readonly ['hold', seconds: number];

/** A drive of legs, read without noise. */
export function traceOfLegs(legs: readonly Leg[], rateHz: number): Trace {
  const nodes = [{ t: 0, v: 0 }];
  for (const leg of legs) {
    const { t, v } = nodes[nodes.length - 1]!;
    if (leg[0] === 'hold') nodes.push({ t: t + leg[1], v });
    else nodes.push({ t: t + Math.abs(kmhToMps(leg[1]) - v) / leg[2], v: kmhToMps(leg[1]) });
  }
  const speedAt = (at: number): number => {
    const k = nodes.findIndex(({ t }) => t > at);
    if (k < 1) return nodes[nodes.length - 1]!.v;
    const [a, b] = [nodes[k - 1]!, nodes[k]!];
    return a.v + ((b.v - a.v) * (at - a.t)) / (b.t - a.t);
  };
  return logToTrace(motionToLog(speedAt, { rateHz, lastsS: nodes[nodes.length - 1]!.t })).trace;
}

/** The runs found in a drive: kind, status and whether braking belongs to it. */
export function driven(legs: readonly Leg[], rateHz: number): string[] {
  return findRuns(traceOfLegs(legs, rateHz)).map(
    ({ kind, status, braking }) => `${kind} ${status}${braking && kind !== 'braking' ? ' with braking' : ''}`,
  );
}
