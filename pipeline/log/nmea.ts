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
import { bytesToLatin1, MAX_BYTES } from './bytes.ts';
import { DAY_S } from './clock-text.ts';
import { speedFromPosition } from './derived-speed.ts';
import { type Epoch, type Epochs, epochSpeed, epochTimes, textToEpochs } from './epochs.ts';
import type { Log, LogReader, LogWarning } from './log.ts';
import { inOrder, placeInTime, Samples } from './samples.ts';
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
  const found = textToEpochs(bytesToLatin1(bytes));
  const { timeS, dated } = epochTimes(found.epochs);
  const recorded = found.epochs.some(epoch => epochSpeed(epoch) !== undefined);
  const { samples, stepMps, warnings } = recorded
    ? recordedSamples(found, timeS)
    : derivedSamples(found.epochs, timeS);
  const ordered = inOrder(file, samples);
  const told = [...sentenceWarnings(found), ...warnings, ...ordered.warnings];
  if (ordered.timeS.length < 2) throw new ProblemError(nmeaNoReadings(file, told));
  const { startS } = ordered;
  return {
    file,
    format: 'nmea',
    timeS: ordered.timeS,
    speedMps: ordered.speedMps,
    speedSource: recorded ? 'recorded' : 'derived-from-position',
    line: ordered.line,
    ...(stepMps === undefined ? {} : { speedStepMps: stepMps }),
    clock: dated
      ? { kind: 'utc', startMs: Math.round(startS * 1000) }
      : { kind: 'time-of-day', startMs: Math.round((startS % DAY_S) * 1000) },
    channels: ordered.channels,
    warnings: placeInTime(told, ordered),
  };
}

function sentenceWarnings(found: Epochs): LogWarning[] {
  return [
    ...(found.badChecksum.count > 0 ? [badChecksum(found.badChecksum)] : []),
    ...(found.noChecksum.count > 0 ? [noChecksum(found.noChecksum)] : []),
    ...(found.badTime.count > 0 ? [badField(found.badTime)] : []),
    ...(found.repeated.count > 0 ? [timeRepeated(found.repeated)] : []),
    ...(found.cutOffLine === undefined ? [] : [cutOff(found.cutOffLine)]),
  ];
}

function recordedSamples({ epochs, withoutFix }: Epochs, timeS: readonly number[]) {
  const samples = newSamples();
  const withoutSpeed = new Tally();
  const steps = new Map<number, number>();
  // A log with RMC has one in every epoch that was recorded whole; without any, GGA says whether there is a fix.
  const hasRmc = epochs.some(epoch => epoch.rmc);
  for (const [i, epoch] of epochs.entries()) {
    const { rmc, gga, line } = epoch;
    if (rmc ? !rmc.valid : gga?.valid === false) {
      withoutFix.add(line);
      continue;
    }
    const speed = epochSpeed(epoch);
    if (!speed) {
      if (rmc || !hasRmc) withoutSpeed.add(line);
      continue;
    }
    steps.set(speed.stepMps, (steps.get(speed.stepMps) ?? 0) + 1);
    pushEpoch(samples, epoch, timeS[i]!, speed.mps);
  }
  const [usual] = [...steps].sort((a, b) => b[1] - a[1]);
  return {
    samples,
    stepMps: usual?.[0],
    warnings: [
      ...(withoutFix.count > 0 ? [noFix(withoutFix)] : []),
      ...(withoutSpeed.count > 0 ? [noSpeed('empty field', withoutSpeed)] : []),
    ],
  };
}

function derivedSamples(epochs: readonly Epoch[], timeS: readonly number[]) {
  const samples = newSamples();
  const withoutFix = new Tally();
  const positions = [];
  for (const [i, epoch] of epochs.entries()) {
    const latitudeDeg = latitudeOf(epoch);
    const longitudeDeg = longitudeOf(epoch);
    const valid = (epoch.gga?.valid || epoch.rmc?.valid) && Number.isFinite(latitudeDeg + longitudeDeg);
    if (valid) positions.push({ epoch, timeS: timeS[i]!, latitudeDeg, longitudeDeg, segment: 0 });
    else withoutFix.add(epoch.line);
  }
  const speeds = speedFromPosition(positions);
  for (const [i, { epoch, timeS: at }] of positions.entries()) {
    if (!Number.isNaN(speeds[i])) pushEpoch(samples, epoch, at, speeds[i]!);
  }
  return {
    samples,
    stepMps: undefined,
    warnings: [
      ...(positions.length > 0 ? [derivedFromPosition(0, positions.length)] : []),
      ...(withoutFix.count > 0 ? [noFix(withoutFix)] : []),
    ],
  };
}

const CHANNELS = ['latitudeDeg', 'longitudeDeg', 'altitudeM', 'headingDeg', 'satellites', 'hdop'] as const;
const newSamples = (): Samples => new Samples(CHANNELS);

const latitudeOf = ({ rmc, gga }: Epoch): number =>
  rmc?.valid && Number.isFinite(rmc.latitudeDeg) ? rmc.latitudeDeg : (gga?.latitudeDeg ?? Number.NaN);
const longitudeOf = ({ rmc, gga }: Epoch): number =>
  rmc?.valid && Number.isFinite(rmc.longitudeDeg) ? rmc.longitudeDeg : (gga?.longitudeDeg ?? Number.NaN);

function pushEpoch(samples: Samples, epoch: Epoch, timeS: number, speedMps: number): void {
  const { rmc, gga, vtg, line } = epoch;
  samples.time.push(timeS);
  samples.speed.push(speedMps);
  samples.line.push(line);
  const values = {
    latitudeDeg: latitudeOf(epoch),
    longitudeDeg: longitudeOf(epoch),
    altitudeM: gga?.altitudeM,
    headingDeg: rmc?.courseDeg ?? vtg?.courseDeg,
    satellites: gga?.satellites,
    hdop: gga?.hdop,
  };
  for (const name of CHANNELS) samples.channels.get(name)!.push(values[name] ?? Number.NaN);
}
