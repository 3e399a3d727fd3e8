/** Writes samples as loggers write them: CSV in many dialects, NMEA 0183 and GPX 1.1. */
import type { Samples } from './receiver.ts';

export type TimeStyle =
  /** Seconds since the first sample. */
  | 's'
  /** Milliseconds since the first sample. */
  | 'ms'
  /** ISO 8601 with Z. */
  | 'iso'
  /** Hours, minutes and seconds of the clock at the road. */
  | 'time-of-day';
export type SpeedUnit = 'km/h' | 'm/s' | 'mph' | 'kn';
export type ExtraColumn = 'latitude' | 'longitude' | 'altitude' | 'heading' | 'satellites' | 'hdop';

export interface CsvDialect {
  readonly delimiter?: ',' | ';' | '\t';
  readonly decimal?: '.' | ',';
  readonly byteOrderMark?: boolean;
  readonly lineEnd?: '\n' | '\r\n';
  /** Lines above the header. */
  readonly preamble?: readonly string[];
  readonly time?: TimeStyle;
  readonly timeDecimals?: number;
  readonly unit?: SpeedUnit;
  readonly speedDecimals?: number;
  readonly extra?: readonly ExtraColumn[];
  /** Names in the order time, speed, extras; those of `defaultHeader` where absent. */
  readonly header?: readonly string[];
  /** UTC of the first sample, ms; needed for `iso` and `time-of-day`. */
  readonly startMs?: number;
  /** How far the clock at the road is ahead of UTC, min. */
  readonly zoneMin?: number;
}

const PER_MPS: Readonly<Record<SpeedUnit, number>> = {
  'km/h': 3.6,
  'm/s': 1,
  mph: 3600 / 1609.344,
  kn: 3600 / 1852,
};
const EXTRA: Readonly<
  Record<ExtraColumn, { column: keyof Samples; header: string; decimals: number; unit: string }>
> = {
  latitude: { column: 'latitudeDeg', header: 'latitude', decimals: 7, unit: 'deg' },
  longitude: { column: 'longitudeDeg', header: 'longitude', decimals: 7, unit: 'deg' },
  altitude: { column: 'altitudeM', header: 'altitude', decimals: 1, unit: 'm' },
  heading: { column: 'courseDeg', header: 'heading', decimals: 1, unit: 'deg' },
  satellites: { column: 'satellites', header: 'satellites', decimals: 0, unit: '' },
  hdop: { column: 'hdop', header: 'hdop', decimals: 2, unit: '' },
};
const encoder = new TextEncoder();
const two = (value: number): string => String(value).padStart(2, '0');

/** `2026-05-12T09:22:41.040Z` of an instant in ms, with as many decimals of a second as asked. */
export function isoInstant(ms: number, decimals: number): string {
  const unit = 10 ** -decimals * 1000;
  const rounded = Math.round(ms / unit) * unit;
  const text = new Date(Math.floor(rounded)).toISOString();
  return decimals === 0 ? `${text.slice(0, 19)}Z` : `${text.slice(0, 20 + Math.min(3, decimals))}Z`;
}

function timeOfDay(ms: number, decimals: number): string {
  return isoInstant(ms, decimals).slice(11, -1);
}

/** The header `writeCsv` writes where none is given, units in the names. */
export function defaultHeader(dialect: CsvDialect): string[] {
  const style = dialect.time ?? 's';
  const time =
    style === 's' ? 'time (s)' : style === 'ms' ? 'time (ms)' : style === 'iso' ? 'utc' : 'time of day';
  return [
    time,
    `speed (${dialect.unit ?? 'km/h'})`,
    ...(dialect.extra ?? []).map(word => {
      const { header, unit } = EXTRA[word];
      return unit === '' ? header : `${header} (${unit})`;
    }),
  ];
}

/** A CSV log. */
export function writeCsv(samples: Samples, dialect: CsvDialect = {}): Uint8Array<ArrayBuffer> {
  const delimiter = dialect.delimiter ?? ',';
  const lineEnd = dialect.lineEnd ?? '\n';
  const style = dialect.time ?? 's';
  const startMs = dialect.startMs ?? 0;
  const perMps = PER_MPS[dialect.unit ?? 'km/h'];
  const speedDecimals = dialect.speedDecimals ?? 2;
  const timeDecimals = dialect.timeDecimals ?? (style === 'ms' ? 0 : 3);
  const number = (value: number, decimals: number): string => {
    const text = value.toFixed(decimals);
    return dialect.decimal === ',' ? text.replace('.', ',') : text;
  };
  const extras = (dialect.extra ?? []).map(word => EXTRA[word]);
  const zoneMs = (dialect.zoneMin ?? 0) * 60_000;
  const lines: string[] = [...(dialect.preamble ?? [])];
  lines.push((dialect.header ?? defaultHeader(dialect)).join(delimiter));
  for (let i = 0; i < samples.timeS.length; i++) {
    const timeS = samples.timeS[i]!;
    const time =
      style === 's'
        ? number(timeS, timeDecimals)
        : style === 'ms'
          ? number(timeS * 1000, timeDecimals)
          : style === 'iso'
            ? isoInstant(startMs + timeS * 1000, timeDecimals)
            : timeOfDay(startMs + zoneMs + timeS * 1000, timeDecimals);
    const row = [time, number(samples.speedMps[i]! * perMps, speedDecimals)];
    for (const extra of extras) row.push(number((samples[extra.column] as Float64Array)[i]!, extra.decimals));
    lines.push(row.join(delimiter));
  }
  return encoder.encode(`${dialect.byteOrderMark ? '\uFEFF' : ''}${lines.join(lineEnd)}${lineEnd}`);
}

export interface NmeaDialect {
  /** UTC of the first sample, ms. */
  readonly startMs: number;
  /** Two letters of the talker; GN where absent. */
  readonly talker?: string;
  /** Decimals of knots in RMC; 3 where absent. */
  readonly knotDecimals?: number;
  /** Decimals of a minute of arc; 5 where absent. */
  readonly minuteDecimals?: number;
  /** Sentences of each epoch; RMC and GGA where absent. */
  readonly sentences?: readonly ('RMC' | 'GGA' | 'VTG')[];
  /** GGA with every so many epochs; every one where absent. */
  readonly ggaEvery?: number;
}

/** Exclusive or of the characters between `$` and `*`, two hexadecimal digits (NMEA 0183). */
export function nmeaChecksum(body: string): string {
  let sum = 0;
  for (let i = 0; i < body.length; i++) sum ^= body.charCodeAt(i);
  return sum.toString(16).toUpperCase().padStart(2, '0');
}

function degreesAndMinutes(deg: number, degreeDigits: number, decimals: number): string {
  const minutes = Math.round(Math.abs(deg) * 60 * 10 ** decimals) / 10 ** decimals;
  const whole = Math.floor(minutes / 60);
  return (
    String(whole).padStart(degreeDigits, '0') +
    (minutes - whole * 60).toFixed(decimals).padStart(decimals + 3, '0')
  );
}

/** An NMEA 0183 log, one epoch a sample, lines ended by CR and LF. */
export function writeNmea(samples: Samples, dialect: NmeaDialect): Uint8Array<ArrayBuffer> {
  const talker = dialect.talker ?? 'GN';
  const digits = dialect.minuteDecimals ?? 5;
  const sentences = dialect.sentences ?? ['RMC', 'GGA'];
  const lines: string[] = [];
  for (let i = 0; i < samples.timeS.length; i++) {
    const instant = isoInstant(dialect.startMs + samples.timeS[i]! * 1000, 2);
    const clock = instant.slice(11, 22).replaceAll(':', '');
    const date = instant.slice(8, 10) + instant.slice(5, 7) + instant.slice(2, 4);
    const latitude = samples.latitudeDeg[i]!;
    const longitude = samples.longitudeDeg[i]!;
    const place = [
      degreesAndMinutes(latitude, 2, digits),
      latitude < 0 ? 'S' : 'N',
      degreesAndMinutes(longitude, 3, digits),
      longitude < 0 ? 'W' : 'E',
    ].join(',');
    const knots = (samples.speedMps[i]! * PER_MPS.kn).toFixed(dialect.knotDecimals ?? 3);
    const course = samples.courseDeg[i]!.toFixed(1);
    for (const sentence of sentences) {
      if (sentence === 'GGA' && i % (dialect.ggaEvery ?? 1) !== 0) continue;
      const body =
        sentence === 'RMC'
          ? `${talker}RMC,${clock},A,${place},${knots},${course},${date},,,A`
          : sentence === 'GGA'
            ? `${talker}GGA,${clock},${place},1,${two(samples.satellites[i]!)},${samples.hdop[i]!.toFixed(1)},${samples.altitudeM[i]!.toFixed(1)},M,47.0,M,,`
            : `${talker}VTG,${course},T,,M,${knots},N,${(samples.speedMps[i]! * 3.6).toFixed(dialect.knotDecimals ?? 3)},K,A`;
      lines.push(`$${body}*${nmeaChecksum(body)}`);
    }
  }
  return encoder.encode(`${lines.join('\r\n')}\r\n`);
}

export interface GpxDialect {
  /** UTC of the first sample, ms. */
  readonly startMs: number;
  readonly name?: string;
  /** Speed in an extension element named `speed`, m/s; without it readers have positions only. */
  readonly speed?: boolean;
  readonly speedDecimals?: number;
  readonly positionDecimals?: number;
  /** Elevation, satellites and HDOP of each point; true where absent. */
  readonly details?: boolean;
}

/** A GPX 1.1 log with one track of one segment, one point a line. */
export function writeGpx(samples: Samples, dialect: GpxDialect): Uint8Array<ArrayBuffer> {
  const digits = dialect.positionDecimals ?? 7;
  const lines = [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<gpx version="1.1" creator="test logger" xmlns="http://www.topografix.com/GPX/1/1" xmlns:log="https://example.org/logger">',
    `<trk><name>${dialect.name ?? 'Test day'}</name><trkseg>`,
  ];
  for (let i = 0; i < samples.timeS.length; i++) {
    const details = dialect.details ?? true;
    lines.push(
      `<trkpt lat="${samples.latitudeDeg[i]!.toFixed(digits)}" lon="${samples.longitudeDeg[i]!.toFixed(digits)}">` +
        (details ? `<ele>${samples.altitudeM[i]!.toFixed(1)}</ele>` : '') +
        `<time>${isoInstant(dialect.startMs + samples.timeS[i]! * 1000, 3)}</time>` +
        (details ? `<sat>${samples.satellites[i]!}</sat><hdop>${samples.hdop[i]!.toFixed(2)}</hdop>` : '') +
        ((dialect.speed ?? true)
          ? `<extensions><log:speed>${samples.speedMps[i]!.toFixed(dialect.speedDecimals ?? 3)}</log:speed></extensions>`
          : '') +
        '</trkpt>',
    );
  }
  lines.push('</trkseg></trk></gpx>');
  return encoder.encode(`${lines.join('\n')}\n`);
}
