/** Workings of times from rest to a speed. */
import { risingThrough } from '../measurement/crossing.ts';
import { MEASURES, measureIds } from '../result/measures.ts';
import type { Attempt, MeasureId } from '../result/result.ts';
import { crossingWorkings } from './crossing.ts';
import { methodOfMeasure } from './method.ts';
import { clockStartS, type StartWorkings } from './start.ts';
import type { WorkedFigure } from './workings.ts';

const MEASURED: readonly MeasureId[] = measureIds.filter(id => methodOfMeasure(id) === 'speed-splits');

export function speedWorkings({ trace, measurement }: Attempt, start: StartWorkings): WorkedFigure[] {
  const { run, speedSplits } = measurement;
  const pullEnd = run.braking?.beginIndex ?? run.endIndex;
  return MEASURED.flatMap(measure =>
    speedSplits.flatMap((split): WorkedFigure[] => {
      if (split.startRule === 'rolling') return [];
      if (MEASURES[measure].valueOf({ ...measurement, speedSplits: [split] }, split.startRule) === undefined)
        return [];
      const crossing = risingThrough(trace, run.beginIndex, pullEnd, split.toMps);
      if (crossing === undefined) return [];
      const fromS = clockStartS(start, split.startRule);
      return [
        {
          measure,
          startRule: split.startRule,
          steps: {
            kind: 'speed',
            fromS,
            finish: crossingWorkings(trace, crossing, split.toMps, fromS + split.timeS),
          },
          ...(split.budget === undefined ? {} : { budget: split.budget }),
        },
      ];
    }),
  );
}
