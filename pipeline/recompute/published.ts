/**
 * What a reader's browser needs to work out a test anew: the readings around each run as they were measured
 * from, and the facts of car, road and weather. Numbers are written so that they read back the same to the last bit;
 * positions and everything else a log holds stay out.
 */
import type { TestContent } from '../content/schema.ts';
import { measureRun } from '../measurement/measure.ts';
import { type FromLogs, restateAttempt } from '../result/restate-attempt.ts';
import type { Attempt, Car, House, Road, TestResult } from '../result/result.ts';
import type { Run } from '../run/run.ts';
import type { Trace } from '../trace/trace.ts';
import { kmhToMps } from '../units.ts';

/** A stretch of a trace: arrays as plain numbers, everything else as it stands in `Trace`. */
export type PublishedTrace = Omit<Trace, 'timeS' | 'speedMps' | 'distanceM' | 'line' | 'channels'> & {
  readonly timeS: readonly number[];
  readonly speedMps: readonly number[];
  readonly distanceM: readonly number[];
  /** Line of the log that each reading stands on. */
  readonly line: readonly number[];
};

/** An attempt without what is worked out from its readings. */
export type PublishedAttempt = Omit<
  Attempt,
  'trace' | 'measurement' | 'restated' | 'note' | 'launchName' | 'log'
> & {
  /** Indices count within `trace`. */
  readonly run: Run;
  readonly trace: PublishedTrace;
};

export interface PublishedTest {
  readonly id: string;
  /** Receiver's stated accuracy of speed, one standard deviation, m/s; 0 where none is stated. */
  readonly receiverMps: number;
  readonly asTested: TestContent['as_tested'];
  readonly car: Pick<Car, 'id' | 'drive' | 'drag_area_m2' | 'rolling_resistance'>;
  readonly road: Pick<Road, 'id' | 'profile' | 'directions'>;
  /** What restating takes from the day's logs; absent where it takes nothing. */
  readonly fromLogs?: FromLogs;
  readonly house: Pick<House, 'language' | 'headline_start_rule' | 'launch_methods'>;
  readonly attempts: readonly PublishedAttempt[];
}

/** Readings before and after a run that are published with it, s; more where its figures hang on more. */
const AROUND_S = [10, 60, Number.POSITIVE_INFINITY] as const;

/** @throws Error where an attempt does not come out the same from what would be published of it */
export function publishedTest(test: TestResult, house: House): PublishedTest {
  const { id, content, car, road, fromLogs = {} } = test;
  const receiverMps = kmhToMps(content.receiver.speed_accuracy_kmh ?? 0);
  return {
    id,
    receiverMps,
    asTested: content.as_tested,
    car: only(car, ['id', 'drive', 'drag_area_m2', 'rolling_resistance']),
    road: only(road, ['id', 'profile', 'directions']),
    ...(Object.keys(fromLogs).length === 0 ? {} : { fromLogs }),
    house: only(house, ['language', 'headline_start_rule', 'launch_methods']),
    attempts: test.attempts.map(attempt => publishedAttempt(attempt, test, receiverMps)),
  };
}

/** The trace as measuring reads it. */
export function readTrace(published: PublishedTrace): Trace {
  return {
    ...published,
    timeS: Float64Array.from(published.timeS),
    speedMps: Float64Array.from(published.speedMps),
    distanceM: Float64Array.from(published.distanceM),
    line: Uint32Array.from(published.line),
    channels: {},
  };
}

function publishedAttempt(attempt: Attempt, test: TestResult, receiverMps: number): PublishedAttempt {
  const { trace: _, measurement, restated: __, note: ___, launchName: ____, log: _____, ...facts } = attempt;
  const wanted = numbersOf(attempt);
  for (const aroundS of AROUND_S) {
    const { trace, run } = stretch(attempt.trace, measurement.run, aroundS);
    const again = { trace: readTrace(trace), conditions: attempt.conditions };
    const measured = { ...again, measurement: measureRun(again.trace, run, { receiverMps }) };
    const restated = restateAttempt(measured, test.content, test.car, test.road, test.fromLogs);
    if (numbersOf({ ...measured, ...(restated === undefined ? {} : { restated }) }) === wanted) {
      return { ...facts, run, trace };
    }
  }
  throw new Error(
    `Attempt '${attempt.id}' of '${test.id}' does not come out the same from its own readings.`,
  );
}

/** Every number of a run that is published, as one text; JSON writes a number so that it reads back the same. */
export function numbersOf({ measurement, restated }: Pick<Attempt, 'measurement' | 'restated'>): string {
  const { run: _, flags: __, fits: ___, ...figures } = measurement;
  return JSON.stringify([figures, restated ?? null]);
}

/** The readings from `aroundS` before a run to `aroundS` after it. */
function stretch(trace: Trace, run: Run, aroundS: number): { trace: PublishedTrace; run: Run } {
  const { timeS, channels: _, ...rest } = trace;
  const last = run.braking?.endIndex ?? run.endIndex;
  let from = run.beginIndex;
  while (from > 0 && timeS[from - 1]! >= timeS[run.beginIndex]! - aroundS) from -= 1;
  let to = Math.max(last, run.endIndex);
  const endsS = timeS[to]! + aroundS;
  while (to < timeS.length - 1 && timeS[to + 1]! <= endsS) to += 1;
  const cut = (values: Float64Array | Uint32Array): number[] => Array.from(values.subarray(from, to + 1));
  const back = <Range extends { readonly beginIndex: number; readonly endIndex: number }>(
    range: Range,
  ): Range => ({
    ...range,
    beginIndex: range.beginIndex - from,
    endIndex: range.endIndex - from,
  });
  return {
    trace: {
      ...rest,
      timeS: cut(timeS),
      speedMps: cut(trace.speedMps),
      distanceM: cut(trace.distanceM),
      line: cut(trace.line),
      gaps: trace.gaps
        .filter(({ index }) => index >= from && index < to)
        .map(gap => ({ ...gap, index: gap.index - from })),
      spikes: trace.spikes.filter(({ atS }) => atS >= timeS[from]! && atS <= timeS[to]!),
    },
    run: { ...back(run), ...(run.braking === undefined ? {} : { braking: back(run.braking) }) },
  };
}

function only<Whole extends object, Key extends keyof Whole>(
  whole: Whole,
  keys: readonly Key[],
): Pick<Whole, Key> {
  return Object.fromEntries(
    keys.flatMap(key => (whole[key] === undefined ? [] : [[key, whole[key]]])),
  ) as Pick<Whole, Key>;
}
