/** The plan beside simulated cars whose way to every speed and to rest is known. */
import { describe, expect, it } from 'vitest';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import type { Attempt, Car, Road, TestResult } from '../../pipeline/result/result.ts';
import { contentToRoadPlan, PLAN_DEFAULTS } from '../../pipeline/result/road-plan.ts';
import type { Edges, PlanRow } from '../../pipeline/road/plan.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { CARS, type SimulatedCar } from '../simulate/cars.ts';
import { samplesToLog } from '../simulate/day.ts';
import { drive, type Manoeuvre, type SimulatedRoad, STILL_DRY_AIR } from '../simulate/drive.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { receive } from '../simulate/receiver.ts';

const LENGTH_M = 2500;
const HEADING_DEG = 68;
/** First runs are taken to here, so that the plan has every speed under it measured. */
const FIRST_TO_KMH = 122;
const SPEEDS_KMH = [50, 80, 100, 120];

const driveOf: Readonly<Record<string, Car['drive']>> = {
  'electric-hatch': 'electric',
  'automatic-estate': 'petrol',
  'manual-turbo': 'petrol-boosted',
  'diesel-van': 'diesel-boosted',
};

/** The car as its file in content/cars/ would describe it: rated power, drag, mass without driver and gear. */
const described = (car: SimulatedCar): Car => ({
  id: car.id,
  name: car.id,
  short_name: car.id,
  kind: 'car',
  drive: driveOf[car.id]!,
  driven_wheels: 'front',
  gearbox: 'any',
  power_kw: car.powerW / 1000,
  kerb_mass_kg: car.massKg - PLAN_DEFAULTS.aboardKg,
  drag_area_m2: car.dragAreaM2,
  rolling_resistance: car.rollingResistance,
});

const roadOf = (slopePct: number): Road => ({
  id: 'road',
  name: 'road',
  about: 'closed',
  permission: 'given',
  surface: 'asphalt',
  length_m: LENGTH_M,
  directions: [
    { id: 'there', name: 'there', heading_deg: HEADING_DEG },
    { id: 'back', name: 'back', heading_deg: HEADING_DEG + 180 },
  ],
  slope_pct: slopePct,
});

const simulatedRoad = (slopePct: number): SimulatedRoad => ({
  headingDeg: HEADING_DEG,
  profile: [
    [0, 0],
    [1000, slopePct * 10],
  ],
});

const started = (car: SimulatedCar, toMps: number, power: number): Manoeuvre[] => [
  { kind: 'stand', forS: 12 },
  { kind: 'standing-start', launch: car.launches[0]!, toMps, power },
];

/** As many first runs as asked for, each a log of its own, with a stop at its end. */
function firstRuns(car: SimulatedCar, count: number, slopePct: number, grip = 1): TestResult {
  const surroundings = { ...STILL_DRY_AIR, grip };
  const attempts = Array.from({ length: count }, (_, i): Attempt => {
    const random = randomFromSeed(900 + i);
    const script: Manoeuvre[] = [
      ...started(car, kmhToMps(FIRST_TO_KMH), 1 + 0.004 * random.normal()),
      { kind: 'coast', forS: 0.5 },
      { kind: 'brake', effort: 1 + 0.01 * random.normal() },
      { kind: 'stand', forS: 6 },
    ];
    const driven = drive(car, simulatedRoad(slopePct), surroundings, script);
    const samples = receive(driven.trajectory, { rateHz: 25, noiseMps: kmhToMps(0.06) }, random);
    const { trace, measurements } = measureLog(samplesToLog(samples));
    expect(measurements.map(({ run }) => run.kind)).toEqual(['standing-start']);
    return {
      id: `a0${i + 1}`,
      number: i + 1,
      at: '10:00:00',
      directionId: 'there',
      log: 'log.csv',
      trace,
      measurement: measurements[0]!,
      conditions: {
        readAt: '10:00',
        densityKgm3: surroundings.densityKgm3,
        headwindMps: 0,
        slopePct,
        surface: grip < 1 ? 'wet' : 'dry',
      },
    };
  });
  return {
    id: 'first-runs',
    content: {
      title: 'First runs',
      standfirst: 'First runs.',
      car: car.id,
      road: 'road',
      date: '2026-05-12',
      time_zone: '+00:00',
      as_tested: { mass_kg: car.massKg, aboard: 'driver', fuel: 'full', tyres: 'road' },
      receiver: { what: 'simulated' },
      conditions: [{ at: '10:00' }],
      logs: [{ file: 'log.csv' }],
      attempts: attempts.map(() => ({ at: '10:00' })),
    },
    car: described(car),
    road: roadOf(slopePct),
    attempts,
    articleMarkdown: '',
    articleFile: 'article.md',
    logSha256: {},
    warnings: [],
  };
}

interface Truth {
  readonly reachedM: number;
  readonly stoppedM: number;
}

/** Drives to the speed, on for the reaction time, and brakes in full. */
function truthAt(car: SimulatedCar, speedMps: number, slopePct: number, grip = 1): Truth {
  const surroundings = { ...STILL_DRY_AIR, grip };
  const road = simulatedRoad(slopePct);
  const pull = drive(car, road, surroundings, started(car, speedMps + 12, 1));
  const { trajectory, runs } = pull;
  const reached = trajectory.risingTo(speedMps, runs[0]!.beginNode, trajectory.count - 1)!;
  const brakeMps = trajectory.speedAt(reached.timeS + PLAN_DEFAULTS.reactionTimeS);
  const whole = drive(car, road, surroundings, [...started(car, brakeMps, 1), { kind: 'brake' }]);
  return {
    reachedM: reached.distanceM,
    stoppedM: whole.trajectory.distanceM[whole.trajectory.count - 1]!,
  };
}

const rowAt = (rows: readonly PlanRow[], speedKmh: number): PlanRow =>
  rows.find(({ speedMps }) => Math.abs(speedMps - kmhToMps(speedKmh)) < 1e-6)!;
const contains = ({ adverse, favourable }: Edges<number>, truth: number): boolean =>
  truth <= adverse && truth >= favourable;

describe.each(CARS)('$id', car => {
  it('is within its ± before the first run', () => {
    const { planned } = contentToRoadPlan(described(car), roadOf(0));
    for (const speedKmh of SPEEDS_KMH) {
      const row = rowAt(planned.rows, speedKmh);
      const truth = truthAt(car, kmhToMps(speedKmh), 0);
      expect(row.from).toBe('estimated');
      expect(contains(row.reachedM, truth.reachedM), `reached ${speedKmh}`).toBe(true);
      expect(contains(row.stoppedM, truth.stoppedM), `stopped ${speedKmh}`).toBe(true);
    }
  });

  it('is within 3 % of the truth once two runs are in, and the truth not beyond its adverse end', () => {
    const { planned, decelerationFrom } = contentToRoadPlan(
      described(car),
      roadOf(0),
      {},
      firstRuns(car, 2, 0),
    );
    expect(decelerationFrom).toBe('measured');
    for (const speedKmh of SPEEDS_KMH) {
      const row = rowAt(planned.rows, speedKmh);
      const truth = truthAt(car, kmhToMps(speedKmh), 0);
      expect(row.from).toBe('measured');
      expect(Math.abs(row.reachedM.middle / truth.reachedM - 1), `reached ${speedKmh}`).toBeLessThan(0.03);
      expect(Math.abs(row.stoppedM.middle / truth.stoppedM - 1), `stopped ${speedKmh}`).toBeLessThan(0.03);
      // A gear change while the driver reacts is not foreseen: it ends the stop earlier.
      expect(row.stoppedM.adverse, `adverse end of ${speedKmh}`).toBeGreaterThan(truth.stoppedM);
      expect(contains(row.reachedM, truth.reachedM), `± of ${speedKmh}`).toBe(true);
    }
  });

  it('is as near for the other way along a road that rises 1 %, from runs uphill', () => {
    const { planned } = contentToRoadPlan(
      described(car),
      roadOf(1),
      { direction: 'back' },
      firstRuns(car, 2, 1),
    );
    for (const speedKmh of [80, 100, 120]) {
      const row = rowAt(planned.rows, speedKmh);
      const truth = truthAt(car, kmhToMps(speedKmh), -1);
      expect(Math.abs(row.reachedM.middle / truth.reachedM - 1), `reached ${speedKmh}`).toBeLessThan(0.03);
      expect(Math.abs(row.stoppedM.middle / truth.stoppedM - 1), `stopped ${speedKmh}`).toBeLessThan(0.03);
      expect(row.stoppedM.adverse, `adverse end of ${speedKmh}`).toBeGreaterThan(truth.stoppedM);
    }
  });

  it('leaves less road for every speed in the wet than a wet road takes, from runs in the dry', () => {
    const { planned } = contentToRoadPlan(described(car), roadOf(0), { wet: true }, firstRuns(car, 2, 0));
    for (const speedKmh of SPEEDS_KMH) {
      const row = rowAt(planned.rows, speedKmh);
      const truth = truthAt(car, kmhToMps(speedKmh), 0, 0.65);
      expect(row.stoppedM.adverse, `stopped ${speedKmh}`).toBeGreaterThan(truth.stoppedM);
    }
  });
});

describe('the first runs of a day', () => {
  const car = CARS[0]!;
  const width = (runs: number): number => {
    const today = runs === 0 ? undefined : firstRuns(car, runs, 0);
    const { stoppedM } = rowAt(contentToRoadPlan(described(car), roadOf(0), {}, today).planned.rows, 120);
    return stoppedM.adverse - stoppedM.favourable;
  };

  it('make the plan narrower: one run, then two', () => {
    const [none, one, two] = [width(0), width(1), width(2)] as const;
    expect(one).toBeLessThan(none / 2);
    expect(two).toBeLessThan(one);
  });

  it('count only where they are kept', () => {
    const today = firstRuns(car, 2, 0);
    const aside = {
      ...today,
      attempts: today.attempts.map(attempt => ({ ...attempt, setAside: 'a hare' })),
    };
    const plan = contentToRoadPlan(described(car), roadOf(0), {}, aside);
    expect([plan.pull, plan.stops, plan.decelerationFrom]).toEqual([undefined, undefined, 'estimated']);
  });
});
