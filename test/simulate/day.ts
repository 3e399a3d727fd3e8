/** A whole plausible test day: waiting, creeping to the line, starts, aborted starts, slow returns, traffic. */
import type { Log, LogClock } from '../../pipeline/log/log.ts';
import { CARS, type Launch, type SimulatedCar } from './cars.ts';
import {
  type Drive,
  drive,
  type Manoeuvre,
  type SimulatedRoad,
  STILL_DRY_AIR,
  type Surroundings,
} from './drive.ts';
import { type Random, randomFromSeed } from './random.ts';
import { type Receiver, receive, type Samples } from './receiver.ts';
import { driveToTruth, type TrueRun } from './truth.ts';

export interface DayPlan {
  readonly seed: number;
  /** One of the four where absent, by the seed. */
  readonly car?: SimulatedCar;
  readonly rateHz: number;
  readonly noiseMps: number;
  /** Complete standing starts; 6 where absent. */
  readonly runs?: number;
  /** Aborted standing starts among them; 1 where absent. */
  readonly aborted?: number;
  /** Rolling runs after them; 0 where absent. */
  readonly rolling?: number;
  /** Stop-and-go like traffic on the way; true where absent. */
  readonly traffic?: boolean;
  /** Speed at which a complete run ends, m/s; the car's own by default. */
  readonly toMps?: number;
  /** Launch methods in turn; the car's own where absent. */
  readonly launches?: readonly Launch[];
  readonly surroundings?: Surroundings;
  readonly road?: SimulatedRoad;
  readonly receiver?: Partial<Receiver>;
  readonly clock?: LogClock;
}

export interface SimulatedDay {
  readonly car: SimulatedCar;
  readonly drive: Drive;
  /** Every run in the order of time; times are seconds of the log. */
  readonly truth: readonly TrueRun[];
  readonly samples: Samples;
  /** The log as a perfect reader would give it. */
  toLog(): Log;
}

const LEVEL_ROAD: SimulatedRoad = { headingDeg: 68 };

/** Samples as the `Log` a reader would make of them. */
export function samplesToLog(samples: Samples, clock?: LogClock, file = 'simulated.csv'): Log {
  const line = new Uint32Array(samples.timeS.length);
  for (let i = 0; i < line.length; i++) line[i] = i + 2;
  return {
    file,
    format: 'csv',
    timeS: samples.timeS,
    speedMps: samples.speedMps,
    speedSource: 'recorded',
    line,
    ...(samples.stepMps === undefined ? {} : { speedStepMps: samples.stepMps }),
    ...(clock === undefined ? {} : { clock }),
    channels: {
      latitudeDeg: samples.latitudeDeg,
      longitudeDeg: samples.longitudeDeg,
      altitudeM: samples.altitudeM,
      headingDeg: samples.courseDeg,
      satellites: samples.satellites,
      hdop: samples.hdop,
    },
    warnings: [],
  };
}

/** The same method as a person does it: never twice quite alike. */
export function varied(launch: Launch, random: Random): Launch {
  const rampS = launch.rampS * Math.max(0.6, 1 + 0.12 * random.normal());
  return launch.dip
    ? {
        ...launch,
        rampS,
        dip: {
          ...launch.dip,
          depth: Math.min(0.8, launch.dip.depth * Math.max(0.2, 1 + 0.3 * random.normal())),
        },
      }
    : { ...launch, rampS };
}

/** Round by two three-point turns to just behind the line, facing it, then up to it by creeping. */
export function backToTheLine(random: Random, startM: number, cruiseMps: number): Manoeuvre[] {
  return [
    { kind: 'stand', forS: random.between(2, 6) },
    { kind: 'three-point-turn' },
    { kind: 'travel-to', alongM: startM - random.between(8, 16), cruiseMps },
    { kind: 'three-point-turn' },
    { kind: 'stand', forS: random.between(1, 3) },
    { kind: 'travel-to', alongM: startM - 1.5, cruiseMps: random.between(1.2, 2) },
    { kind: 'stand', forS: random.between(0.6, 2) },
    { kind: 'travel-to', alongM: startM, cruiseMps: random.between(0.3, 0.7) },
  ];
}

/** Starts and stops as in a queue: gentle, at most about 30 km/h. */
export function queueing(random: Random): Manoeuvre[] {
  const script: Manoeuvre[] = [];
  for (let i = random.whole(2, 4); i > 0; i--) {
    const topMps = random.between(2, 8);
    const accelS = topMps / random.between(0.6, 1.2);
    script.push({ kind: 'glide', toMps: topMps, overS: accelS });
    if (random.chance(0.6)) script.push({ kind: 'cruise', forS: random.between(1, 5) });
    script.push({ kind: 'glide', toMps: 0, overS: topMps / random.between(0.8, 1.6) });
    script.push({ kind: 'stand', forS: random.between(1, 6) });
  }
  return script;
}

function dayScript(plan: DayPlan, car: SimulatedCar, random: Random): Manoeuvre[] {
  const complete = plan.runs ?? 6;
  const aborted = plan.aborted ?? 1;
  const topMps = plan.toMps ?? (car.massKg > 2000 ? 29 : 34);
  const launches = plan.launches ?? car.launches;
  const order = Array.from({ length: complete + aborted }, (_, i) => i >= complete);
  for (let i = order.length - 1; i > 0; i--) {
    const other = random.whole(0, i);
    [order[i], order[other]] = [order[other]!, order[i]!];
  }
  const script: Manoeuvre[] = [{ kind: 'stand', forS: random.between(8, 20) }];
  const traffic = plan.traffic ?? true;
  order.forEach((givenUp, i) => {
    const launch = varied(launches[i % launches.length]!, random);
    script.push({ kind: 'stand', forS: random.between(4, 12) });
    if (givenUp) {
      script.push({ kind: 'standing-start', launch, toMps: random.between(10, 15), aborted: true });
      script.push({ kind: 'coast', forS: random.between(0.5, 2) });
      script.push({ kind: 'glide', toMps: 0, overS: random.between(5, 9) });
    } else {
      script.push({
        kind: 'standing-start',
        launch,
        toMps: topMps * random.between(1, 1.06),
        power: 1 + 0.004 * random.normal(),
      });
      script.push({ kind: 'coast', forS: random.between(0.3, 1.2) });
      if (random.chance(0.6)) script.push({ kind: 'brake', effort: random.between(0.96, 1.03) });
      else script.push({ kind: 'glide', toMps: 0, overS: random.between(16, 22) });
    }
    script.push(...backToTheLine(random, 0, random.between(9, 15)));
    if (traffic && random.chance(0.35)) {
      script.push({ kind: 'stand', forS: random.between(1, 4) }, ...queueing(random));
      script.push(...backToTheLine(random, 0, 8));
    }
  });
  for (let i = 0; i < (plan.rolling ?? 0); i++) {
    script.push({ kind: 'stand', forS: random.between(3, 8) });
    script.push({ kind: 'glide', toMps: random.between(11, 12.5), overS: random.between(11, 14) });
    script.push({ kind: 'cruise', forS: random.between(1.5, 4) });
    script.push({ kind: 'pull', toMps: topMps * random.between(1.01, 1.05) });
    script.push({ kind: 'coast', forS: random.between(0.5, 1.5) });
    script.push({ kind: 'glide', toMps: 0, overS: random.between(16, 22) });
    script.push(...backToTheLine(random, 0, random.between(9, 15)));
  }
  script.push({ kind: 'stand', forS: random.between(6, 15) });
  return script;
}

/** The car and its way through a simulated day, which nobody has recorded. */
export function driveDay(plan: DayPlan): Pick<SimulatedDay, 'car' | 'drive'> {
  const { car, driven } = drivenDay(plan, randomFromSeed(plan.seed));
  return { car, drive: driven };
}

function drivenDay(plan: DayPlan, random: Random): { readonly car: SimulatedCar; readonly driven: Drive } {
  const car = plan.car ?? random.pick(CARS);
  const script = dayScript(plan, car, random);
  return { car, driven: drive(car, plan.road ?? LEVEL_ROAD, plan.surroundings ?? STILL_DRY_AIR, script) };
}

/** One simulated day with known truth; the same plan gives the same day, sample by sample. */
export function simulateDay(plan: DayPlan): SimulatedDay {
  const random = randomFromSeed(plan.seed);
  const { car, driven } = drivenDay(plan, random);
  const samples = receive(
    driven.trajectory,
    { ...plan.receiver, rateHz: plan.rateHz, noiseMps: plan.noiseMps },
    random,
  );
  return {
    car,
    drive: driven,
    truth: driveToTruth(driven),
    samples,
    toLog: () => samplesToLog(samples, plan.clock),
  };
}
