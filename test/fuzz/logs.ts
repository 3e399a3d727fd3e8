/** Logs: read or refused, and no figure that is no number or that quietly became another. */
import { readLog } from '../../pipeline/log/readers.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { ProblemError, printable, problemToLine } from '../../pipeline/problem.ts';
import { AUTOMATIC_ESTATE } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';
import type { Samples } from '../simulate/receiver.ts';
import { writeCsv, writeGpx, writeNmea } from '../simulate/write-log.ts';
import { type FuzzTarget, must, mustBeReadable } from './target.ts';

const START_MS = Date.UTC(2026, 4, 12, 9, 30);

/** One launch and stop, short, so that thousands can be read a minute. */
const samples: Samples = simulateDay({
  seed: 5,
  car: AUTOMATIC_ESTATE,
  rateHz: 10,
  noiseMps: 0.02,
  runs: 1,
  aborted: 0,
  traffic: false,
}).samples;

export const LOGS: FuzzTarget = {
  name: 'logs',
  seeds: [
    writeCsv(samples),
    writeCsv(samples, { delimiter: ';', decimal: ',', time: 'time-of-day', startMs: START_MS }),
    writeCsv(samples, { unit: 'mph', time: 'ms', extra: ['latitude', 'longitude', 'satellites', 'hdop'] }),
    writeNmea(samples, { startMs: START_MS }),
    writeGpx(samples, { startMs: START_MS }),
  ],
  tokens: [
    'time_s',
    'speed_kmh',
    'Speed (km/h)',
    't [s]',
    'v [m/s]',
    'knots',
    'mph',
    'lat',
    'hdop',
    '$GPRMC,',
    '$GNGGA,',
    '$GPVTG,',
    '*00',
    ',A,',
    ',V,',
    '230394',
    '120000.00',
    '235959.99',
    '<trkpt lat="52" lon="1">',
    '</trkpt>',
    '<time>',
    '</time>',
    '2026-05-12T09:30:00Z',
    '<speed>',
    '</gpx>',
    '<!DOCTYPE x [<!ENTITY a "b">]>',
    '&a;',
    '12:00:00',
    '24:00',
    '-0.0',
  ],
  run: bytes => {
    let log: ReturnType<typeof readLog>;
    try {
      log = readLog('day.csv', bytes);
    } catch (error) {
      if (!(error instanceof ProblemError)) throw error;
      must(error.problems.length === 1, 'more than one problem');
      mustBeReadable(problemToLine(error.problems[0]!));
      return `refused ${error.problems[0]!.id}`;
    }
    const { timeS, speedMps, line, warnings } = log;
    must(
      timeS[0] === 0 && line.length === timeS.length && speedMps.length === timeS.length,
      'columns differ in length',
    );
    for (let i = 1; i < timeS.length; i++) must(timeS[i]! > timeS[i - 1]!, `time stands still at ${i}`);
    must(timeS.every(Number.isFinite), 'a time that is no number');
    must(
      speedMps.every(speed => speed >= 0 && speed < Number.POSITIVE_INFINITY),
      'a speed that is none',
    );
    for (const warning of warnings) mustBeReadable(printable(warning.text));
    const { measurements } = measureLog(log);
    for (const measurement of measurements) checkFigures(measurement);
    const codes = new Set(
      [...warnings, ...measurements.flatMap(({ flags }) => flags)].map(({ code }) => code),
    );
    return `${log.format} ${measurements.map(({ run }) => run.kind[0]).join('')} ${[...codes].sort().join(' ')}`;
  },
};

/** Every number finite, no uncertainty negative, longer splits later. */
export function checkFigures(measurement: RunMeasurement): void {
  walk(measurement, '');
  const { speedSplits, distanceSplits } = measurement;
  for (const rule of ['first-movement', 'one-foot-rollout']) {
    const fromRest = speedSplits.filter(split => split.startRule === rule);
    const ordered = [...fromRest].sort((a, b) => a.toMps - b.toMps);
    for (const [i, split] of ordered.entries()) {
      must(i === 0 || split.timeS >= ordered[i - 1]!.timeS, `${rule}: a higher speed is reached sooner`);
    }
    const lines = distanceSplits.filter(split => split.startRule === rule).sort((a, b) => a.toM - b.toM);
    for (const [i, split] of lines.entries()) {
      must(i === 0 || split.timeS > lines[i - 1]!.timeS, `${rule}: a longer distance takes less time`);
    }
  }
}

function walk(value: unknown, path: string): void {
  if (typeof value === 'number') {
    must(Number.isFinite(value), `${path} is ${value}`);
    if (/uncertainty/i.test(path)) must(value >= 0, `${path} is negative`);
  } else if (ArrayBuffer.isView(value)) return;
  else if (value !== null && typeof value === 'object') {
    for (const [key, inner] of Object.entries(value)) walk(inner, `${path}.${key}`);
  }
}
