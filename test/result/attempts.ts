/** A test with nothing but the figures that matter: attempts made from a list of times to 100 km/h. */
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import type { Attempt, TestResult } from '../../pipeline/result/result.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { testFixture } from './fixture.ts';

export interface PlainAttempt {
  /** Time to 100 km/h from first movement, s; absent where it was not reached. */
  readonly timeS?: number;
  readonly uncertaintyS?: number;
  /** Spent on the first foot, s. */
  readonly rolloutS?: number;
  readonly launchId?: string;
  readonly directionId?: string;
  readonly setAside?: string;
  readonly measurement?: Partial<RunMeasurement>;
}

const fixture = testFixture();

function measurementOf(plain: PlainAttempt, number: number): RunMeasurement {
  const { timeS, uncertaintyS = 0.02, rolloutS = 0.35 } = plain;
  const split = { fromMps: 0, toMps: kmhToMps(100), uncertaintyS, distanceM: 90 };
  return {
    run: { number, kind: 'standing-start', status: 'complete', beginIndex: 0, endIndex: 1 },
    beginsS: 0,
    endsS: 10,
    speedSplits:
      timeS === undefined
        ? []
        : [
            { ...split, startRule: 'first-movement', timeS },
            { ...split, startRule: 'one-foot-rollout', timeS: timeS - rolloutS },
          ],
    distanceSplits: [],
    braking: [],
    peakMps2: 5,
    topMps: 30,
    flags: [],
    ...plain.measurement,
  };
}

/** A test of these attempts, `a01`, `a02`, … in the order given. */
export function testOf(attempts: readonly PlainAttempt[]): TestResult {
  const model = fixture.attempts[0]!;
  return {
    ...fixture,
    attempts: attempts.map((plain, index): Attempt => {
      const { at, log, trace, conditions } = model;
      return {
        at,
        log,
        trace,
        conditions,
        id: `a${String(index + 1).padStart(2, '0')}`,
        number: index + 1,
        ...(plain.launchId === undefined ? {} : { launchId: plain.launchId }),
        ...(plain.directionId === undefined ? {} : { directionId: plain.directionId }),
        ...(plain.setAside === undefined ? {} : { setAside: plain.setAside }),
        measurement: measurementOf(plain, index + 1),
      };
    }),
  };
}
