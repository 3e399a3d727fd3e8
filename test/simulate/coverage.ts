/**
 * Many short logs of single runs with known truth, to hold figures and their intervals to it: every path is driven
 * once, then read again and again with a fresh phase of the receiver's clock and fresh noise.
 */
import type { Log } from '../../pipeline/log/log.ts';
import { type MeasureOptions, measureLog } from '../../pipeline/measurement/measure.ts';
import { CARS, type Launch, type SimulatedCar } from './cars.ts';
import { varied } from './day.ts';
import { drive, type Manoeuvre, STILL_DRY_AIR } from './drive.ts';
import { type Random, randomFromSeed } from './random.ts';
import type { Trajectory } from './trajectory.ts';
import { runToTruth, type TrueRun } from './truth.ts';

export const RATES_HZ: readonly number[] = [10, 20, 25, 50, 100];
export const START_KINDS = [
  'first-movement',
  'one-foot',
  '100 m from movement',
  '100 m after one foot',
  '60 ft after one foot',
  'speed at 100 m',
] as const;
export const STOP_KINDS = ['stop distance', 'stop time', 'mfdd'] as const;
export const KINDS = [...START_KINDS, 'rolling', ...STOP_KINDS, 'top', 'peak'] as const;
export type Kind = (typeof KINDS)[number];

/** One true path: a start and a stop, or a pull between two speeds. */
export interface Path {
  readonly car: SimulatedCar;
  readonly shape: string;
  readonly trajectory: Trajectory;
  readonly truth: TrueRun;
  /** Greatest slope of a straight line through any `PEAK_S` of it, m/s². */
  readonly peakMps2: number;
}

/** One figure of one simulated run: measured less true, and the expanded uncertainty stated. */
export interface Deviation {
  readonly kind: Kind;
  readonly carId: string;
  readonly rateHz: number;
  readonly noiseKmh: number;
  readonly shape: string;
  readonly error: number;
  readonly expanded: number;
  /** The true value. */
  readonly truth: number;
}

export interface Reading {
  readonly rateHz: number;
  readonly noiseMps: number;
  readonly stepMps?: number;
  readonly lagS?: number;
  readonly jitterS?: number;
}

const PEAK_S = 0.5;
const SHAPES: readonly Launch['shape'][] = ['linear', 'smooth', 'convex', 'concave'];

/** The shapes a driver and a driveline could make, none of them one car's own. */
export function foreignLaunch(random: Random, k: number): Launch {
  const shape = SHAPES[k % SHAPES.length]!;
  const kind = Math.floor(k / SHAPES.length) % 4;
  const rampS = random.between(0.1, 0.6);
  const bite = random.between(0.2, 0.5);
  const dip = {
    atS: random.between(0.3, 0.5),
    forS: random.between(0.4, 1),
    depth: random.between(0.2, 0.4),
  };
  if (kind === 1) return { id: 'bite', shape, rampS, bite };
  if (kind === 2) return { id: `${shape}, dip`, shape, rampS, dip };
  if (kind === 3 && k % 2 === 0) return { id: 'step', shape: 'linear', rampS: 0 };
  return { id: shape, shape, rampS };
}

/** `count` starts and stops of a car: its own launch methods and brakes, and foreign ones, in turn. */
export function drivePaths(car: SimulatedCar, count: number, seed: number, standS = 4): Path[] {
  const random = randomFromSeed(seed);
  return Array.from({ length: count }, (_, k): Path => {
    const own = k % 2 === 0;
    const launch = own
      ? varied(car.launches[(k / 2) % car.launches.length]!, random)
      : foreignLaunch(random, (k - 1) / 2);
    // Brakes that are no car's own too: quick and slow ones, put on at the very speed, and eased at the end.
    const brakes = own
      ? {}
      : { buildUpS: random.between(0.06, 0.35), easesMps: Math.max(0, random.between(-0.4, 1)) };
    const toMps = own ? random.between(28.6, 30) : random.between(27.9, 30);
    const coast: Manoeuvre[] = k % 3 === 0 ? [] : [{ kind: 'coast', forS: random.between(0.3, 1.2) }];
    return pathOf(car, own ? 'own' : launch.id, [
      { kind: 'stand', forS: standS },
      { kind: 'standing-start', launch, toMps, power: 1 + 0.01 * random.normal() },
      ...coast,
      { kind: 'brake', effort: random.between(0.9, 1.03), ...brakes },
      { kind: 'stand', forS: 3 },
    ]);
  });
}

/** `count` pulls of a car from about 45 to a little over 120 km/h. */
export function drivePulls(car: SimulatedCar, count: number, seed: number): Path[] {
  const random = randomFromSeed(seed);
  return Array.from({ length: count }, () =>
    pathOf(car, 'pull', [
      { kind: 'stand', forS: 3 },
      { kind: 'glide', toMps: random.between(11, 13), overS: 17 },
      { kind: 'cruise', forS: 2 },
      { kind: 'pull', toMps: 34, power: 1 + 0.01 * random.normal() },
      { kind: 'coast', forS: 1.5 },
    ]),
  );
}

function pathOf(car: SimulatedCar, shape: string, script: readonly Manoeuvre[]): Path {
  const { trajectory, runs } = drive(car, { headingDeg: 0 }, STILL_DRY_AIR, script);
  const truth = runToTruth(trajectory, runs[0]!);
  return { car, shape, trajectory, truth, peakMps2: steepest(trajectory, truth) };
}

/** The steepest straight line through `PEAK_S` of the true speed, by sums over 10 ms. */
function steepest(path: Trajectory, truth: TrueRun): number {
  const step = 0.01;
  const half = Math.round(PEAK_S / step / 2);
  const until = truth.brakedAtS ?? truth.endsS;
  let greatest = 0;
  const speeds: number[] = [];
  for (let t = truth.beginsS - PEAK_S; t <= until; t += step) speeds.push(path.speedAt(t));
  for (let i = half; i + half < speeds.length; i++) {
    let top = 0;
    let bottom = 0;
    for (let k = -half; k <= half; k++) {
      top += k * speeds[i + k]!;
      bottom += k * k;
    }
    greatest = Math.max(greatest, top / bottom / step);
  }
  return greatest;
}

/** What a receiver writes of a path; time counts from `phaseS` before the path begins. */
export function readPath(path: Trajectory, reading: Reading, phaseS: number, random: Random): Log {
  const { rateHz, noiseMps, stepMps, lagS = 0, jitterS = 0 } = reading;
  const endS = path.timeS[path.count - 1]!;
  const count = Math.floor((endS - phaseS) * rateHz) + 1;
  const timeS = new Float64Array(count);
  const speedMps = new Float64Array(count);
  const decay = lagS > 0 ? Math.exp(-1 / rateHz / lagS) : 0;
  let node = 0;
  let filtered = 0;
  let before = 0;
  // A filter smooths the noise of the signal too; scaled so that one reading still scatters as stated.
  let noise = 0;
  const fresh = Math.sqrt(1 - decay * decay);
  for (let k = 0; k < count; k++) {
    const t = phaseS + k / rateHz;
    node = path.nodeAt(t, node);
    const next = Math.min(node + 1, path.count - 1);
    const span = path.timeS[next]! - path.timeS[node]!;
    const share = span > 0 ? Math.min(1, (t - path.timeS[node]!) / span) : 0;
    const exact = path.speedMps[node]! + share * (path.speedMps[next]! - path.speedMps[node]!);
    if (lagS > 0) {
      // Exact for a speed that is straight between two readings.
      const slope = k === 0 ? 0 : (exact - before) * rateHz;
      filtered = exact - slope * lagS + (filtered - before + slope * lagS) * decay;
      before = exact;
    } else filtered = exact;
    noise = decay * noise + fresh * noiseMps * random.normal();
    const value = Math.abs(filtered + noise);
    speedMps[k] = stepMps === undefined ? value : Math.round(value / stepMps) * stepMps;
    const late =
      jitterS > 0 ? Math.max(-0.45 / rateHz, Math.min(0.45 / rateHz, jitterS * random.normal())) : 0;
    timeS[k] = Math.max(0, k / rateHz + late);
  }
  return {
    file: 'simulated.csv',
    format: 'csv',
    timeS,
    speedMps,
    speedSource: 'recorded',
    line: Uint32Array.from(timeS, (_, i) => i + 2),
    ...(stepMps === undefined ? {} : { speedStepMps: stepMps }),
    channels: {},
    warnings: [],
  };
}

const KMH = 1 / 3.6;
const alike = (one: number, other: number): boolean => Math.abs(one - other) < 1e-6;

/** Every figure of one reading of one path against its truth; `undefined` where the run was not found. */
export function deviationsOf(
  path: Path,
  reading: Reading,
  random: Random,
  options: MeasureOptions = {},
): Deviation[] | undefined {
  const phaseS = random.between(0, 1 / reading.rateHz);
  const { measurements } = measureLog(readPath(path.trajectory, reading, phaseS, random), options);
  const { truth } = path;
  const run = measurements.find(
    one => one.run.kind === truth.kind && Math.abs(one.beginsS + phaseS - truth.beginsS) < 1.5,
  );
  if (run === undefined) return undefined;
  const found: Deviation[] = [];
  const add = (
    kind: Kind,
    value: number | undefined,
    expanded: number | undefined,
    known: number | undefined,
  ) => {
    if (value === undefined || known === undefined || expanded === undefined) return;
    found.push({
      kind,
      carId: path.car.id,
      rateHz: reading.rateHz,
      noiseKmh: reading.noiseMps / KMH,
      shape: path.shape,
      error: value - known,
      expanded,
      truth: known,
    });
  };
  if (truth.kind === 'rolling') {
    for (const known of truth.rollingSplits) {
      const split = run.speedSplits.find(
        one => alike(one.fromMps, known.fromMps) && alike(one.toMps, known.toMps),
      );
      add('rolling', split?.timeS, split?.uncertaintyS, known.timeS);
    }
    return found;
  }
  const to100 = truth.speedSplits.find(({ toMps }) => alike(toMps, 100 * KMH));
  const split = (rule: string) =>
    run.speedSplits.find(one => one.startRule === rule && alike(one.toMps, 100 * KMH));
  const moved = split('first-movement');
  const rolled = split('one-foot-rollout');
  add('first-movement', moved?.timeS, moved?.uncertaintyS, to100?.timeS);
  add('one-foot', rolled?.timeS, rolled?.uncertaintyS, to100?.rolloutTimeS);
  const at100 = truth.distanceSplits.find(({ toM }) => toM === 100);
  const line = (rule: string) => run.distanceSplits.find(one => one.startRule === rule && one.toM === 100);
  add(
    '100 m from movement',
    line('first-movement')?.timeS,
    line('first-movement')?.uncertaintyS,
    at100?.timeS,
  );
  add(
    '100 m after one foot',
    line('one-foot-rollout')?.timeS,
    line('one-foot-rollout')?.uncertaintyS,
    at100?.rolloutTimeS,
  );
  const at60Ft = truth.distanceSplits.find(({ toM }) => alike(toM, 18.288));
  const line60Ft = run.distanceSplits.find(
    one => one.startRule === 'one-foot-rollout' && alike(one.toM, 18.288),
  );
  add('60 ft after one foot', line60Ft?.timeS, line60Ft?.uncertaintyS, at60Ft?.rolloutTimeS);
  add(
    'speed at 100 m',
    line('first-movement')?.speedMps,
    line('first-movement')?.speedUncertaintyMps,
    at100?.speedMps,
  );
  for (const known of truth.braking) {
    if (alike(known.fromMps, 50 * KMH)) continue;
    const stop = run.braking.find(({ fromMps }) => alike(fromMps, known.fromMps));
    if (!alike(known.fromMps, 100 * KMH)) continue;
    add('stop distance', stop?.distanceM, stop?.uncertaintyM, known.distanceM);
    add('stop time', stop?.timeS, stop?.timeUncertaintyS, known.timeS);
    add('mfdd', stop?.mfddMps2, stop?.mfddUncertaintyMps2, known.mfddMps2);
  }
  add('top', run.topMps, run.topUncertaintyMps, truth.topMps);
  add('peak', run.peakMps2, run.peakUncertaintyMps2, path.peakMps2);
  return found;
}

export interface Plan {
  readonly seed: number;
  readonly perCell: number;
  /** Different paths of a car. */
  readonly paths: number;
  readonly rates?: readonly number[];
  readonly noisesKmh?: readonly number[];
  readonly reading?: Partial<Reading>;
  readonly options?: MeasureOptions;
  readonly cars?: readonly SimulatedCar[];
  readonly pulls?: boolean;
  /** How long cars stand before a start, s; 4 unless told. */
  readonly standS?: number;
}

/** Every figure of `perCell` starts in every cell of car × rate, and of half as many pulls. */
export function simulateDeviations(plan: Plan): { deviations: Deviation[]; runs: number; missed: number } {
  const { seed, perCell, paths: count, rates = RATES_HZ, noisesKmh = [0.03, 0.065, 0.1], cars = CARS } = plan;
  const random = randomFromSeed(seed);
  const deviations: Deviation[] = [];
  let missed = 0;
  let runs = 0;
  for (const car of cars) {
    const starts = drivePaths(car, count, seed + 1, plan.standS);
    const pulls = (plan.pulls ?? true) ? drivePulls(car, Math.ceil(count / 4), seed + 2) : [];
    for (const rateHz of rates) {
      for (let k = 0; k < perCell; k++) {
        const noiseMps = noisesKmh[k % noisesKmh.length]! * KMH;
        const paths = [starts[((k * 7 + k / count) % count) | 0]!];
        if (pulls.length > 0 && k % 2 === 0) paths.push(pulls[k % pulls.length]!);
        for (const path of paths) {
          runs++;
          const found = deviationsOf(path, { ...plan.reading, rateHz, noiseMps }, random, plan.options);
          if (found === undefined) missed++;
          else deviations.push(...found);
        }
      }
    }
  }
  return { deviations, runs, missed };
}

export interface Summary {
  readonly count: number;
  readonly bias: number;
  readonly rms: number;
  readonly coverage: number;
  /** Root mean square of errors in standard uncertainties: 1 where these are right. */
  readonly inUnits: number;
}

/** Bias, root mean square and the share of intervals that hold the truth. */
export function summarise(deviations: readonly Deviation[]): Summary {
  const count = deviations.length;
  let sum = 0;
  let squares = 0;
  let held = 0;
  let units = 0;
  for (const { error, expanded } of deviations) {
    sum += error;
    squares += error * error;
    units += ((2 * error) / expanded) ** 2;
    if (Math.abs(error) <= expanded) held++;
  }
  return {
    count,
    bias: sum / count,
    rms: Math.sqrt(squares / count),
    coverage: held / count,
    inUnits: Math.sqrt(units / count),
  };
}
