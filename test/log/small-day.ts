/** One small day of speeds, 10 Hz, written in every way a log may come: each must read the same. */
import { checksumOf } from '../../pipeline/log/sentence.ts';
import { KNOT_MPS, MPH_MPS } from '../../pipeline/units.ts';

/** Speeds in whole km/h, so that each unit writes them to far below a step. */
export const SPEEDS_KMH: readonly number[] = Array.from({ length: 40 }, (_, i) =>
  i < 8 ? 0 : Math.min(80, (i - 8) * 3),
);
export const TIMES_S: readonly number[] = SPEEDS_KMH.map((_, i) => i / 10);

const START_MS = Date.UTC(2026, 4, 1, 9, 59, 58, 0);
const iso = (i: number): string => new Date(START_MS + i * 100).toISOString();
const clock = (i: number): string => iso(i).slice(11, 23);

type Row = (timeS: number, speedKmh: number, i: number) => string;
const rows = (row: Row): string[] => TIMES_S.map((timeS, i) => row(timeS, SPEEDS_KMH[i]!, i));
const table = (header: string, row: Row, end = '\n'): string => [header, ...rows(row), ''].join(end);
const comma = (value: number, decimals: number): string => value.toFixed(decimals).replace('.', ',');

const rmc: Row = (_timeS, speedKmh, i) => {
  const time = clock(i).replaceAll(':', '').slice(0, 9);
  const knots = (speedKmh / 3.6 / KNOT_MPS).toFixed(6);
  const body = `GNRMC,${time},A,5200.0000,N,00100.0000,E,${knots},90.0,010526,,,A`;
  return `$${body}*${checksumOf(body)}`;
};

interface Written {
  readonly text: string | Uint8Array;
  readonly columns?: Readonly<Record<string, { readonly name: string; readonly unit?: string }>>;
}

export const WAYS: Readonly<Record<string, Written>> = {
  'commas and units in the names': { text: table('time_s,speed_kmh', (t, v) => `${t.toFixed(1)},${v}`) },
  'semicolons and decimal commas': {
    text: table('Time (s);Speed (km/h)', (t, v) => `${comma(t, 1)};${comma(v, 1)}`),
  },
  tabs: { text: table('t [s]\tv [km/h]', (t, v) => `${t.toFixed(1)}\t${v.toFixed(1)}`) },
  'a byte-order mark and CRLF': {
    text: table('\uFEFFtime_s,Speed (km/h)', (t, v) => `${t.toFixed(1)},${v}`, '\r\n'),
  },
  'a preamble before the header': {
    text: table(
      'Test day, airfield\nStart time: 10:00, speed unit: km/h\n\nDriver;none\nTime [s],Speed [km/h],Sats',
      (t, v) => `${t.toFixed(1)},${v},12`,
    ),
  },
  milliseconds: { text: table('time (ms),speed kmh', (t, v) => `${Math.round(t * 1000)},${v}`) },
  'metres per second': { text: table('t_s,v [m/s]', (t, v) => `${t.toFixed(1)},${(v / 3.6).toFixed(6)}`) },
  'miles per hour': {
    text: table('Elapsed Time (sec),Speed_mph', (t, v) => `${t},${(v / 3.6 / MPH_MPS).toFixed(6)}`),
  },
  'ISO 8601 instants': { text: table('timestamp,speed_kmh', (_t, v, i) => `${iso(i)},${v}`) },
  'times of day': { text: table('UTC time,speed [km/h]', (_t, v, i) => `${clock(i)},${v}`) },
  'declared columns': {
    text: table('a,b,c', (t, v) => `${v},${t * 1000},7`),
    columns: { time: { name: 'b', unit: 'ms' }, speed: { name: 'a', unit: 'km/h' } },
  },
  'a row of units under the header': {
    text: table('Time,Speed\n[s],[km/h]', (t, v) => `${t.toFixed(1)},${v}`),
  },
  'knots in quotes': {
    text: table('"time, s";"speed (kn)"', (t, v) => `"${comma(t, 1)}";"${comma(v / 3.6 / KNOT_MPS, 6)}"`),
  },
  'UTF-16': {
    text: new Uint8Array(
      Buffer.from(`\uFEFF${table('time_s;speed_kmh', (t, v) => `${comma(t, 1)};${v}`)}`, 'utf16le'),
    ),
  },
  'Latin-1 with a degree sign': {
    text: new Uint8Array(
      Buffer.from(
        table('time_s,speed_kmh,heading [°]', (t, v) => `${t.toFixed(1)},${v},90`),
        'latin1',
      ),
    ),
  },
  'rows that fill only some columns': {
    text: table(
      'time_s,speed_kmh,engine_rpm',
      (t, v) => `${t.toFixed(1)},${v},\n${(t + 0.05).toFixed(2)},,900`,
    ),
  },
  'NMEA 0183': { text: `${rows(rmc).join('\r\n')}\r\n` },
  GPX: {
    text: `<?xml version="1.0"?><gpx version="1.1"><trk><trkseg>${rows(
      (_t, v, i) =>
        `<trkpt lat="52" lon="1"><time>${iso(i)}</time><extensions><a:speed xmlns:a="urn:a">${(v / 3.6).toFixed(6)}</a:speed></extensions></trkpt>`,
    ).join('\n')}</trkseg></trk></gpx>`,
  },
};

export const toBytes = (text: string | Uint8Array): Uint8Array =>
  typeof text === 'string' ? new TextEncoder().encode(text) : text;
