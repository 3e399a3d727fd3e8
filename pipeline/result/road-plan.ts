/** The road plan of a car on a road, from what the content says of them and from what the day has shown so far. */

import { traceToPull } from '../conditions/pull.ts';
import { REFERENCE_DENSITY_KGM3 } from '../conditions/reference.ts';
import { constantSlope, drivenFrom, type SlopeProfile, surveyedSlope } from '../conditions/slope.ts';
import { type PlanDriving, type PlannedRoad, planRoad } from '../road/plan.ts';
import { type CarForPlan, carForPlan, type SeenToday } from '../road/plan-car.ts';
import { apparentMassOf, type DescribedCar, type PlanBurden } from '../road/plan-estimate.ts';
import {
  type MeasuredDeceleration,
  type MeasuredPull,
  type MeasuredStart,
  type MeasuredStop,
  measuredDeceleration,
  measuredPull,
} from '../road/plan-measured.ts';
import { type ForReaders, speedScale } from '../speed-unit.ts';
import { kmhToMps, kwToW } from '../units.ts';
import { publishedStops } from './measures.ts';
import type { Attempt, Car, Road, TestResult } from './result.ts';

/** What a person may choose; everything absent is as `PLAN_DEFAULTS` says. SI. */
export interface PlanChoices {
  /** Id of a direction of the road; its first where absent. */
  readonly direction?: string;
  readonly wet?: boolean;
  readonly loadKg?: number;
  readonly towKg?: number;
  /** Positive against the car. */
  readonly headwindMps?: number;
  readonly reactionTimeS?: number;
  /** On a dry level road; goes before estimated and measured ones. */
  readonly decelerationMps2?: number;
  readonly reserveM?: number;
  /** Speed at the line of a rolling start. */
  readonly fromMps?: number;
}

/**
 * Assumed unless a person says otherwise; common practice, no source. The driver knows the place and waits for it:
 * one second, more than the 0.68 s behind the UK Highway Code's table. Brakes come in full after 0.2 s.
 */
export const PLAN_DEFAULTS = {
  reactionTimeS: 1,
  buildUpS: 0.2,
  reserveM: 100,
  /** Driver and gear over the maker's mass where nobody weighed the car, kg. */
  aboardKg: 100,
  /** Of a trailer, m². */
  towDragAreaM2: 1.5,
} as const;

/** Where the slope of a plan comes from. */
export type SlopeFrom = 'profile' | 'mean' | 'assumed-level';

export interface RoadPlan {
  readonly carName: string;
  readonly roadName: string;
  readonly surface: string;
  readonly direction: { readonly id: string; readonly name: string };
  readonly lengthM: number;
  readonly slopeFrom: SlopeFrom;
  /** Mean rise over the whole road in the planned direction, a fraction. */
  readonly meanSlope: number;
  readonly wet: boolean;
  readonly massKg: number;
  /** `kerb`: the maker's mass with `PLAN_DEFAULTS.aboardKg`. */
  readonly massFrom: 'as-tested' | 'kerb';
  readonly burden: PlanBurden;
  /** The maker's, m/s, where the content tells it. */
  readonly topMps?: number;
  readonly densityFrom: 'measured' | 'assumed';
  readonly driving: PlanDriving;
  readonly decelerationFrom: CarForPlan['decelerationFrom'];
  readonly decelerationMps2: CarForPlan['decelerationMps2'];
  readonly wetFactor: number;
  /** Measured starts and stops in use, with the road's state they were measured on. */
  readonly pull?: MeasuredPull & { readonly onWet: boolean };
  readonly stops?: MeasuredDeceleration & { readonly onWet: boolean };
  /** What of the car was guessed. */
  readonly guessed: readonly ('drag area' | 'rolling resistance')[];
  readonly planned: PlannedRoad;
}

/**
 * @param readers whose unit the speeds of the rows are round in
 * @param today the test whose kept attempts are counted, of the same car; estimated throughout where absent
 * @throws RangeError where the direction is not one of the road's
 */
export function contentToRoadPlan(
  car: Car,
  road: Road,
  choices: PlanChoices = {},
  today?: TestResult,
  readers: ForReaders = 'en',
): RoadPlan {
  const direction = road.directions.find(({ id }) => id === (choices.direction ?? road.directions[0]?.id));
  if (direction === undefined) throw new RangeError(`The road has no direction '${choices.direction}'`);
  const against = direction !== road.directions[0];
  const { profile, slopeFrom } = roadSlope(road, against);
  const described = describedCar(car, today);
  const density = today?.attempts.findLast(({ conditions }) => conditions.densityKgm3 !== undefined);
  const burden: PlanBurden = {
    loadKg: choices.loadKg ?? 0,
    towKg: choices.towKg ?? 0,
    towDragAreaM2: (choices.towKg ?? 0) > 0 ? PLAN_DEFAULTS.towDragAreaM2 : 0,
    headwindMps: choices.headwindMps ?? 0,
    densityKgm3: density?.conditions.densityKgm3 ?? REFERENCE_DENSITY_KGM3,
    gripShare: 1,
  };
  const driving: PlanDriving = {
    reactionTimeS: choices.reactionTimeS ?? PLAN_DEFAULTS.reactionTimeS,
    whileReacting: 'pulls',
    buildUpS: PLAN_DEFAULTS.buildUpS,
    reserveM: choices.reserveM ?? PLAN_DEFAULTS.reserveM,
    fromMps: choices.fromMps ?? 0,
  };
  const wet = choices.wet ?? false;
  const seen = today === undefined ? {} : seenToday(today, readers);
  const { car: planned, ...brakes } = carForPlan(described, burden, seen, wet, choices.decelerationMps2);
  const [pull, pullOnWet] = inUse(seen.dryPull, seen.wetPull, wet);
  const [stops, stopsOnWet] = inUse(seen.dryStops, seen.wetStops, wet);
  return {
    carName: car.name,
    roadName: road.name,
    surface: road.surface,
    direction: { id: direction.id, name: direction.name },
    lengthM: road.length_m,
    slopeFrom,
    meanSlope: profile.meanSlope(0, road.length_m),
    wet,
    massKg: described.massKg,
    massFrom: today === undefined ? 'kerb' : 'as-tested',
    burden,
    ...(described.topMps === undefined ? {} : { topMps: described.topMps }),
    densityFrom: density === undefined ? 'assumed' : 'measured',
    driving,
    ...brakes,
    ...(pull === undefined ? {} : { pull: { ...pull, onWet: pullOnWet } }),
    ...(stops === undefined || brakes.decelerationFrom !== 'measured'
      ? {}
      : { stops: { ...stops, onWet: stopsOnWet } }),
    guessed: [
      ...(car.drag_area_m2 === undefined ? (['drag area'] as const) : []),
      ...(car.rolling_resistance === undefined ? (['rolling resistance'] as const) : []),
    ],
    planned: planRoad(
      planned,
      { lengthM: road.length_m, slope: profile },
      driving,
      undefined,
      speedScale(readers),
    ),
  };
}

/** The road in the driven direction, 0 m at that direction's own end. */
function roadSlope(road: Road, against: boolean): { profile: SlopeProfile; slopeFrom: SlopeFrom } {
  const startM = against ? road.length_m : 0;
  const surveyed = road.profile === undefined ? undefined : surveyedSlope(road.profile);
  const profile = surveyed ?? constantSlope(road.slope_pct ?? 0);
  const slopeFrom = surveyed ? 'profile' : road.slope_pct === undefined ? 'assumed-level' : 'mean';
  return { profile: drivenFrom(profile, startM, against), slopeFrom };
}

function describedCar(car: Car, today: TestResult | undefined): DescribedCar {
  const topKmh = car.maker_claims?.top_speed_kmh;
  return {
    ...(topKmh === undefined ? {} : { topMps: kmhToMps(topKmh) }),
    massKg: today?.content.as_tested.mass_kg ?? car.kerb_mass_kg + PLAN_DEFAULTS.aboardKg,
    powerW: kwToW(car.power_kw),
    drive: car.drive,
    drivenWheels: car.driven_wheels,
    ...(car.drag_area_m2 === undefined ? {} : { dragAreaM2: car.drag_area_m2 }),
    ...(car.rolling_resistance === undefined ? {} : { rollingResistance: car.rolling_resistance }),
  };
}

/** Kept attempts only. A road whose state nobody wrote down counts as dry. */
function seenToday(test: TestResult, readers: ForReaders): SeenToday {
  const kept = test.attempts.filter(({ setAside }) => setAside === undefined);
  const isWet = ({ conditions }: Attempt): boolean =>
    conditions.surface === 'wet' || conditions.surface === 'damp';
  const dry = kept.filter(attempt => !isWet(attempt));
  const wet = kept.filter(isWet);
  const { car, content } = test;
  const drag =
    car.drag_area_m2 === undefined
      ? undefined
      : { dragAreaM2: car.drag_area_m2, massKg: content.as_tested.mass_kg };
  const pulls = [dry, wet].map(attempts =>
    measuredPull(
      attempts.flatMap(attempt => startOf(attempt, apparentMassOf(car))),
      drag,
    ),
  );
  const stops = [dry, wet].map(attempts =>
    measuredDeceleration(attempts.flatMap(attempt => stopOf(attempt, readers))),
  );
  return {
    ...(pulls[0] === undefined ? {} : { dryPull: pulls[0] }),
    ...(pulls[1] === undefined ? {} : { wetPull: pulls[1] }),
    ...(stops[0] === undefined ? {} : { dryStops: stops[0] }),
    ...(stops[1] === undefined ? {} : { wetStops: stops[1] }),
  };
}

function startOf({ trace, measurement, conditions }: Attempt, apparentMass: number): MeasuredStart[] {
  if (measurement.run.kind !== 'standing-start') return [];
  const pull = traceToPull(trace, measurement);
  if (pull === undefined) return [];
  const { slopePct, headwindMps, densityKgm3 } = conditions;
  return [
    {
      speedMps: pull.speedMps,
      distanceM: pull.distanceM,
      apparentMass,
      ...(slopePct === undefined ? {} : { slope: slopePct / 100 }),
      ...(headwindMps === undefined ? {} : { headwindMps }),
      ...(densityKgm3 === undefined ? {} : { densityKgm3 }),
    },
  ];
}

/** The stop from the highest speed that the run has a published figure of. */
function stopOf({ measurement, conditions }: Attempt, readers: ForReaders): MeasuredStop[] {
  const highest = publishedStops(measurement, readers).toSorted((a, b) => b.fromMps - a.fromMps)[0];
  if (highest === undefined) return [];
  const { fromMps, distanceM, uncertaintyM } = highest;
  const { slopePct } = conditions;
  return [{ fromMps, distanceM, uncertaintyM, ...(slopePct === undefined ? {} : { slope: slopePct / 100 }) }];
}

/** Which of the two is counted on: that of the planned road, otherwise the other; and whether it is the wet one. */
function inUse<T>(
  dry: T | undefined,
  wetOne: T | undefined,
  wet: boolean,
): readonly [T | undefined, boolean] {
  const own = wet ? wetOne : dry;
  return own === undefined ? [wet ? dry : wetOne, !wet] : [own, wet];
}
