/** One simulated day off three cards: a table of values, receiver sentences and a track. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import { roadSchema, testSchema } from '../../pipeline/content/schema.ts';
import { DEMO_DAYS, makeDemoTest } from '../simulate/demo.ts';
import { writeCsv, writeGpx, writeNmea } from '../simulate/write-log.ts';
import { ROOT } from './built-site.ts';

export interface CardFile {
  readonly name: string;
  readonly base64: string;
}

/** The three logs of the electric hatchback's dry day, each in another format. */
export function threeLogs(): readonly CardFile[] {
  const read = (path: string): unknown => parse(readFileSync(join(ROOT, 'content', path), 'utf8'));
  // The attempts alone: coasting has a log of its own.
  const { coasting: _, ...day } = DEMO_DAYS.find(({ id }) => id === 'quillet-sorrel-dry')!;
  const test = testSchema.parse(read(`tests/${day.id}/test.yaml`));
  const road = roadSchema.parse(read(`roads/${test.road}.yaml`));
  const writers = [
    { name: 'CARD0001.TXT', write: writeAs.csv },
    { name: 'CARD0002.TXT', write: writeAs.nmea },
    { name: 'CARD0003.TXT', write: writeAs.gpx },
  ];
  let next = 0;
  const { logs } = makeDemoTest(
    { ...day, write: (samples, startMs) => writers[next++]!.write(samples, startMs) },
    test,
    road,
  );
  return logs.map(({ bytes }, i) => ({
    name: writers[i]!.name,
    base64: Buffer.from(bytes).toString('base64'),
  }));
}

type Write = (samples: Parameters<typeof writeCsv>[0], startMs: number) => Uint8Array<ArrayBuffer>;

const writeAs = {
  csv: (samples, startMs) =>
    writeCsv(samples, { time: 'iso', timeDecimals: 2, startMs, header: ['utc', 'speed_kmh'] }),
  nmea: (samples, startMs) => writeNmea(samples, { startMs, ggaEvery: 10 }),
  gpx: (samples, startMs) => writeGpx(samples, { startMs, positionDecimals: 6 }),
} satisfies Record<string, Write>;
