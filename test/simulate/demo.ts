/**
 * Makes the logs of the demo publication from its own test files: `node test/simulate/demo.ts` writes
 * content/tests/<id>/logs/. Times, launch methods, directions, air and wind come from each test.yaml.
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parse } from 'yaml';
import { COAST_WHEEL_SHARE } from '../../pipeline/conditions/coast-down.ts';
import { type RoadContent, roadSchema, type TestContent, testSchema } from '../../pipeline/content/schema.ts';
import { AUTOMATIC_ESTATE, DIESEL_VAN, ELECTRIC_HATCH, type Launch, type SimulatedCar } from './cars.ts';
import { varied } from './day.ts';
import { drive, type Manoeuvre, type Surroundings } from './drive.ts';
import { type Random, randomFromSeed } from './random.ts';
import { type Receiver, receive, type Samples } from './receiver.ts';
import { driveToTruth, type TrueRun } from './truth.ts';
import { writeCsv, writeGpx, writeNmea } from './write-log.ts';

/** What happened on an attempt that its note only tells in words; by number, from 1. */
interface Doing {
  /** The driver lifted at this speed, km/h. */
  readonly liftedAtKmh?: number;
  /** Wheels lost grip: depth and length of the dip. */
  readonly spin?: { readonly atS: number; readonly forS: number; readonly depth: number };
  readonly fullStop?: boolean;
  readonly rollingFromKmh?: number;
  readonly toKmh?: number;
  /** The receiver wrote nothing from and until this long after the start, s. */
  readonly silentS?: readonly [number, number];
}

interface DemoDay {
  readonly id: string;
  readonly seed: number;
  readonly car: SimulatedCar;
  readonly launches: readonly Launch[];
  readonly toKmh: number;
  /** How much one attempt differs from another, as a share of power: the driver, heat, the battery. */
  readonly powerSpread: number;
  readonly receiver: Receiver;
  /** Clock times at which each log is switched on and off. */
  readonly logs: readonly { readonly from: string; readonly to: string }[];
  readonly doings: Readonly<Record<number, Doing>>;
  /** Coast-downs to and fro in a log of their own, after the attempts; directions are those of test.yaml. */
  readonly coasting?: { readonly from: string; readonly seed: number; readonly rateHz: number };
  write(samples: Samples, startMs: number, zoneMin: number): Uint8Array<ArrayBuffer>;
}

export interface DemoLog {
  /** From the project's folder, such as `content/tests/<id>/logs/first.csv`. */
  readonly path: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

export interface DemoTest {
  readonly id: string;
  readonly content: TestContent;
  readonly logs: readonly DemoLog[];
  /** In the order of the attempts in test.yaml; times are seconds since midnight at the road. */
  readonly truth: readonly TrueRun[];
}

/** Off the coast, so that no real place stands in the logs. */
const ORIGIN = { latitudeDeg: 53.14, longitudeDeg: 0.71, altitudeM: 6 };
/** Where westbound attempts start, m along the road. */
const WEST_LINE_M = 1390;
const KMH = 1 / 3.6;

const hatchLaunches: readonly Launch[] = [
  { id: 'brake-hold', rampS: 0.15, shape: 'linear' },
  { id: 'from-rest', rampS: 0.68, shape: 'linear' },
];

export const DEMO_DAYS: readonly DemoDay[] = [
  {
    id: 'quillet-sorrel-dry',
    seed: 20260512,
    car: ELECTRIC_HATCH,
    launches: hatchLaunches,
    toKmh: 117,
    powerSpread: 0.0035,
    receiver: { rateHz: 25, noiseMps: 0.08 * KMH, origin: ORIGIN, satellites: 17 },
    logs: [
      { from: '09:41', to: '09:56:40' },
      { from: '09:59', to: '10:14:40' },
      { from: '10:17', to: '10:29:10' },
    ],
    doings: {
      1: { fullStop: true, toKmh: 122 },
      4: { liftedAtKmh: 71 },
      5: { fullStop: true },
      8: { fullStop: true },
      11: { fullStop: true, toKmh: 133 },
      12: { toKmh: 133 },
      14: { fullStop: true },
    },
    coasting: { from: '10:31', seed: 20260515, rateHz: 10 },
    write: (samples, startMs) =>
      writeCsv(samples, {
        time: 'iso',
        timeDecimals: 2,
        startMs,
        extra: ['satellites'],
        header: ['utc', 'speed_kmh', 'satellites'],
      }),
  },
  {
    id: 'marrowby-lantern-dry',
    seed: 20260513,
    car: AUTOMATIC_ESTATE,
    launches: [
      { id: 'from-idle', rampS: 0.34, shape: 'smooth' },
      { id: 'brake-hold', rampS: 0.24, shape: 'linear' },
    ],
    toKmh: 108,
    powerSpread: 0.0035,
    receiver: { rateHz: 10, noiseMps: 0.1 * KMH, origin: ORIGIN, satellites: 15 },
    logs: [
      { from: '13:44', to: '13:59:40' },
      { from: '14:01', to: '14:16:30' },
      { from: '14:18', to: '14:33' },
    ],
    doings: {
      4: { fullStop: true },
      5: { silentS: [4.1, 6.2] },
      7: { fullStop: true },
      10: { fullStop: true },
      13: { fullStop: true },
      14: { rollingFromKmh: 72, toKmh: 124 },
      15: { rollingFromKmh: 72, toKmh: 124 },
    },
    write: (samples, startMs) => writeNmea(samples, { startMs, ggaEvery: 10 }),
  },
  {
    id: 'tolvane-barrow-dry',
    seed: 20260514,
    car: DIESEL_VAN,
    launches: DIESEL_VAN.launches,
    toKmh: 106,
    powerSpread: 0.008,
    receiver: { rateHz: 5, noiseMps: 0.15 * KMH, origin: ORIGIN, satellites: 12 },
    logs: [
      { from: '16:09', to: '16:21:40' },
      { from: '16:23', to: '16:32:10' },
    ],
    doings: {
      2: { fullStop: true },
      3: { liftedAtKmh: 44, spin: { atS: 0.5, forS: 0.9, depth: 0.55 } },
      4: { fullStop: true },
      7: { fullStop: true },
    },
    write: (samples, startMs) => writeGpx(samples, { startMs, name: 'Barrow', positionDecimals: 6 }),
  },
  {
    id: 'quillet-sorrel-wet',
    seed: 20261006,
    car: ELECTRIC_HATCH,
    // On a wet road the driver lets the brake go more slowly.
    launches: [
      { id: 'brake-hold', rampS: 0.36, shape: 'linear' },
      { id: 'from-rest', rampS: 0.76, shape: 'linear' },
    ],
    toKmh: 112,
    powerSpread: 0.0035,
    receiver: { rateHz: 25, noiseMps: 0.08 * KMH, origin: ORIGIN, satellites: 14 },
    logs: [
      { from: '10:11', to: '10:26:30' },
      { from: '10:29', to: '10:41:10' },
    ],
    doings: {
      1: { fullStop: true },
      2: { liftedAtKmh: 46, spin: { atS: 0.2, forS: 1.6, depth: 0.5 } },
      4: { fullStop: true },
      6: { fullStop: true },
      7: { liftedAtKmh: 52, spin: { atS: 0.3, forS: 1.9, depth: 0.45 } },
      9: { fullStop: true },
    },
    write: (samples, startMs, zoneMin) =>
      writeCsv(samples, {
        delimiter: ';',
        decimal: ',',
        lineEnd: '\r\n',
        byteOrderMark: true,
        time: 'time-of-day',
        timeDecimals: 2,
        startMs,
        zoneMin,
        extra: ['satellites'],
        header: ['Time of day', 'Speed (km/h)', 'Satellites'],
      }),
  },
];

const clockToS = (clock: string): number => {
  const [hours, minutes, seconds] = clock.split(':').map(Number);
  return hours! * 3600 + minutes! * 60 + (seconds ?? 0);
};
const zoneToMin = (zone: string): number =>
  (zone.startsWith('-') ? -1 : 1) * (Number(zone.slice(1, 3)) * 60 + Number(zone.slice(4, 6)));

/** Density of moist air, kg/m³: ideal gas, water vapour by Magnus (WMO CIMO guide). */
function airDensity(temperatureC: number, pressureHpa: number, humidityPct: number): number {
  const vapourPa = humidityPct * 6.112 * Math.exp((17.62 * temperatureC) / (243.12 + temperatureC));
  const kelvin = temperatureC + 273.15;
  return (pressureHpa * 100 - vapourPa) / (287.05 * kelvin) + vapourPa / (461.5 * kelvin);
}

/** Air as last read before a time; the wind wanders about its mean. */
function surroundingsAt(test: TestContent, atS: number, random: Random): Surroundings {
  const read = test.conditions.filter(reading => clockToS(reading.at) <= atS).at(-1) ?? test.conditions[0]!;
  return {
    densityKgm3: airDensity(read.temperature_c!, read.pressure_hpa!, read.humidity_pct!),
    windMps: Math.max(0, read.wind_mps! + 0.25 * random.normal()),
    windFromDeg: read.wind_from_deg! + 5 * random.normal(),
    grip: read.surface === 'wet' ? 0.65 + 0.008 * random.normal() : 1,
  };
}

/** The attempt itself, from rest at the line. */
function attemptScript(
  day: DemoDay,
  launchId: string | undefined,
  doing: Doing,
  random: Random,
): Manoeuvre[] {
  const toMps = (doing.toKmh ?? day.toKmh) * KMH * (1 + 0.006 * random.normal());
  const power = 1 + day.powerSpread * random.normal();
  const script: Manoeuvre[] = [];
  if (launchId === undefined) {
    script.push({ kind: 'glide', toMps: doing.rollingFromKmh! * KMH, overS: 18 });
    script.push({ kind: 'cruise', forS: 2 });
    script.push({ kind: 'pull', toMps, power });
  } else {
    const launch = day.launches.find(({ id }) => id === launchId);
    if (!launch) throw new Error(`${day.id} has no launch method ${launchId}.`);
    script.push({
      kind: 'standing-start',
      launch: { ...varied(launch, random), ...(doing.spin ? { dip: doing.spin } : {}) },
      toMps: doing.liftedAtKmh === undefined ? toMps : doing.liftedAtKmh * KMH,
      aborted: doing.liftedAtKmh !== undefined,
      power,
    });
  }
  script.push({ kind: 'coast', forS: random.between(0.4, 1) });
  if (doing.fullStop) script.push({ kind: 'brake', effort: 1 + 0.012 * random.normal() });
  else script.push({ kind: 'glide', toMps: 0, overS: doing.liftedAtKmh === undefined ? 19 : 9 });
  return script;
}

/** From where the last attempt ended to the next line, facing the way of the next attempt. */
function toLine(lineM: number, way: 1 | -1, before: 1 | -1, random: Random): Manoeuvre[] {
  const approachM = lineM - way * random.between(9, 14);
  const there: Manoeuvre = { kind: 'travel-to', alongM: approachM, cruiseMps: random.between(14, 16.5) };
  const turn: Manoeuvre = { kind: 'three-point-turn' };
  return [
    { kind: 'stand', forS: random.between(2, 4) },
    ...(way === before ? [turn, there, turn] : [{ ...there, alongM: lineM + way * -12 }, turn]),
    { kind: 'stand', forS: random.between(1, 2) },
    { kind: 'travel-to', alongM: lineM - way * 0.8, cruiseMps: random.between(1.4, 2) },
    { kind: 'travel-to', alongM: lineM, cruiseMps: random.between(0.35, 0.6) },
  ];
}

/** A run-up to 112 km/h, then out of gear while the road lasts. */
const COAST_FROM_MPS = 31;
const COAST_S = 53;
/** Where coasting westbound starts, m along the road. */
const WEST_COAST_M = 1600;

/** The log of a day's coast-downs, with wheels that turn; drawn from a seed of its own, so that no other log hangs on it. */
function makeCoasting(
  day: DemoDay,
  test: TestContent,
  road: RoadContent,
  { from, seed, rateHz }: NonNullable<DemoDay['coasting']>,
): DemoLog {
  const random = randomFromSeed(seed);
  const noted = test.logs.find(log => log.coast_downs !== undefined)!;
  const beginS = clockToS(from);
  const script: Manoeuvre[] = [{ kind: 'stand', forS: 12 }];
  let facing: 1 | -1 = 1;
  noted.coast_downs!.forEach((direction, index) => {
    const way = direction === road.directions[0]!.id ? 1 : -1;
    if (index > 0) script.push(...toLine(way === 1 ? 0 : WEST_COAST_M, way, facing, random));
    script.push({ kind: 'weather', surroundings: surroundingsAt(test, beginS, random) });
    script.push({ kind: 'stand', forS: 3 });
    script.push({ kind: 'glide', toMps: COAST_FROM_MPS + 0.3 * random.normal(), overS: 12 });
    script.push({ kind: 'coast', forS: COAST_S, wheelShare: COAST_WHEEL_SHARE });
    script.push({ kind: 'glide', toMps: 0, overS: 9 });
    facing = way;
  });
  script.push({ kind: 'stand', forS: 20 });
  const driven = drive(
    { ...day.car, massKg: test.as_tested.mass_kg },
    { headingDeg: road.directions[0]!.heading_deg, ...(road.profile ? { profile: road.profile } : {}) },
    surroundingsAt(test, beginS, random),
    script,
  );
  const samples = receive(driven.trajectory, { ...day.receiver, rateHz }, random);
  const zoneMin = zoneToMin(test.time_zone);
  const midnightMs = Date.parse(`${test.date}T00:00:00Z`) - zoneMin * 60_000;
  return {
    path: `content/tests/${day.id}/${noted.file}`,
    bytes: day.write(samples, midnightMs + beginS * 1000, zoneMin),
  };
}

function slice(samples: Samples, fromS: number, toS: number): Samples {
  const begin = samples.timeS.findIndex(t => t >= fromS - 1e-9);
  const after = samples.timeS.findIndex(t => t > toS);
  const end = after < 0 ? samples.timeS.length : after;
  const originS = samples.timeS[begin]!;
  return {
    ...samples,
    timeS: samples.timeS.slice(begin, end).map(t => t - originS),
    speedMps: samples.speedMps.slice(begin, end),
    latitudeDeg: samples.latitudeDeg.slice(begin, end),
    longitudeDeg: samples.longitudeDeg.slice(begin, end),
    altitudeM: samples.altitudeM.slice(begin, end),
    courseDeg: samples.courseDeg.slice(begin, end),
    satellites: samples.satellites.slice(begin, end),
    hdop: samples.hdop.slice(begin, end),
  };
}

/** One demo test: its logs as bytes and what was true of every attempt. */
export function makeDemoTest(day: DemoDay, test: TestContent, road: RoadContent): DemoTest {
  const random = randomFromSeed(day.seed);
  const beginS = clockToS(day.logs[0]!.from) - 60;
  const script: Manoeuvre[] = [];
  const silences: { fromS: number; toS: number }[] = [];
  let facing: 1 | -1 = 1;
  test.attempts.forEach((attempt, index) => {
    const doing = day.doings[index + 1] ?? {};
    const way = attempt.direction === 'west' ? -1 : 1;
    // People note the minute; the car leaves some seconds into it.
    const atS = clockToS(attempt.at!) + random.between(2, 22) - beginS;
    const leadS = attempt.launch === undefined ? 20 : 0;
    if (index > 0) script.push(...toLine(way === 1 ? 0 : WEST_LINE_M, way, facing, random));
    script.push({ kind: 'weather', surroundings: surroundingsAt(test, atS + beginS, random) });
    script.push({ kind: 'stand-until', atS: atS - leadS });
    script.push(...attemptScript(day, attempt.launch, doing, random));
    if (doing.silentS) silences.push({ fromS: atS + doing.silentS[0], toS: atS + doing.silentS[1] });
    facing = way;
  });
  script.push({ kind: 'stand', forS: 40 });

  const driven = drive(
    { ...day.car, massKg: test.as_tested.mass_kg },
    { headingDeg: road.directions[0]!.heading_deg, ...(road.profile ? { profile: road.profile } : {}) },
    surroundingsAt(test, beginS, random),
    script,
  );
  const samples = receive(driven.trajectory, { ...day.receiver, dropouts: silences }, random);
  const zoneMin = zoneToMin(test.time_zone);
  const midnightMs = Date.parse(`${test.date}T00:00:00Z`) - zoneMin * 60_000;
  const attempted = day.logs.map((span, index): DemoLog => {
    const part = slice(samples, clockToS(span.from) - beginS, clockToS(span.to) - beginS);
    const firstS = samples.timeS.find(t => t >= clockToS(span.from) - beginS - 1e-9)!;
    return {
      path: `content/tests/${day.id}/${test.logs[index]!.file}`,
      bytes: day.write(part, midnightMs + Math.round((beginS + firstS) * 1000), zoneMin),
    };
  });
  const { coasting } = day;
  const logs = coasting === undefined ? attempted : [...attempted, makeCoasting(day, test, road, coasting)];
  const shift = (run: TrueRun): TrueRun => ({
    ...run,
    beginsS: run.beginsS + beginS,
    endsS: run.endsS + beginS,
    ...(run.firstMovementS === undefined ? {} : { firstMovementS: run.firstMovementS + beginS }),
    ...(run.brakedAtS === undefined ? {} : { brakedAtS: run.brakedAtS + beginS }),
  });
  return { id: day.id, content: test, logs, truth: driveToTruth(driven).map(shift) };
}

/** Every demo test, made from the files under a project folder. */
export function makeDemo(projectDir: string): DemoTest[] {
  const read = (path: string): unknown => parse(readFileSync(join(projectDir, path), 'utf8'));
  return DEMO_DAYS.map(day => {
    const test = testSchema.parse(read(`content/tests/${day.id}/test.yaml`));
    const road = roadSchema.parse(read(`content/roads/${test.road}.yaml`));
    return makeDemoTest(day, test, road);
  });
}

if (import.meta.main) {
  const projectDir = fileURLToPath(new URL('../..', import.meta.url));
  for (const { logs } of makeDemo(projectDir)) {
    for (const { path, bytes } of logs) {
      const file = join(projectDir, path);
      mkdirSync(dirname(file), { recursive: true });
      writeFileSync(file, bytes);
      process.stdout.write(`${path} ${(bytes.length / 1e6).toFixed(2)} MB\n`);
    }
  }
}
