// A day's log read and measured, beside reading alone: a part of `npm run bench`.
import { inferSchema, initParser } from 'udsv';
import { readLog } from '../../pipeline/log/readers.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { AUTOMATIC_ESTATE } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';
import { writeCsv } from '../simulate/write-log.ts';
import { report, reportPeak } from './part.ts';
import { sideBySide } from './side-by-side.ts';

// An hour at 25 Hz with about twenty starts.
const day = simulateDay({ seed: 7, car: AUTOMATIC_ESTATE, rateHz: 25, noiseMps: 0.02, runs: 20, aborted: 2 });
const bytes = writeCsv(day.samples);
const log = readLog('day.csv', bytes);
const minutes = ((log.timeS.at(-1) ?? 0) / 60).toFixed(0);
report(
  "A day's log",
  `${minutes} min at 25 Hz, ${measureLog(log).measurements.length} runs, ${(bytes.length / 1e6).toFixed(1)} MB`,
  await sideBySide(
    [
      { name: 'read and measured', run: () => measureLog(readLog('day.csv', bytes)) },
      { name: 'read only', run: () => readLog('day.csv', bytes) },
      {
        name: 'split into columns by a general parser',
        run: () => {
          const text = new TextDecoder().decode(bytes);
          return initParser(inferSchema(text)).typedCols(text);
        },
      },
    ],
    5,
  ),
);
reportPeak();
