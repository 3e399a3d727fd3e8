// Reading of large logs beside general parsers of the same bytes: part of `npm run bench`.
import GPS from 'gps';
import * as simple from 'nmea-simple';
import Papa from 'papaparse';
import { inferSchema, initParser } from 'udsv';
import { readLog } from '../../pipeline/log/readers.ts';
import { checksumOf } from '../../pipeline/log/sentence.ts';
import type { Way } from './side-by-side.ts';

const HEADER = 'time_s,speed_kmh,lat,lon,altitude_m,heading_deg,satellites,hdop';

/** A table of eight columns, 100 readings a second. */
export function largeCsv(rows: number): Uint8Array {
  const lines = [HEADER];
  for (let i = 0; i < rows; i++) {
    lines.push(
      [
        (i / 100).toFixed(2),
        (60 + 60 * Math.sin(i / 5000)).toFixed(2),
        (52 + i * 1e-6).toFixed(7),
        (1.2 + i * 2e-6).toFixed(7),
        (40 + Math.sin(i / 900)).toFixed(2),
        ((i % 36_000) / 100).toFixed(2),
        12 + (i % 3),
        `0.${70 + (i % 9)}`,
      ].join(','),
    );
  }
  return new TextEncoder().encode(`${lines.join('\n')}\n`);
}

/** RMC and GGA in turns, 25 pairs a second. */
export function largeNmea(sentences: number): Uint8Array {
  const lines: string[] = [];
  for (let i = 0; i < sentences; i++) {
    const pair = i >> 1;
    const timeS = 36_000 + pair / 25;
    const two = (value: number): string => String(value).padStart(2, '0');
    const clock = `${two(Math.floor(timeS / 3600))}${two(Math.floor(timeS / 60) % 60)}${(timeS % 60).toFixed(2).padStart(5, '0')}`;
    const place = `5203.${10_000 + (pair % 80_000)},N,00112.${10_000 + (pair % 80_000)},E`;
    const knots = (30 + 30 * Math.sin(pair / 5000)).toFixed(2);
    const body =
      i % 2 === 0
        ? `GNRMC,${clock},A,${place},${knots},84.40,230394,,,A`
        : `GNGGA,${clock},${place},1,14,0.71,41.2,M,45.1,M,,`;
    lines.push(`$${body}*${checksumOf(body)}`);
  }
  return new TextEncoder().encode(`${lines.join('\r\n')}\r\n`);
}

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

/** Ways of reading a table; ours comes first. */
export const csvWays = (bytes: Uint8Array): readonly Way[] => [
  { name: 'ours: one log, checked', run: () => readLog('large.csv', bytes) },
  {
    name: 'udsv, typed columns',
    run: () => {
      const whole = text(bytes);
      return initParser(inferSchema(whole)).typedCols(whole);
    },
  },
  {
    name: 'papaparse with typing',
    run: () => Papa.parse(text(bytes), { header: true, dynamicTyping: true }),
  },
];

const eachLine = (bytes: Uint8Array, read: (line: string) => unknown): void => {
  for (const line of text(bytes).split('\r\n')) if (line !== '') read(line);
};

/** Ways of reading sentences; ours comes first, and also joins them into epochs and puts them in order. */
export const nmeaWays = (bytes: Uint8Array): readonly Way[] => [
  { name: 'ours: one log, checked', run: () => readLog('large.nmea', bytes) },
  { name: 'gps, sentence by sentence', run: () => eachLine(bytes, line => GPS.Parse(line)) },
  {
    name: 'nmea-simple, sentence by sentence',
    run: () => eachLine(bytes, line => simple.parseNmeaSentence(line)),
  },
];
