/** One published time followed from its readings to its printed digits, for a reader with a calculator. */

import type { SpeedSplit } from '../measurement/measurement.ts';
import { COVERAGE_FACTOR, combined } from '../measurement/uncertainty.ts';
import { headlineMeasure } from '../result/headline.ts';
import { measureLabel, nominalSpeed } from '../result/measures.ts';
import { bestAttempt, pickResult } from '../result/pick.ts';
import type { Attempt, House, MeasureId, Publication, Result, TestResult } from '../result/result.ts';
import { type ForReaders, speedScale } from '../speed-unit.ts';
import type { Trace } from '../trace/trace.ts';
import { kmhToMps, ROLLOUT_M } from '../units.ts';

/** One reading as the log has it. */
export interface ExampleReading {
  readonly timeS: number;
  readonly speedMps: number;
}

/** A reading of the start with the distance covered since first movement by straight lines between readings, m. */
export interface StartReading extends ExampleReading {
  readonly distanceM: number;
}

/** All instants on the log's own clock, s. */
export interface WorkedExample {
  readonly test: TestResult;
  readonly attempt: Attempt;
  readonly measure: MeasureId;
  readonly toMps: number;
  readonly start: readonly StartReading[];
  /** Two readings on either side of the speed. */
  readonly crossing: readonly ExampleReading[];
  /** As published: by the fits. */
  readonly published: {
    readonly firstMovementS: number;
    readonly oneFootS: number;
    readonly crossingS: number;
  };
  /** By straight lines: through the first two readings past 1 km/h back to rest, and between two readings. */
  readonly straight: {
    readonly firstMovementS: number;
    readonly oneFootS: number;
    readonly crossingS: number;
  };
  readonly fromMovement: SpeedSplit;
  readonly fromRolloutS: number;
  /** Combined standard uncertainty of the time from first movement, s. */
  readonly combinedS: number;
  readonly result: Result;
}

/** Rate whose readings are few enough to follow by hand and still show the start, 1/s. */
const READABLE_HZ = 10;
/** Readings shown before the car moves. */
const READINGS_AT_REST = 2;
/** A straight line back to rest goes through the first two readings past this speed, m/s. */
export const CLEARLY_MOVING_MPS = kmhToMps(1);

/** Tests that it is looked for in, at most. */
const MOST_TESTS = 24;

/** The best start of that of the newest tests whose rate is nearest to ten a second; undefined where none started from rest. */
export function workedExample({ tests, house }: Publication): WorkedExample | undefined {
  const near = tests
    .slice(0, MOST_TESTS)
    .map(test => {
      const rateHz = test.attempts[0]?.trace.rateHz ?? Number.MIN_VALUE;
      return { test, far: Math.abs(Math.log(rateHz / READABLE_HZ)) };
    })
    .sort((a, b) => a.far - b.far);
  for (const { test } of near) {
    const example = exampleOf(test, house);
    if (example !== undefined) return example;
  }
  return undefined;
}

function exampleOf(test: TestResult, house: House): WorkedExample | undefined {
  const measure = headlineMeasure(test, house);
  if (measure === undefined) return undefined;
  const attempt = bestAttempt(test, house, { measure, startRule: 'first-movement' });
  const toMps = speedScale(house).toMps(nominalSpeed(measure));
  const splitBy = (rule: SpeedSplit['startRule']): SpeedSplit | undefined =>
    attempt?.measurement.speedSplits.find(
      split => split.startRule === rule && Math.abs(split.toMps - toMps) < 1e-6,
    );
  const fromMovement = splitBy('first-movement');
  const fromRollout = splitBy('one-foot-rollout');
  const start = attempt?.measurement.start;
  if (attempt === undefined || start === undefined || !fromMovement?.budget || !fromRollout) return undefined;
  const published = {
    firstMovementS: start.firstMovementS,
    oneFootS: start.firstMovementS + start.rolloutS,
    crossingS: start.firstMovementS + fromMovement.timeS,
  };
  const { trace } = attempt;
  const readings = startReadings(trace, published.firstMovementS);
  const crossing = crossingReadings(trace, attempt.measurement.run.beginIndex, toMps);
  const firstMovementS = backToRest(readings);
  const result = pickResult(test, house, {
    measure,
    startRule: 'first-movement',
    attempt: attempt.id,
  });
  if (crossing === undefined || firstMovementS === undefined || result === undefined) return undefined;
  return {
    test,
    attempt,
    measure,
    toMps,
    start: readings,
    crossing,
    published,
    straight: {
      firstMovementS,
      oneFootS: between(
        readings,
        ({ distanceM }) => distanceM,
        ROLLOUT_M,
        ({ timeS }) => timeS,
      ),
      crossingS: between(
        crossing,
        ({ speedMps }) => speedMps,
        toMps,
        ({ timeS }) => timeS,
      ),
    },
    fromMovement,
    fromRolloutS: fromRollout.timeS,
    combinedS: combined(fromMovement.budget),
    result,
  };
}

/** From just before first movement to the first reading beyond one foot. */
function startReadings({ timeS, speedMps }: Trace, firstMovementS: number): readonly StartReading[] {
  const moving = timeS.findIndex(time => time > firstMovementS);
  const readings: StartReading[] = [];
  for (let i = Math.max(0, moving - READINGS_AT_REST); i < timeS.length; i++) {
    const reading = { timeS: timeS[i]!, speedMps: speedMps[i]! };
    const before = readings.at(-1);
    // From first movement, where the speed is nothing, to the first reading after it; then from reading to reading.
    const fromS = Math.max(firstMovementS, before?.timeS ?? firstMovementS);
    const fromMps = i <= moving ? 0 : (before?.speedMps ?? 0);
    const addedM = i < moving ? 0 : ((fromMps + reading.speedMps) / 2) * (reading.timeS - fromS);
    const distanceM = (before?.distanceM ?? 0) + addedM;
    readings.push({ ...reading, distanceM });
    if (distanceM > ROLLOUT_M) break;
  }
  return readings;
}

function crossingReadings(
  { timeS, speedMps }: Trace,
  begin: number,
  toMps: number,
): readonly ExampleReading[] | undefined {
  const after = speedMps.findIndex((speed, i) => i > begin && speed >= toMps);
  if (after < 2 || after + 1 >= speedMps.length) return undefined;
  return [after - 2, after - 1, after, after + 1].map(i => ({ timeS: timeS[i]!, speedMps: speedMps[i]! }));
}

/** Where the line through the first two readings past 1 km/h meets rest, s. */
function backToRest(readings: readonly StartReading[]): number | undefined {
  const first = readings.findIndex(({ speedMps }) => speedMps >= CLEARLY_MOVING_MPS);
  const [a, b] = [readings[first], readings[first + 1]];
  if (a === undefined || b === undefined || !(b.speedMps > a.speedMps)) return undefined;
  return a.timeS - (a.speedMps * (b.timeS - a.timeS)) / (b.speedMps - a.speedMps);
}

/** `of` where `along` passes a value, by a straight line between the two readings around it; NaN where it does not. */
function between<Reading>(
  readings: readonly Reading[],
  along: (reading: Reading) => number,
  value: number,
  of: (reading: Reading) => number,
): number {
  const after = readings.findIndex(
    (reading, i) => i > 0 && along(reading) >= value && along(readings[i - 1]!) < value,
  );
  if (after < 1) return Number.NaN;
  const [a, b] = [readings[after - 1]!, readings[after]!];
  return of(a) + ((value - along(a)) / (along(b) - along(a))) * (of(b) - of(a));
}

/** What the expanded uncertainty comes to by hand, s. */
export const expandedByHand = ({ combinedS }: WorkedExample): number => COVERAGE_FACTOR * combinedS;
/** For headings: `0–100 km/h`. */
export const labelOf = ({ measure }: WorkedExample, readers: ForReaders): string =>
  measureLabel(measure, readers);
