/** From a log to a trace: fresh readings only, spikes left out, gaps and noise known. Nothing is filled in. */
import type { Channels, Log, LogWarning } from '../log/log.ts';
import { mpsToKmh } from '../units.ts';
import { integrateSpeed } from './distance.ts';
import { filterTimeS, restTooBrief } from './filter.ts';
import { freshRows } from './fresh.ts';
import { findGaps, medianIntervalS } from './gaps.ts';
import { hiddenBelowMps } from './hidden.ts';
import { estimateNoise } from './noise.ts';
import { findSpikes } from './spikes.ts';
import { standingLimitMps, standingSpans } from './standing.ts';
import { stampScatterS } from './timing.ts';
import type { Spike, Trace } from './trace.ts';

/** The trace, and what is uncertain about it. Lengths of all arrays are equal. */
export function logToTrace(log: Log): { trace: Trace; warnings: LogWarning[] } {
  const warnings: LogWarning[] = [];
  const fresh = freshRows(log.timeS, log.speedMps, log.speedStepMps);
  const spikeRows = findSpikes(pick(log.timeS, fresh.keep), pick(log.speedMps, fresh.keep), log.speedStepMps);
  const spikes = spikeRows.map((k): Spike => {
    const row = fresh.keep[k]!;
    return { atS: log.timeS[row]!, speedMps: log.speedMps[row]!, line: log.line[row]! };
  });
  const left = new Set(spikeRows);
  const keep = fresh.keep.filter((_, k) => !left.has(k));
  const timeS = pick(log.timeS, keep);
  const speedMps = pick(log.speedMps, keep);
  const line = Uint32Array.from(keep, row => log.line[row]!);
  const intervalS = medianIntervalS(timeS);
  const rateHz = intervalS > 0 ? 1 / intervalS : 0;
  const gaps = findGaps(timeS, intervalS);
  const roughStands = standingSpans(timeS, speedMps, standingLimitMps(0, log.speedStepMps));
  const noise = estimateNoise(speedMps, roughStands, rateHz, log.speedStepMps);
  const stands = standingSpans(timeS, speedMps, standingLimitMps(noise.noiseMps, log.speedStepMps));
  const filterS = filterTimeS(speedMps, stands, noise.noiseMps, intervalS);
  const brief = filterS === undefined && restTooBrief(speedMps, stands, noise.noiseMps, intervalS);
  const hiddenMps = hiddenBelowMps(speedMps, stands, noise.noiseMps, log.speedStepMps);
  const stampS = fresh.heldS === undefined ? stampScatterS(timeS, intervalS) : undefined;

  if (fresh.heldS !== undefined) {
    const rows = log.timeS.length;
    warnings.push({
      code: 'held-values',
      text: `rows repeat one reading for about ${fresh.heldS.toFixed(1)} s; only the ${keep.length} fresh readings of ${rows} rows are used`,
    });
  }
  for (const spike of spikes) {
    warnings.push({
      code: 'spike',
      atS: spike.atS,
      line: spike.line,
      text: `${mpsToKmh(spike.speedMps).toFixed(1)} km/h at ${spike.atS.toFixed(2)} s is a reading no car could make from its neighbours; left out`,
    });
  }
  for (const gap of gaps) {
    warnings.push({
      code: 'gap',
      atS: gap.fromS,
      line: line[gap.index]!,
      text: `no reading for ${(gap.toS - gap.fromS).toFixed(2)} s after ${gap.fromS.toFixed(2)} s; nothing is filled in`,
    });
  }
  const trace: Trace = {
    file: log.file,
    format: log.format,
    speedSource: log.speedSource,
    timeS,
    speedMps,
    distanceM: integrateSpeed(timeS, speedMps, stands),
    line,
    channels: pickChannels(log.channels, keep),
    rateHz,
    ...noise,
    ...(log.speedStepMps === undefined ? {} : { speedStepMps: log.speedStepMps }),
    ...(hiddenMps === undefined ? {} : { hiddenMps }),
    ...(filterS === undefined ? {} : { filterS }),
    ...(brief ? { restTooBrief: true } : {}),
    ...(stampS === undefined ? {} : { stampS }),
    ...(fresh.heldS === undefined ? {} : { heldS: fresh.heldS }),
    gaps,
    spikes,
  };
  return { trace, warnings };
}

function pick(values: Float64Array, rows: Uint32Array): Float64Array {
  const picked = new Float64Array(rows.length);
  for (let k = 0; k < rows.length; k++) picked[k] = values[rows[k]!]!;
  return picked;
}

function pickChannels(channels: Channels, rows: Uint32Array): Channels {
  const entries = Object.entries(channels) as [keyof Channels, Float64Array | undefined][];
  return Object.fromEntries(
    entries.flatMap(([name, values]) => (values === undefined ? [] : [[name, pick(values, rows)]])),
  );
}
