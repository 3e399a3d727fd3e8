/** Reader of NMEA 0183 sentences: RMC, VTG and GGA of any talker, checksums verified. */
import { ProblemError } from '../problem.ts';
import {
  badChecksum,
  badField,
  cutOff,
  derivedFromPosition,
  logTooLarge,
  nmeaNoReadings,
  noChecksum,
  noFix,
  noSpeed,
  timeRepeated,
} from '../problems/log.ts';
import { EncodedText, MAX_BYTES } from './bytes.ts';
import { DAY_S } from './clock-text.ts';
import { speedFromPosition } from './derived-speed.ts';
import { type Epoch, EpochClock, epochSpeed, firstDayS, readEpochs, SentenceFaults } from './epochs.ts';
import type { Log, LogReader, LogWarning } from './log.ts';
import { type Column, inOrder, placeInTime, Samples } from './samples.ts';
import { Tally } from './tally.ts';

export const nmea: LogReader = {
  format: 'nmea',
  describes: 'NMEA 0183 sentences RMC, VTG and GGA of any talker, checksums verified',
  recognises: head => /(^|[^\w])\$[A-Z]{2}(RMC|VTG|GGA),/.test(head),
  read: readNmea,
};

/**
 * One sample an epoch with a valid fix and a speed. A log that never has a speed, only GGA, gets its speed
 * from its positions and says so.
 */
function readNmea(file: string, bytes: Uint8Array): Log {
  if (bytes.length > MAX_BYTES) throw new ProblemError(logTooLarge(file, bytes.length, MAX_BYTES));
  const text = new EncodedText(bytes, 'windows-1252');
  const faults = new SentenceFaults();
  const dayS = firstDayS(text);
  const { samples, stepMps, withoutSpeed } = readSamples(text, faults, dayS);
  const recorded = stepMps !== undefined;
  const positions = samples.line.length;
  if (!recorded) samples.speed.replace(derivedSpeeds(samples));
  const ordered = inOrder(file, samples);
  const told = [
    ...faultWarnings(faults),
    ...(recorded || positions === 0 ? [] : [derivedFromPosition(0, positions)]),
    ...(recorded && withoutSpeed.count > 0 ? [noSpeed('empty field', withoutSpeed)] : []),
    ...ordered.warnings,
  ];
  if (ordered.timeS.length < 2) throw new ProblemError(nmeaNoReadings(file, told));
  const { startS } = ordered;
  return {
    file,
    format: 'nmea',
    timeS: ordered.timeS,
    speedMps: ordered.speedMps,
    speedSource: recorded ? 'recorded' : 'derived-from-position',
    line: ordered.line,
    ...(recorded ? { speedStepMps: stepMps } : {}),
    clock:
      dayS === undefined
        ? { kind: 'time-of-day', startMs: Math.round((startS % DAY_S) * 1000) }
        : { kind: 'utc', startMs: Math.round(startS * 1000) },
    channels: ordered.channels,
    warnings: placeInTime(told, ordered),
  };
}

function faultWarnings({ badChecksum: bad, noChecksum: none, ...faults }: SentenceFaults): LogWarning[] {
  return [
    ...(bad.count > 0 ? [badChecksum(bad)] : []),
    ...(none.count > 0 ? [noChecksum(none)] : []),
    ...(faults.badTime.count > 0 ? [badField(faults.badTime)] : []),
    ...(faults.withoutFix.count > 0 ? [noFix(faults.withoutFix)] : []),
    ...(faults.repeated.count > 0 ? [timeRepeated(faults.repeated)] : []),
    ...(faults.cutOffLine === undefined ? [] : [cutOff(faults.cutOffLine)]),
  ];
}

/** Every epoch with a fix, its speed NaN where it has none; the step is that of most speeds. */
function readSamples(text: EncodedText, faults: SentenceFaults, dayS: number | undefined) {
  const samples = new Samples(CHANNELS);
  const columns = new EpochColumns(samples);
  const clock = new EpochClock(dayS);
  const steps = new Map<number, number>();
  const rmcWithoutSpeed = new Tally();
  const ggaWithoutSpeed = new Tally();
  let hasRmc = false;
  for (const epoch of readEpochs(text, faults)) {
    const { rmc, gga, line } = epoch;
    if (rmc) hasRmc = true;
    const timeS = clock.timeS(epoch);
    if (!(rmc ?? gga)?.valid) {
      faults.withoutFix.add(line);
      continue;
    }
    const speed = epochSpeed(epoch);
    if (speed) steps.set(speed.stepMps, (steps.get(speed.stepMps) ?? 0) + 1);
    else (rmc ? rmcWithoutSpeed : ggaWithoutSpeed).add(line);
    columns.push(epoch, timeS, speed?.mps ?? Number.NaN);
  }
  const [usual] = [...steps].sort((a, b) => b[1] - a[1]);
  // Where there is RMC, a GGA of another time is no sample missed: some receivers send it more often.
  return { samples, stepMps: usual?.[0], withoutSpeed: hasRmc ? rmcWithoutSpeed : ggaWithoutSpeed };
}

function derivedSpeeds(samples: Samples): Float64Array {
  const latitudeDeg = samples.channels.get('latitudeDeg')!.toArray();
  const longitudeDeg = samples.channels.get('longitudeDeg')!.toArray();
  const positions = Array.from(samples.time.toArray(), (timeS, i) => ({
    timeS,
    latitudeDeg: latitudeDeg[i]!,
    longitudeDeg: longitudeDeg[i]!,
    segment: 0,
  }));
  return speedFromPosition(positions);
}

const CHANNELS = ['latitudeDeg', 'longitudeDeg', 'altitudeM', 'headingDeg', 'satellites', 'hdop'] as const;

/** Columns of an epoch's channels, found once: looking each up by name would be much of the work. */
class EpochColumns {
  private readonly samples: Samples;
  private readonly latitudeDeg: Column;
  private readonly longitudeDeg: Column;
  private readonly altitudeM: Column;
  private readonly headingDeg: Column;
  private readonly satellites: Column;
  private readonly hdop: Column;

  constructor(samples: Samples) {
    const { channels } = samples;
    this.samples = samples;
    this.latitudeDeg = channels.get('latitudeDeg')!;
    this.longitudeDeg = channels.get('longitudeDeg')!;
    this.altitudeM = channels.get('altitudeM')!;
    this.headingDeg = channels.get('headingDeg')!;
    this.satellites = channels.get('satellites')!;
    this.hdop = channels.get('hdop')!;
  }

  push({ rmc, gga, vtg, line }: Epoch, timeS: number, speedMps: number): void {
    this.samples.time.push(timeS);
    this.samples.speed.push(speedMps);
    this.samples.line.push(line);
    const position = rmc && Number.isFinite(rmc.latitudeDeg + rmc.longitudeDeg) ? rmc : gga;
    this.latitudeDeg.push(position?.latitudeDeg ?? Number.NaN);
    this.longitudeDeg.push(position?.longitudeDeg ?? Number.NaN);
    this.altitudeM.push(gga?.altitudeM ?? Number.NaN);
    this.headingDeg.push(rmc?.courseDeg ?? vtg?.courseDeg ?? Number.NaN);
    this.satellites.push(gga?.satellites ?? Number.NaN);
    this.hdop.push(gga?.hdop ?? Number.NaN);
  }
}
