/** One simulated morning, written in every way a log may come. */
import { checksumOf } from '../../pipeline/log/sentence.ts';
import { KNOT_MPS, kmhToMps, MPH_MPS } from '../../pipeline/units.ts';
import { AUTOMATIC_ESTATE } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';

export const DAY = simulateDay({
  seed: 21,
  car: AUTOMATIC_ESTATE,
  rateHz: 20,
  noiseMps: kmhToMps(0.05),
  runs: 3,
  aborted: 1,
  traffic: false,
});
const { timeS, speedMps } = DAY.samples;
const START_MS = Date.UTC(2026, 4, 12, 23, 58, 30);

interface Row {
  readonly t: number;
  readonly mps: number;
  readonly iso: string;
}
const ROWS: readonly Row[] = Array.from(timeS, (t, i) => ({
  t,
  mps: speedMps[i]!,
  iso: new Date(START_MS + Math.round(t * 1000)).toISOString(),
}));

export interface WrittenDay {
  readonly way: string;
  readonly text: string;
  readonly args?: readonly string[];
}

const table = (header: string, row: (row: Row) => string, end = '\n'): string =>
  `${[header, ...ROWS.map(row)].join(end)}${end}`;
const comma = (text: string): string => text.replace('.', ',');
const kmh = ({ mps }: Row): string => (mps * 3.6).toFixed(3);

function sentence({ iso, mps }: Row): string {
  const time = iso.slice(11, 23).replaceAll(':', '');
  const date = `${iso.slice(8, 10)}${iso.slice(5, 7)}${iso.slice(2, 4)}`;
  const body = `GNRMC,${time},A,5224.0000,N,00112.0000,W,${(mps / KNOT_MPS).toFixed(3)},068.0,${date},,,A`;
  return `$${body}*${checksumOf(body)}`;
}

/** Delimiters, decimal comma, byte-order mark, CRLF, preamble, ms, m/s, mph, ISO time, declared columns, NMEA. */
export const WRITTEN_DAYS: readonly WrittenDay[] = [
  { way: 'commas', text: table('time_s,speed_kmh', row => `${row.t.toFixed(3)},${kmh(row)}`) },
  { way: 'tabs', text: table('time_s\tspeed_kmh', row => `${row.t.toFixed(3)}\t${kmh(row)}`) },
  {
    way: 'semicolons and decimal commas',
    text: table('Time (s);Speed (km/h)', row => `${comma(row.t.toFixed(3))};${comma(kmh(row))}`),
  },
  {
    way: 'a byte-order mark and CRLF',
    text: `\uFEFF${table('time_s,speed_kmh', row => `${row.t.toFixed(3)},${kmh(row)}`, '\r\n')}`,
  },
  {
    way: 'a preamble',
    text: table(
      'Airfield, 12 May\nDriver: alone\n\ntime_s,speed_kmh',
      row => `${row.t.toFixed(3)},${kmh(row)}`,
    ),
  },
  {
    way: 'milliseconds',
    text: table('time (ms),speed (km/h)', row => `${Math.round(row.t * 1000)},${kmh(row)}`),
  },
  { way: 'metres a second', text: table('t_s,v [m/s]', row => `${row.t.toFixed(3)},${row.mps.toFixed(4)}`) },
  {
    way: 'miles an hour',
    text: table('t_s,speed_mph', row => `${row.t.toFixed(3)},${(row.mps / MPH_MPS).toFixed(3)}`),
  },
  { way: 'ISO 8601 time past midnight', text: table('timestamp,speed_kmh', row => `${row.iso},${kmh(row)}`) },
  {
    way: 'declared columns',
    text: table('a,b,c', row => `${row.mps.toFixed(4)},7,${Math.round(row.t * 1000)}`),
    args: ['--column', 'time=c:ms', '--column', 'speed=a:m/s'],
  },
  { way: 'NMEA 0183', text: `${ROWS.map(sentence).join('\r\n')}\r\n` },
];
