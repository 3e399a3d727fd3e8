/** Workings of times from one speed to another of a car already rolling. */
import { risingThrough } from '../measurement/crossing.ts';
import { MEASURES, measureIds } from '../result/measures.ts';
import type { Attempt, MeasureId } from '../result/result.ts';
import { crossingWorkings } from './crossing.ts';
import { methodOfMeasure } from './method.ts';
import type { WorkedFigure } from './workings.ts';

const MEASURED: readonly MeasureId[] = measureIds.filter(id => methodOfMeasure(id) === 'rolling-splits');

export function rollingWorkings({ trace, measurement }: Attempt): WorkedFigure[] {
  const { run, speedSplits } = measurement;
  const pullEnd = run.braking?.beginIndex ?? run.endIndex;
  return MEASURED.flatMap(measure =>
    speedSplits.flatMap((split): WorkedFigure[] => {
      if (split.startRule !== 'rolling') return [];
      if (MEASURES[measure].valueOf({ ...measurement, speedSplits: [split] }) === undefined) return [];
      const from = risingThrough(trace, run.beginIndex, pullEnd, split.fromMps);
      const to = from && risingThrough(trace, from.index, pullEnd, split.toMps);
      if (from === undefined || to === undefined) return [];
      return [
        {
          measure,
          steps: {
            kind: 'rolling',
            begin: crossingWorkings(trace, from, split.fromMps),
            finish: crossingWorkings(trace, to, split.toMps),
          },
          ...(split.budget === undefined ? {} : { budget: split.budget }),
        },
      ];
    }),
  );
}
