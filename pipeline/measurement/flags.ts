/** What a reader must know about a run before trusting its figures. A flagged run is shown, never dropped. */
import type { Run } from '../run/run.ts';
import { FILTER_TOLD_S } from '../trace/filter.ts';
import { medianOf } from '../trace/least-squares.ts';
import type { Trace } from '../trace/trace.ts';
import { mpsToKmh } from '../units.ts';
import { creepBefore } from './creep.ts';
import { type FlagCode, type FlagFacts, flag } from './flag-words.ts';
import type { Flag } from './measurement.ts';

/** Below this rate a run is flagged, 1/s; a publication may state its own limit. */
export const LOW_RATE_HZ = 10;
/** Scatter of one reading beyond which a run is flagged, m/s (0.2 km/h). */
export const NOISY_MPS = 0.2 / 3.6;
/** Time stamps that stray by more than this are told, s. */
export const IRREGULAR_S = 0.002;
/** Fewer satellites, or a worse horizontal dilution of precision, is a poor fix (common practice, no source). */
export const FEWEST_SATELLITES = 6;
export const HIGHEST_HDOP = 2.5;
/** Receiver's own stated speed accuracy beyond which the fix is poor, m/s (0.5 km/h; common practice). */
export const WORST_STATED_MPS = 0.5 / 3.6;

/** Flags of the readings `firstIndex` … `lastIndex`. */
export function flagsOf(
  trace: Trace,
  firstIndex: number,
  lastIndex: number,
  lowRateHz = LOW_RATE_HZ,
): Flag[] {
  const flags: Flag[] = [];
  const add = <Code extends FlagCode>(code: Code, facts: FlagFacts[Code]): void => {
    flags.push(flag(code, facts));
  };
  for (const gap of trace.gaps) {
    if (gap.index < firstIndex || gap.index >= lastIndex) continue;
    add('gap', { missingS: gap.toS - gap.fromS, afterS: gap.fromS });
  }
  const spikes = trace.spikes.filter(
    spike => spike.atS >= trace.timeS[firstIndex]! && spike.atS <= trace.timeS[lastIndex]!,
  );
  if (spikes.length > 0) add('spike', { count: spikes.length });
  if (trace.heldS !== undefined) add('held-values', { everyS: trace.heldS });
  if (trace.rateHz < 0.95 * lowRateHz) add('low-rate', { rateHz: trace.rateHz, limitHz: lowRateHz });
  if (trace.noiseMps > NOISY_MPS) add('noisy', { kmh: mpsToKmh(trace.noiseMps) });
  if (trace.speedSource === 'derived-from-position') add('derived-speed', {});
  if (trace.filterS !== undefined) add('filtered', { filterS: trace.filterS });
  // A slow log is flagged for that, and is too coarse for such a filter to matter.
  else if (trace.restTooBrief && trace.rateHz >= 0.95 * LOW_RATE_HZ) {
    add('brief-rest', { filterS: Math.max(FILTER_TOLD_S, 1 / trace.rateHz) });
  }
  if ((trace.stampS ?? 0) > IRREGULAR_S) add('irregular', { ms: 1000 * trace.stampS! });
  const poor = poorFix(trace, firstIndex, lastIndex);
  if (Object.keys(poor).length > 0) add('poor-fix', poor);
  return flags;
}

/** A car that moves again within this long before its start rolled there, s; slower than this it rocks, m/s. */
const ROLLED_WITHIN_S = 1.5;
const ROLLED_MPS = 0.3;

/** What went before a standing start: creeping into it, or rolling a little and resting again. */
export function flagsOfStart(trace: Trace, run: Run): Flag[] {
  const { timeS, speedMps, noiseMps } = trace;
  const creep = creepBefore(trace, run);
  if (creep !== undefined) {
    return [flag('creep', { m: creep.distanceM, kmh: mpsToKmh(creep.speedMps) })];
  }
  let most = 0;
  for (let i = run.beginIndex; i >= 0 && timeS[run.beginIndex]! - timeS[i]! <= ROLLED_WITHIN_S; i--) {
    most = Math.max(most, speedMps[i]!);
  }
  if (most < Math.max(ROLLED_MPS, 6 * noiseMps)) return [];
  return [flag('rolled-back', { kmh: mpsToKmh(most), withinS: ROLLED_WITHIN_S })];
}

function poorFix(trace: Trace, firstIndex: number, lastIndex: number): FlagFacts['poor-fix'] {
  const middle = (values: Float64Array | undefined): number =>
    values === undefined
      ? Number.NaN
      : medianOf(values.subarray(firstIndex, lastIndex + 1).filter(value => !Number.isNaN(value)));
  const { satellites, hdop, speedAccuracyMps } = trace.channels;
  const count = middle(satellites);
  const dilution = middle(hdop);
  const stated = middle(speedAccuracyMps);
  return {
    ...(count < FEWEST_SATELLITES ? { satellites: count } : {}),
    ...(dilution > HIGHEST_HDOP ? { dilution } : {}),
    ...(stated > WORST_STATED_MPS ? { statedKmh: mpsToKmh(stated) } : {}),
  };
}
