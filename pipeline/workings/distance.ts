/** Workings of times over a distance from rest, and of the speed at its end. */
import { lastIndexAtOrBefore, layTape } from '../measurement/tape.ts';
import { MEASURES, measureIds } from '../result/measures.ts';
import type { Attempt, MeasureId } from '../result/result.ts';
import type { Trace } from '../trace/trace.ts';
import { ROLLOUT_M } from '../units.ts';
import { methodOfMeasure } from './method.ts';
import { type Reading, readingAt, readingsBetween } from './readings.ts';
import { clockStartS, type StartWorkings } from './start.ts';
import type { WorkedFigure } from './workings.ts';

const MEASURED: readonly MeasureId[] = measureIds.filter(id => methodOfMeasure(id) === 'distance-splits');
/** Readings shown on either side of the line. */
const AROUND = 3;

/** A line passed by a tape that is laid where the car has covered one foot. */
export interface LineWorkings {
  /** What the tape reads at the line, m. */
  readonly onTapeM: number;
  readonly readings: readonly Reading[];
  readonly before: Reading;
  readonly after: Reading;
  /** Where the straight line between the two distances passes the line, s of the log. */
  readonly straightS: number;
  /** As published: speed, not distance, is a straight line between two readings. */
  readonly timeS: number;
  readonly speedMps: number;
  /** The first piece of the tape, from the end of the first foot to the next reading. */
  readonly laid: {
    readonly atS: number;
    readonly speedMps: number;
    readonly next: Reading;
    /** Intervals between readings that are added up from there to `before`. */
    readonly intervals: number;
  };
}

export function distanceWorkings({ trace, measurement }: Attempt, start: StartWorkings): WorkedFigure[] {
  return MEASURED.flatMap(measure =>
    measurement.distanceSplits.flatMap((split): WorkedFigure[] => {
      if (split.startRule === 'rolling') return [];
      const one = { ...measurement, distanceSplits: [split] };
      if (MEASURES[measure].valueOf(one, split.startRule) === undefined) return [];
      const fromS = clockStartS(start, split.startRule);
      const onTapeM = split.startRule === 'first-movement' ? split.toM - ROLLOUT_M : split.toM;
      const finish = lineWorkings(trace, start, onTapeM, fromS + split.timeS, split.speedMps);
      const isTime = MEASURES[measure].unit === 's';
      return [
        {
          measure,
          startRule: split.startRule,
          steps: { kind: 'distance', fromS, finish },
          ...(isTime && split.budget !== undefined ? { budget: split.budget } : {}),
        },
      ];
    }),
  );
}

function lineWorkings(
  trace: Trace,
  start: StartWorkings,
  onTapeM: number,
  timeS: number,
  speedMps: number,
): LineWorkings {
  const tape = layTape(trace, start.rolloutAtS, start.rolloutMps);
  const index = Math.min(lastIndexAtOrBefore(trace.timeS, timeS), trace.timeS.length - 2);
  const first = lastIndexAtOrBefore(trace.timeS, start.rolloutAtS) + 1;
  const before = readingAt(trace, index, tape.at);
  const after = readingAt(trace, index + 1, tape.at);
  const share = (onTapeM - before.distanceM!) / (after.distanceM! - before.distanceM!);
  return {
    onTapeM,
    readings: readingsBetween(trace, Math.max(first, index - AROUND + 1), index + AROUND, tape.at),
    before,
    after,
    straightS: before.timeS + share * (after.timeS - before.timeS),
    timeS,
    speedMps,
    laid: {
      atS: start.rolloutAtS,
      speedMps: start.rolloutMps,
      next: readingAt(trace, first, tape.at),
      intervals: index - first,
    },
  };
}
