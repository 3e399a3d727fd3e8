/** What a reader must know about a run before trusting its figures. A flagged run is shown, never dropped. */
import type { Run } from '../run/run.ts';
import { medianOf } from '../trace/least-squares.ts';
import type { Trace } from '../trace/trace.ts';
import { mpsToKmh } from '../units.ts';
import { creepBefore } from './creep.ts';
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
  const add = (code: string, text: string): void => {
    flags.push({ code, text });
  };
  for (const gap of trace.gaps) {
    if (gap.index < firstIndex || gap.index >= lastIndex) continue;
    add('gap', `no reading for ${(gap.toS - gap.fromS).toFixed(2)} s after ${gap.fromS.toFixed(2)} s`);
  }
  const spikes = trace.spikes.filter(
    spike => spike.atS >= trace.timeS[firstIndex]! && spike.atS <= trace.timeS[lastIndex]!,
  );
  if (spikes.length > 0) {
    add('spike', `${spikes.length} impossible reading${spikes.length > 1 ? 's' : ''} left out`);
  }
  if (trace.heldS !== undefined) {
    add('held-values', `a fresh reading only every ${trace.heldS.toFixed(1)} s; rows between repeat it`);
  }
  if (trace.rateHz < 0.95 * lowRateHz) {
    add('low-rate', `${trace.rateHz.toFixed(1)} readings a second; fewer than ${lowRateHz}`);
  }
  if (trace.noiseMps > NOISY_MPS) {
    add(
      'noisy',
      `one reading scatters by ${mpsToKmh(trace.noiseMps).toFixed(2)} km/h (one standard deviation)`,
    );
  }
  if (trace.speedSource === 'derived-from-position') {
    add('derived-speed', 'speed worked out from positions, not recorded');
  }
  if (trace.filterS !== undefined) {
    add(
      'filtered',
      `neighbouring readings are alike at rest, as behind a filter of ${trace.filterS.toFixed(2)} s: speeds may come late by about as much; nothing is corrected`,
    );
  }
  if ((trace.stampS ?? 0) > IRREGULAR_S) {
    add('irregular', `time stamps stray by ${(1000 * trace.stampS!).toFixed(0)} ms (one standard deviation)`);
  }
  const poor = poorFix(trace, firstIndex, lastIndex);
  if (poor.length > 0) add('poor-fix', poor.join('; '));
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
    const text = `crept ${creep.distanceM.toFixed(2)} m at ${mpsToKmh(creep.speedMps).toFixed(1)} km/h before the launch; the clock starts with the launch`;
    return [{ code: 'creep', text }];
  }
  let most = 0;
  for (let i = run.beginIndex; i >= 0 && timeS[run.beginIndex]! - timeS[i]! <= ROLLED_WITHIN_S; i--) {
    most = Math.max(most, speedMps[i]!);
  }
  if (most < Math.max(ROLLED_MPS, 6 * noiseMps)) return [];
  const text = `moved at up to ${mpsToKmh(most).toFixed(1)} km/h within ${ROLLED_WITHIN_S} s before the start, forwards or back, and rested again`;
  return [{ code: 'rolled-back', text }];
}

function poorFix(trace: Trace, firstIndex: number, lastIndex: number): string[] {
  const middle = (values: Float64Array | undefined): number =>
    values === undefined
      ? Number.NaN
      : medianOf(values.subarray(firstIndex, lastIndex + 1).filter(value => !Number.isNaN(value)));
  const { satellites, hdop, speedAccuracyMps } = trace.channels;
  const found: string[] = [];
  const count = middle(satellites);
  if (count < FEWEST_SATELLITES) found.push(`${count} satellites`);
  const dilution = middle(hdop);
  if (dilution > HIGHEST_HDOP) found.push(`horizontal dilution of precision ${dilution.toFixed(1)}`);
  const stated = middle(speedAccuracyMps);
  if (stated > WORST_STATED_MPS) found.push(`receiver states ${mpsToKmh(stated).toFixed(2)} km/h`);
  return found;
}
