/** One simulated run twice: on a day with slope, wind and thick or thin air, and on the reference road. */
import { type AirState, airDensity, dryPressurePa } from '../../pipeline/conditions/air.ts';
import type { Drive, RunCircumstances } from '../../pipeline/conditions/circumstances.ts';
import { iso1585SparkIgnition } from '../../pipeline/conditions/power-correction.ts';
import { REFERENCE_AIR, REFERENCE_DENSITY_KGM3 } from '../../pipeline/conditions/reference.ts';
import { constantSlope, type ProfilePoint, surveyedSlope } from '../../pipeline/conditions/slope.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import type { Trace } from '../../pipeline/trace/trace.ts';
import type { Launch, SimulatedCar } from '../simulate/cars.ts';
import { samplesToLog } from '../simulate/day.ts';
import { type Drive as Driven, drive, type Manoeuvre } from '../simulate/drive.ts';
import type { Random } from '../simulate/random.ts';
import { type Receiver, receive } from '../simulate/receiver.ts';
import { driveToTruth, type TrueRun } from '../simulate/truth.ts';

/** The four simulated cars as the pipeline knows them; the estate breathes without boost. */
export const DRIVES: Readonly<Record<string, Drive>> = {
  'electric-hatch': 'electric',
  'automatic-estate': 'petrol',
  'manual-turbo': 'petrol-boosted',
  'diesel-van': 'diesel-boosted',
};

export interface Day {
  readonly slopePct: number;
  /** Instead of one slope; from the start of the run. */
  readonly profile?: readonly ProfilePoint[];
  readonly headwindMps: number;
  readonly temperatureK: number;
  readonly relativeHumidity: number;
  readonly densityShare: number;
}

export interface SimulatedPair {
  readonly trace: Trace;
  readonly measurement: RunMeasurement;
  /** What the pipeline is told, all of it true. */
  readonly circumstances: RunCircumstances;
  readonly dayTruth: TrueRun;
  readonly referenceTruth: TrueRun;
}

/** Pressure at which air of this temperature and humidity has a density, Pa. */
export function pressureFor(densityKgm3: number, temperatureK: number, relativeHumidity: number): number {
  let pressurePa = 100_000;
  for (let i = 0; i < 30; i++) {
    pressurePa *= densityKgm3 / airDensity({ temperatureK, pressurePa, relativeHumidity }).densityKgm3;
  }
  return pressurePa;
}

/** Power in the reference air over power on the day, by ISO 1585; undefined where it does not stand. */
function petrolPower(day: Day): number | undefined {
  const { temperatureK, relativeHumidity } = day;
  const pressurePa = pressureFor(
    REFERENCE_DENSITY_KGM3 * (1 + day.densityShare),
    temperatureK,
    relativeHumidity,
  );
  const at = (state: AirState) =>
    iso1585SparkIgnition({ temperatureK: state.temperatureK, dryPressurePa: dryPressurePa(state) });
  const [then, reference] = [at({ temperatureK, pressurePa, relativeHumidity }), at(REFERENCE_AIR)];
  return then.allowed && reference.allowed ? then.factor / reference.factor : undefined;
}

export interface PairPlan {
  readonly car: SimulatedCar;
  readonly launch: Launch;
  readonly day: Day;
  readonly receiver: Receiver;
  readonly random: Random;
  /** How much of what the formula says the air does to the petrol engine really happens; 1 unless told. */
  readonly powerResponse?: number;
  /** Instead of a standing start to 1100 m. */
  readonly script?: readonly Manoeuvre[];
}

/** Driven once for each: the reference road has no weather. */
const referenceStarts = new Map<string, TrueRun>();

/** @throws Error where the log does not hold the run. */
export function simulatePair(plan: PairPlan): SimulatedPair {
  const { car, launch, day, receiver, random, script, powerResponse = 1 } = plan;
  const kind = DRIVES[car.id]!;
  const { temperatureK, relativeHumidity, headwindMps } = day;
  const densityKgm3 = REFERENCE_DENSITY_KGM3 * (1 + day.densityShare);
  const pressurePa = pressureFor(densityKgm3, temperatureK, relativeHumidity);
  const gain = kind === 'petrol' ? (petrolPower(day) ?? 1) - 1 : 0;
  const dayPower = 1 / (1 + powerResponse * gain);
  const manoeuvres = (power: number): Manoeuvre[] => [
    { kind: 'stand', forS: 5 },
    ...(script?.map(step => ('power' in step || step.kind === 'pull' ? { ...step, power } : step)) ?? [
      { kind: 'standing-start' as const, launch, toM: 1100, power },
    ]),
    { kind: 'brake' },
    { kind: 'stand', forS: 3 },
  ];
  const level: ProfilePoint[] = [
    [0, 0],
    [1, 0],
  ];
  const constant: ProfilePoint[] = [
    [0, 0],
    [1000, day.slopePct * 10],
  ];
  const dayDrive: Driven = drive(
    car,
    { headingDeg: 0, profile: day.profile ?? constant },
    { densityKgm3, windMps: Math.abs(headwindMps), windFromDeg: headwindMps > 0 ? 0 : 180, grip: 1 },
    manoeuvres(dayPower),
  );
  const truthOf = (driven: Driven): TrueRun =>
    driveToTruth(driven)[driven.runs.findIndex(run => run.kind !== 'braking')]!;
  const driveReference = (): TrueRun =>
    truthOf(
      drive(
        car,
        { headingDeg: 0, profile: level },
        { densityKgm3: REFERENCE_DENSITY_KGM3, windMps: 0, windFromDeg: 0, grip: 1 },
        manoeuvres(1),
      ),
    );
  const start = JSON.stringify([car, launch]);
  const referenceTruth = (script === undefined && referenceStarts.get(start)) || driveReference();
  if (script === undefined) referenceStarts.set(start, referenceTruth);
  const { trace, measurements } = measureLog(samplesToLog(receive(dayDrive.trajectory, receiver, random)));
  const measurement = measurements.find(({ run }) => run.kind !== 'braking');
  if (measurement === undefined) throw new Error('The run is not found');
  return {
    trace,
    measurement,
    circumstances: {
      car: {
        massKg: car.massKg,
        dragAreaM2: car.dragAreaM2,
        rollingResistance: car.rollingResistance,
        drive: kind,
      },
      air: { temperatureK, pressurePa, relativeHumidity },
      headwindMps,
      road: day.profile === undefined ? constantSlope(day.slopePct) : surveyedSlope(day.profile),
    },
    dayTruth: truthOf(dayDrive),
    referenceTruth,
  };
}

/**
 * Weather within what restating must hold for: slope ± 0.5 %, wind ± 3 m/s, density ± 8 %; for the petrol engine only
 * such as the correction of its power stands for.
 */
export function randomDay(random: Random, car: SimulatedCar): Day {
  for (;;) {
    const day: Day = {
      slopePct: random.between(-0.5, 0.5),
      headwindMps: random.between(-3, 3),
      temperatureK: random.between(278, 308),
      relativeHumidity: random.between(0.2, 0.9),
      densityShare: random.between(-0.08, 0.08),
    };
    if (DRIVES[car.id] !== 'petrol' || petrolPower(day) !== undefined) return day;
  }
}

export const randomReceiver = (random: Random): Receiver => ({
  rateHz: random.pick([10, 20, 25, 50, 100]),
  noiseMps: random.between(0.03, 0.1) / 3.6,
});

/** What a restated run says of each split beside the truth; only splits that both roads reach. */
export function trueSplits(pair: SimulatedPair, truth: TrueRun) {
  const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6;
  return {
    speed: (toMps: number, startRule: string): number | undefined => {
      const split = truth.speedSplits.find(each => near(each.toMps, toMps));
      return startRule === 'first-movement' ? split?.timeS : split?.rolloutTimeS;
    },
    distance: (toM: number, startRule: string): number | undefined => {
      const split = truth.distanceSplits.find(each => near(each.toM, toM));
      return startRule === 'first-movement' ? split?.timeS : split?.rolloutTimeS;
    },
    // A log without its truth would make every check pass.
    count: pair.measurement.speedSplits.length,
  };
}
