/** Reader of GPX 1.0 and 1.1 tracks (topografix.com/GPX/1/1/gpx.xsd). */
import { SaxesParser } from 'saxes';
import { ProblemError } from '../problem.ts';
import {
  badField,
  derivedFromPosition,
  gpxBroken,
  gpxNoPoints,
  gpxNoTimes,
  logTooFewSamples,
  negativeSpeed,
  noSpeed,
  severalSegments,
} from '../problems/log.ts';
import { bytesToText } from './bytes.ts';
import { readClock } from './clock-text.ts';
import { finiteNumber } from './decimal.ts';
import { speedFromPosition } from './derived-speed.ts';
import type { Log, LogReader, LogWarning } from './log.ts';
import { inOrder, placeInTime, Samples } from './samples.ts';
import { decimalsOf, recordedStep } from './step.ts';
import { Tally } from './tally.ts';

/** Share of points with a speed from which the recorded speed is used; with fewer it is derived for all. */
const ENOUGH_SPEEDS = 0.9;
/** Share of points with a time below which a track was planned or stripped, not recorded. */
const ENOUGH_TIMES = 0.5;
/** Parsed this many characters at a time, so that no second copy of a large file is made. */
const CHUNK = 1 << 16;

export const gpx: LogReader = {
  format: 'gpx',
  describes: 'GPX 1.0 and 1.1 track points with time; speed in m/s where recorded, or else from the position',
  recognises: head => /^\s*</.test(head) && /<([\w.-]+:)?gpx[\s>/]/.test(head),
  read: readGpx,
};

interface TrackPoint {
  readonly line: number;
  readonly segment: number;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  /** Texts of the elements inside, by local name. */
  readonly texts: Partial<Record<(typeof KEPT)[number], string>>;
}

const KEPT = ['time', 'ele', 'speed', 'course', 'sat', 'hdop'] as const;
const isKept = (name: string): name is (typeof KEPT)[number] => (KEPT as readonly string[]).includes(name);

const CHANNELS = ['latitudeDeg', 'longitudeDeg', 'altitudeM', 'headingDeg', 'satellites', 'hdop'] as const;

/**
 * One sample a track point with a time. The recorded speed is the element named `speed`, m/s, of the point
 * itself (GPX 1.0) or anywhere in its extensions (1.1). Times without a zone are UTC, as the schema says.
 * @throws ProblemError at the first fault of the XML: what follows it cannot be trusted.
 */
function readGpx(file: string, bytes: Uint8Array): Log {
  const points = parsePoints(file, bytesToText(file, bytes));
  if (points.length === 0) throw new ProblemError(gpxNoPoints(file));
  const badTime = new Tally();
  const timed = points.flatMap(point => {
    const reading = point.texts.time === undefined ? undefined : readClock(point.texts.time);
    if (reading?.kind === 'utc' || reading?.kind === 'local') return [{ ...point, timeS: reading.seconds }];
    badTime.add(point.line);
    return [];
  });
  if (timed.length < points.length * ENOUGH_TIMES) {
    throw new ProblemError(gpxNoTimes(file, timed.length, points.length, badTime.firstLines[0]!));
  }

  const written = timed.map(point => toNumber(point.texts.speed));
  const withSpeed = written.filter(Number.isFinite).length;
  const recorded = withSpeed >= ENOUGH_SPEEDS * timed.length;
  const speeds = recorded ? written : speedFromPosition(timed);
  const samples = new Samples(CHANNELS);
  const negative = new Tally();
  const unknown = new Tally();
  let decimals = 0;
  for (const [i, point] of timed.entries()) {
    const speed = speeds[i]!;
    // Common practice, no source: −1 exactly is how position services write "no speed".
    if (Number.isNaN(speed) || (recorded && speed === -1)) {
      unknown.add(point.line);
      continue;
    }
    if (speed < 0) negative.add(point.line);
    if (recorded) decimals = Math.max(decimals, decimalsOf(point.texts.speed ?? ''));
    pushPoint(samples, point, Math.abs(speed));
  }

  const ordered = inOrder(file, samples);
  const segments = new Set(timed.map(point => point.segment));
  const secondSegment = timed.find(point => point.segment !== timed[0]!.segment);
  const told: LogWarning[] = [
    ...(recorded ? [] : [derivedFromPosition(withSpeed, timed.length)]),
    ...(badTime.count > 0 ? [badField(badTime)] : []),
    ...(unknown.count > 0 ? [noSpeed('none given', unknown)] : []),
    ...(negative.count > 0 ? [negativeSpeed(negative)] : []),
    ...(secondSegment ? [severalSegments(segments.size, secondSegment.line)] : []),
    ...ordered.warnings,
  ];
  if (ordered.timeS.length < 2) throw new ProblemError(logTooFewSamples(file, ordered.timeS.length, told));
  const step = recorded ? recordedStep(ordered.speedMps, decimals) : undefined;
  return {
    file,
    format: 'gpx',
    timeS: ordered.timeS,
    speedMps: ordered.speedMps,
    speedSource: recorded ? 'recorded' : 'derived-from-position',
    line: ordered.line,
    ...(step === undefined ? {} : { speedStepMps: step }),
    clock: { kind: 'utc', startMs: Math.round(ordered.startS * 1000) },
    channels: ordered.channels,
    warnings: placeInTime(told, ordered),
  };
}

function pushPoint(samples: Samples, point: TrackPoint & { readonly timeS: number }, speedMps: number): void {
  samples.time.push(point.timeS);
  samples.speed.push(speedMps);
  samples.line.push(point.line);
  const values = {
    latitudeDeg: point.latitudeDeg,
    longitudeDeg: point.longitudeDeg,
    altitudeM: toNumber(point.texts.ele),
    headingDeg: toNumber(point.texts.course),
    satellites: toNumber(point.texts.sat),
    hdop: toNumber(point.texts.hdop),
  };
  for (const name of CHANNELS) samples.channels.get(name)!.push(values[name]);
}

function toNumber(text: string | undefined): number {
  const written = text?.trim() ?? '';
  return /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(written) ? finiteNumber(written) : Number.NaN;
}

const localName = (name: string): string => name.slice(name.indexOf(':') + 1);

/** All `trkpt` in the order of the file. Entities of a document type are not expanded: using one is a fault. */
function parsePoints(file: string, text: string): TrackPoint[] {
  const points: TrackPoint[] = [];
  const parser = new SaxesParser();
  let segment = 0;
  let point: TrackPoint | undefined;
  let element: (typeof KEPT)[number] | undefined;
  parser.on('error', fault => {
    throw new ProblemError(
      gpxBroken(file, parser.line, parser.column, fault.message.replace(/^\d+:\d+: /, '')),
    );
  });
  parser.on('opentag', ({ name, attributes }) => {
    const local = localName(name);
    if (local === 'trkseg') segment++;
    else if (local === 'trkpt') {
      const latitudeDeg = toNumber(attributes.lat);
      const longitudeDeg = toNumber(attributes.lon);
      point = { line: parser.line, segment, latitudeDeg, longitudeDeg, texts: {} };
      points.push(point);
    }
    // The first of a name counts: an extension may repeat what the point itself says.
    element = point && isKept(local) && point.texts[local] === undefined ? local : undefined;
    if (element) point!.texts[element] = '';
  });
  parser.on('text', chunk => {
    if (element && point) point.texts[element] += chunk;
  });
  parser.on('closetag', ({ name }) => {
    element = undefined;
    if (localName(name) === 'trkpt') point = undefined;
  });
  for (let start = 0; start < text.length; start += CHUNK) parser.write(text.slice(start, start + CHUNK));
  parser.close();
  return points;
}
