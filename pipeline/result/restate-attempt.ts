/** An attempt of a test restated for the reference road, from what the content says of car, road and weather. */
import type { InputUncertainty, RunCircumstances } from '../conditions/circumstances.ts';
import { DEFAULT_UNCERTAINTY } from '../conditions/circumstances.ts';
import { type RestatedRun, restateRun } from '../conditions/restate.ts';
import { constantSlope, surveyedSlope } from '../conditions/slope.ts';
import type { RoadContent, TestContent } from '../content/schema.ts';
import type { Attempt, Car, Road, TestResult } from './result.ts';

/** Relative standard uncertainty of a mass that was weighed, and of one that was worked out (our own estimates). */
export const WEIGHED_MASS = 0.005;
export const WORKED_OUT_MASS = 0.02;
/** Share of the wind by which one reading is wrong for a run some minutes later (our own estimate). */
export const WIND_SHARE = 0.15;
/** Stretch of road that a run is taken to need, m: where along the road it began is not written down. */
const STRETCH_M = 400;

/** What the day's own logs say in place of the car's and the road's files; absent where they are not asked. */
export interface FromLogs {
  /** By coasting: m², its relative standard uncertainty, and rolling resistance over weight. */
  readonly dragAreaM2?: number;
  readonly dragAreaShare?: number;
  readonly rollingResistance?: number;
  /** Standard uncertainty of the logged mean slope, a fraction. */
  readonly slopeStandard?: number;
}

/** What restating takes from the logs of a test. */
export function fromLogsOf({
  content,
  coastDowns,
  loggedSlope,
}: Pick<TestResult, 'content' | 'coastDowns' | 'loggedSlope'>): FromLogs {
  const answer = content.restate_with === 'coast-downs' ? coastDowns?.answer : undefined;
  const estimate = answer?.decided ? answer.estimate : undefined;
  return {
    ...(estimate === undefined
      ? {}
      : {
          dragAreaM2: estimate.dragAreaM2,
          dragAreaShare: estimate.dragAreaStandardM2 / estimate.dragAreaM2,
          rollingResistance: estimate.rollingResistance,
        }),
    ...(loggedSlope === undefined ? {} : { slopeStandard: loggedSlope.standardPct / 100 }),
  };
}

/** Standing starts only; undefined for any other run. Without a fact that is needed the answer names it. */
export function restateAttempt(
  attempt: Pick<Attempt, 'trace' | 'measurement' | 'conditions'>,
  test: TestContent,
  car: Car,
  road: Road,
  fromLogs: FromLogs = {},
): RestatedRun | undefined {
  if (attempt.measurement.run.kind !== 'standing-start') return undefined;
  const circumstances = attemptToCircumstances(attempt, test, car, road, fromLogs);
  return restateRun(attempt.trace, attempt.measurement, circumstances);
}

/** The facts in the form restating asks for. */
export function attemptToCircumstances(
  { conditions }: Pick<Attempt, 'conditions'>,
  test: TestContent,
  car: Car,
  road: Road,
  fromLogs: FromLogs = {},
): RunCircumstances {
  const { temperatureK, pressurePa, relativeHumidity, headwindMps, windMps, slopePct } = conditions;
  const uncertainty: Partial<InputUncertainty> = {
    mass: test.as_tested.mass_from === 'weighed' ? WEIGHED_MASS : WORKED_OUT_MASS,
    headwindMps: Math.hypot(DEFAULT_UNCERTAINTY.headwindMps, WIND_SHARE * (windMps ?? 0)),
    slope: Math.hypot(fromLogs.slopeStandard ?? DEFAULT_UNCERTAINTY.slope, unevenness(road.profile)),
    ...(fromLogs.dragAreaShare === undefined ? {} : { dragArea: fromLogs.dragAreaShare }),
  };
  const dragAreaM2 = fromLogs.dragAreaM2 ?? car.drag_area_m2;
  const rollingResistance = fromLogs.rollingResistance ?? car.rolling_resistance;
  return {
    car: {
      massKg: test.as_tested.mass_kg,
      drive: car.drive,
      ...(dragAreaM2 === undefined ? {} : { dragAreaM2 }),
      ...(rollingResistance === undefined ? {} : { rollingResistance }),
    },
    air: {
      ...(temperatureK === undefined ? {} : { temperatureK }),
      ...(pressurePa === undefined ? {} : { pressurePa }),
      ...(relativeHumidity === undefined ? {} : { relativeHumidity }),
    },
    ...(headwindMps === undefined ? {} : { headwindMps }),
    ...(slopePct === undefined ? {} : { road: constantSlope(slopePct) }),
    uncertainty,
  };
}

/** Standard deviation of the mean slope of stretches of the surveyed road, a fraction; 0 where it is not surveyed. */
export function unevenness(points: RoadContent['profile']): number {
  if (points === undefined) return 0;
  let profile: ReturnType<typeof surveyedSlope>;
  try {
    profile = surveyedSlope(points);
  } catch {
    return 0;
  }
  const slopes: number[] = [];
  for (let fromM = profile.fromM; fromM + STRETCH_M <= profile.toM; fromM += STRETCH_M / 4) {
    slopes.push(profile.meanSlope(fromM, fromM + STRETCH_M));
  }
  if (slopes.length < 2) return 0;
  const mean = slopes.reduce((sum, slope) => sum + slope, 0) / slopes.length;
  return Math.sqrt(slopes.reduce((sum, slope) => sum + (slope - mean) ** 2, 0) / (slopes.length - 1));
}
