/** Logs whose damage looks like data: where nobody is told of it, the figures are the same within their uncertainty. */
import { readLog } from '../../pipeline/log/readers.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { ProblemError } from '../../pipeline/problem.ts';
import { LOGS } from './logs.ts';
import { type FuzzTarget, must } from './target.ts';

interface Known {
  readonly told: ReadonlySet<string>;
  readonly runs: readonly RunMeasurement[];
}

function measured(bytes: Uint8Array): Known {
  const log = readLog('day.csv', bytes);
  const { measurements } = measureLog(log);
  const told = [...log.warnings, ...measurements.flatMap(({ flags }) => flags)].map(
    ({ code, text }) => `${code} ${text}`,
  );
  return { told: new Set(told), runs: measurements };
}

const SOUND = LOGS.seeds.map(measured);

/** Compares with the sound log of the same format whose run begins nearest. */
export const QUIET: FuzzTarget = {
  name: 'quiet',
  seeds: LOGS.seeds,
  tokens: ['0', '1', '5', '9', '00', '10', '.', '\n'],
  run: bytes => {
    let found: Known;
    try {
      found = measured(bytes);
    } catch (error) {
      if (error instanceof ProblemError) return 'refused';
      throw error;
    }
    const format = LOGS.seeds.findIndex(seed => sameHead(seed, bytes));
    const sound = SOUND[format];
    if (sound === undefined || [...found.told].some(told => !sound.told.has(told))) return 'told';
    for (const run of found.runs) {
      const twin = sound.runs.find(({ run: { kind } }) => kind === run.run.kind);
      if (twin === undefined) continue;
      for (const split of run.speedSplits) {
        const same = twin.speedSplits.find(
          ({ fromMps, toMps, startRule }) =>
            fromMps === split.fromMps && toMps === split.toMps && startRule === split.startRule,
        );
        if (same === undefined) continue;
        const apart = Math.abs(split.timeS - same.timeS);
        must(
          apart <= Math.hypot(split.uncertaintyS, same.uncertaintyS) + 0.01,
          `0–${(split.toMps * 3.6).toFixed(0)} km/h ${split.startRule}: ${same.timeS.toFixed(3)} s became ${split.timeS.toFixed(3)} ± ${split.uncertaintyS.toFixed(3)} s, and nothing was told`,
        );
      }
    }
    return `same ${found.runs.length}`;
  },
};

const HEAD = 24;
const sameHead = (a: Uint8Array, b: Uint8Array): boolean => {
  for (let i = 0; i < HEAD; i++) if (a[i] !== b[i]) return false;
  return true;
};
