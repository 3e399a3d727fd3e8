/**
 * Figures of a few dozen small logs as the code gives them now, folded into one number of ten digits a run and kind of
 * figure. They are no truths: those stand in the tests beside this one. They show that something moved where every
 * truth still holds within its allowance, so that no published number moves without somebody meaning it.
 * `node test/measurement/held.ts` writes them anew.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { estimateCoastDown, findCoastDowns } from '../../pipeline/conditions/coast-down.ts';
import { type RoadLine, slopeFromPasses, tracePasses } from '../../pipeline/conditions/logged-slope.ts';
import { restateRun } from '../../pipeline/conditions/restate.ts';
import type { Log } from '../../pipeline/log/log.ts';
import { type LaunchedAttempt, launchCare } from '../../pipeline/measurement/launch-care.ts';
import { type MeasureOptions, measureLog } from '../../pipeline/measurement/measure.ts';
import type { RunMeasurement } from '../../pipeline/measurement/measurement.ts';
import { METHODS } from '../../pipeline/measurement/methods.ts';
import { shiftsOf, shiftsTo } from '../../pipeline/measurement/shifts.ts';
import { thresholdStartS } from '../../pipeline/measurement/threshold-clock.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import type { Trace } from '../../pipeline/trace/trace.ts';
import { simulatePair } from '../conditions/simulated-pair.ts';
import {
  AUTOMATIC_ESTATE,
  CARS,
  DIESEL_VAN,
  ELECTRIC_HATCH,
  MANUAL_TURBO,
  type SimulatedCar,
} from '../simulate/cars.ts';
import { drivePaths, drivePulls, type Path, type Reading, readPath } from '../simulate/coverage.ts';
import { samplesToLog, simulateDay } from '../simulate/day.ts';
import { drive } from '../simulate/drive.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { receive } from '../simulate/receiver.ts';
import { readingsToLog } from './trajectories.ts';

export const HELD_FILE = resolve(import.meta.dirname, '../fixtures/held-figures.txt');

/** Between 0.5 and 1.5, by a text: FNV-1a, G. Fowler, L. Noll, K.-P. Vo. */
function weightOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return 0.5 + (hash >>> 0) / 2 ** 32;
}

/** All numbers and words of a value in one sum, each weighed by its place; sentences and whole readings left out. */
function folded(value: unknown, path: string): number {
  if (typeof value === 'number')
    return Number.isFinite(value) ? weightOf(path) * value : weightOf(`${path}${value}`);
  if (typeof value === 'boolean' || typeof value === 'string') return weightOf(`${path}=${value}`);
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return 0;
  return Object.entries(value).reduce(
    (sum, [key, one]) => sum + (key === 'text' || key === 'says' ? 0 : folded(one, `${path}.${key}`)),
    Array.isArray(value) ? weightOf(`${path} ${value.length}`) : 0,
  );
}

/** All that is measured of a run. */
function figuresOf(trace: Trace, measurement: RunMeasurement): unknown {
  const shifts = shiftsOf(trace, measurement);
  return {
    ...measurement,
    shifts,
    shiftsTo: [10, 20, 27].map(speed => shiftsTo(trace, measurement, shifts, speed)),
    thresholdS: thresholdStartS(trace, measurement),
  };
}
const measuredLog = (log: Log, options: MeasureOptions = {}): unknown => {
  const { trace, measurements } = measureLog(log, options);
  return measurements.map(one => figuresOf(trace, one));
};

const GOOD = { rateHz: 25, noiseMps: 0.02 };
const READINGS: readonly (readonly [name: string, Reading, MeasureOptions?])[] = [
  ['25 Hz', GOOD],
  ['10 Hz, noisy', { rateHz: 10, noiseMps: 0.03 }],
  ['100 Hz', { rateHz: 100, noiseMps: 0.01 }],
  ['2 Hz', { rateHz: 2, noiseMps: 0.02 }],
  ['whole km/h', { ...GOOD, stepMps: 1 / 3.6 }],
  ['time stamps that stray', { ...GOOD, jitterS: 0.008 }],
  ['a stated filter', { ...GOOD, lagS: 0.2 }, { lagS: 0.2 }],
  ['a stated receiver', GOOD, { receiverMps: 0.03, lowRateHz: 50 }],
  ['1 Hz', { rateHz: 1, noiseMps: 0.02 }],
  ['steps of 0.1 km/h', { rateHz: 20, noiseMps: 0.015, stepMps: 0.1 / 3.6 }],
];

const read = (path: Path, reading: Reading, seed: number): Log =>
  readPath(path.trajectory, reading, 0.013, randomFromSeed(seed));

/** Stretches without readings and single wild ones, from their places among the readings. */
function damaged(
  log: Log,
  gaps: readonly (readonly [from: number, to: number])[],
  spikes: readonly number[],
): Log {
  const kept = [...log.timeS.keys()].filter(index => !gaps.some(([from, to]) => index > from && index < to));
  return readingsToLog(
    Float64Array.from(kept, index => log.timeS[index]!),
    Float64Array.from(kept, index => log.speedMps[index]! + (spikes.includes(index) ? 30 : 0)),
  );
}

/** A start that rolls at walking pace before it pulls. */
function crept(): Log {
  const timeS = Float64Array.from({ length: 500 }, (_, i) => i / 25);
  const speedAt = (t: number): number =>
    t < 4 ? 0 : t < 5.2 ? 0.35 * Math.min(1, (t - 4) / 0.2) : 0.35 + 4.5 * (t - 5.2);
  const random = randomFromSeed(61);
  return readingsToLog(
    timeS,
    timeS.map(t => Math.abs(Math.min(speedAt(t), 31) + 0.012 * random.normal())),
  );
}

/** A pull through three gears with the engine's speed beside it, held by a slipping clutch at first. */
export function withEngineSpeed(): Log {
  const rateHz = 20;
  const gears = [
    { ratio: 400, mps2: 5, endsMps: 14 },
    { ratio: 240, mps2: 3.2, endsMps: 22 },
    { ratio: 165, mps2: 2.1, endsMps: 31 },
  ];
  const random = randomFromSeed(17);
  const [times, speeds, rpms] = [[] as number[], [] as number[], [] as number[]];
  let [speed, gear, pausedS] = [0, 0, 0];
  for (let k = 0; k < 22 * rateHz; k++) {
    const t = k / rateHz;
    const now = gears[gear]!;
    if (t >= 5 && pausedS > 0) pausedS -= 1 / rateHz;
    else if (t >= 5 && speed < 31) speed += now.mps2 / rateHz;
    else if (t >= 5) speed -= 0.5 / rateHz;
    if (speed >= now.endsMps && gear < 2) {
      gear++;
      pausedS = 0.3;
    }
    times.push(t);
    speeds.push(Math.abs(speed + 0.01 * random.normal()));
    rpms.push(
      Math.max(gears[gear]!.ratio * speed, t < 5 ? 900 : gear === 0 ? 2600 : 0) + 8 * random.normal(),
    );
  }
  const log = readingsToLog(Float64Array.from(times), Float64Array.from(speeds));
  return { ...log, channels: { engineSpeedRpm: Float64Array.from(rpms) } };
}

function attemptsOf(log: Log): LaunchedAttempt[] {
  const { trace, measurements } = measureLog(log);
  return measurements.map((measurement, k) => ({
    number: k + 1,
    at: `10:${String(k * 2).padStart(2, '0')}:00`,
    log: 'day.csv',
    launchId: k % 2 === 0 ? 'one' : 'other',
    trace,
    measurement,
  }));
}

/** One run of each car on a hilly, windy day, restated. */
function restated(car: SimulatedCar, index: number): unknown {
  const random = randomFromSeed(40 + index);
  const pull = index === 2;
  const pair = simulatePair({
    car,
    launch: car.launches[0]!,
    day: {
      slopePct: 0,
      profile: [
        [0, 0],
        [120, 0.4],
        [300, 0.1],
        [420, 0.9],
      ],
      headwindMps: index % 2 === 0 ? 2.2 : -1.4,
      temperatureK: 299,
      relativeHumidity: 0.6,
      densityShare: index < 2 ? -0.04 : 0.05,
    },
    receiver: { rateHz: 20, noiseMps: 0.015 },
    random,
    ...(pull
      ? {
          script: [
            { kind: 'glide', toMps: 12, overS: 15 },
            { kind: 'cruise', forS: 2 },
            { kind: 'pull', toMps: 34 },
            { kind: 'coast', forS: 1.5 },
          ],
        }
      : {}),
  });
  return restateRun(pair.trace, pair.measurement, pair.circumstances);
}

/** A road of 0.3 % coasted down and up in wind: what coasting and altitude tell of car and road. */
function coasted(): unknown {
  const line: RoadLine = { latitudeDeg: 52.4, longitudeDeg: -1.2, headingDeg: 30 };
  const random = randomFromSeed(77);
  const runs = ([1, -1, 1, -1] as const).map(way => {
    const driven = drive(
      DIESEL_VAN,
      {
        headingDeg: way === 1 ? 30 : 210,
        profile: [
          [0, 0],
          [900, way * 2],
          [5000, way * 16],
        ],
      },
      { densityKgm3: 1.21, windMps: 1.5, windFromDeg: 30, grip: 1 },
      [
        { kind: 'stand', forS: 3 },
        { kind: 'glide', toMps: 30, overS: 30 },
        { kind: 'coast', forS: 40 },
        { kind: 'brake' },
        { kind: 'stand', forS: 2 },
      ],
    );
    const samples = receive(driven.trajectory, { rateHz: 5, noiseMps: 0.02 }, random);
    return { trace: logToTrace(samplesToLog(samples)).trace, way };
  });
  const found = runs.map(({ trace }) => findCoastDowns(trace));
  const down = runs.map(({ trace, way }, k) => ({ trace, way, coastDown: found[k]![0]! }));
  const car = { massKg: DIESEL_VAN.massKg, densityKgm3: 1.21 };
  const passes = runs.flatMap(({ trace }) => tracePasses(trace, line));
  const slope = slopeFromPasses(passes);
  return {
    found,
    estimate: estimateCoastDown(down, car),
    onSteepening: estimateCoastDown(down, { ...car, wheelShare: 0.02 }, { unevenness: 0.0004 }),
    passes: passes.map(({ alongM, altitudeM }) => [alongM.length, alongM[7], altitudeM.at(-1)]),
    slope,
    heights: slope.decided ? [0, 100, 333, 800].map(at => slope.slope.profile.heightAt(at)) : [],
  };
}

type Held = readonly [name: string, make: () => unknown];

function readings(): Held[] {
  return CARS.flatMap((car, index) =>
    READINGS.flatMap(([name, reading, options], k): Held[] => {
      if ((k + index) % 2 === 1) return [];
      const make = () => {
        const path = drivePaths(car, 1 + ((k + index) % 4), 300 + index).at(-1)!;
        return measuredLog(read(path, reading, 50 + k), options);
      };
      return [[`${car.id}, ${name}`, make]];
    }),
  );
}

const goodLog = (): Log => read(drivePaths(ELECTRIC_HATCH, 1, 21)[0]!, GOOD, 31);
const pull = (): Path => drivePulls(MANUAL_TURBO, 1, 7)[0]!;
const smallDay = (): LaunchedAttempt[] =>
  attemptsOf(
    simulateDay({
      seed: 14,
      car: MANUAL_TURBO,
      rateHz: 10,
      noiseMps: 0.02,
      runs: 3,
      aborted: 1,
      rolling: 1,
    }).toLog(),
  );

/** What is held: a value each, made of readings that are simulated anew. */
export const HELD: readonly Held[] = [
  ...readings(),
  ['a pull', () => measuredLog(read(pull(), GOOD, 8))],
  ['a pull at 10 Hz', () => measuredLog(read(pull(), { rateHz: 10, noiseMps: 0.03 }, 9))],
  ['a pull, stated receiver', () => measuredLog(read(pull(), GOOD, 8), { receiverMps: 0.03 })],
  [
    'a filter that shows at rest',
    () => measuredLog(read(drivePaths(AUTOMATIC_ESTATE, 1, 12, 40)[0]!, { ...GOOD, lagS: 0.1 }, 4)),
  ],
  [
    'gaps and a spike',
    () =>
      measuredLog(
        damaged(
          goodLog(),
          [
            [125, 132],
            [190, 196],
            [260, 266],
          ],
          [160],
        ),
      ),
  ],
  [
    'a gap as the brakes come on',
    () => {
      const log = goodLog();
      const top = log.speedMps.indexOf(Math.max(...log.speedMps));
      return measuredLog(damaged(log, [[top + 8, top + 14]], []));
    },
  ],
  ['from positions', () => measuredLog({ ...goodLog(), speedSource: 'derived-from-position' })],
  ['creeping', () => measuredLog(crept())],
  ['engine speed', () => measuredLog(withEngineSpeed())],
  ['heat', () => launchCare(attemptsOf(withEngineSpeed()), { massKg: 1500, coupling: 'clutch' })],
  ['a day', () => smallDay().map(({ trace, measurement }) => figuresOf(trace, measurement))],
  ['launches of a day', () => launchCare(smallDay(), { massKg: 1400, coupling: 'clutch' })],
  ...CARS.map((car, index): Held => [`restated, ${car.id}`, () => restated(car, index)]),
  ['coasted', coasted],
  [
    'constants that are printed',
    () =>
      Object.fromEntries(
        Object.entries(METHODS).map(([id, { constants }]) => [id, constants.map(({ values }) => values)]),
      ),
  ],
];

/** One number for each run, or the like, and kind of figure of a held value. */
export function heldOf([name, make]: Held): Map<string, number> {
  const found = new Map<string, number>();
  const value = make() as object;
  const runs: readonly (readonly [string, object])[] = Array.isArray(value)
    ? value.map((one: object, index) => [`${name}, run ${index + 1}`, one] as const)
    : [[name, value]];
  for (const [run, one] of runs) {
    for (const [kind, figures] of Object.entries(one)) {
      found.set(`${run}, ${kind}`, typeof figures === 'number' ? figures : folded(figures, kind));
    }
  }
  return found;
}

const written = (value: number): string => String(Number(value.toPrecision(10)));

/** What the file holds, by name. */
export const heldThen = (): ReadonlyMap<string, number> =>
  new Map(
    readFileSync(HELD_FILE, 'utf8')
      .trimEnd()
      .split('\n')
      .map(line => line.split('\t') as [string, string])
      .map(([name, value]) => [name, Number(value)]),
  );

if (import.meta.main) {
  const lines = HELD.flatMap(held => [...heldOf(held)]).map(
    ([name, value]) => `${name}\t${written(value)}\n`,
  );
  writeFileSync(HELD_FILE, lines.join(''));
  process.stdout.write(`${lines.length} figures held\n`);
}
