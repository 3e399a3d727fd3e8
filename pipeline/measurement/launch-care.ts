/**
 * What a day of launches asked of the driveline: how many, by which method, with what pauses, and how much heat a
 * slipping clutch took, as far as the logs tell.
 *
 * Every energy here is an estimate from closed forms on stated assumptions. It says nothing about what a clutch,
 * tyre or gearbox bears, how hot it was, or what its maker allows.
 */
import type { Trace } from '../trace/trace.ts';
import { flag } from './flag-words.ts';
import { kineticEnergyJ } from './launch-slip.ts';
import type { Flag, RunMeasurement } from './measurement.ts';
import { shiftsOf } from './shifts.ts';
import { carriesEngineSpeed, levelsOf } from './shifts-engine-speed.ts';

/** A launch sooner than this after the last one is flagged `warm-driveline`, s (our own limit, no source). */
export const WARM_PAUSE_S = 120;
/** Slip is followed in the log only with at least this many fresh readings a second, 1/s (our own limit). */
export const SLIP_RATE_HZ = 5;
/** Engine speed within this share of the closed clutch's: the slip has ended. */
export const SLIP_ENDED_SHARE = 0.05;
/** Slower than this, m/s, engine and wheels cannot be told to turn together. */
const SLIP_FROM_MPS = 1;
/** Share of the mass that turning wheels and shafts add, 0.04: the handbook factor 1.04 + 0.0025 i² without engine. */
export const TURNING_SHARE = 0.04;
const DAY_S = 86_400;

/** What takes up the difference of speed between engine and wheels at a start. */
export type Coupling = 'clutch' | 'converter' | 'none' | 'unknown';

/** An attempt as launches are counted by; a test's attempts are. */
export interface LaunchedAttempt {
  /** 1-based place in the day. */
  readonly number: number;
  /** Clock time at the road when the run begins, `10:22:41`. */
  readonly at: string;
  readonly log: string;
  readonly launchId?: string;
  readonly launchName?: string;
  readonly trace: Trace;
  readonly measurement: RunMeasurement;
}

export interface LaunchedCar {
  /** As tested, kg. */
  readonly massKg: number;
  readonly coupling: Coupling;
}

/** Heat in the clutch, J; where `fromJ` and `toJ` are the same it is an estimate, otherwise a range. */
export interface SlipHeat {
  readonly fromJ: number;
  readonly toJ: number;
  /** `engine-speed`: followed reading by reading. `bounds`: only between these can it lie. */
  readonly by: 'engine-speed' | 'bounds';
}

/** `unbounded`: neither engine speed nor a gear change bounds the speed at which the slip ended. */
export type NoHeat = Exclude<Coupling, 'clutch'> | 'unbounded';

export interface CaredLaunch {
  readonly attempt: number;
  /** 1, 2, 3 … among the day's standing starts, those given up included. */
  readonly place: number;
  readonly at: string;
  readonly methodId?: string;
  readonly methodName?: string;
  readonly aborted: boolean;
  /** First movement to first movement, s; absent for the first of the day. */
  readonly pauseS?: number;
  readonly heat?: SlipHeat;
  /** Why there is no heat. */
  readonly noHeat?: NoHeat;
  readonly flags: readonly Flag[];
}

export interface MethodCare {
  readonly methodId?: string;
  readonly methodName?: string;
  readonly launches: number;
  readonly aborted: number;
  /** Shortest pause before one of its launches, s. */
  readonly shortestPauseS?: number;
  /** Sum over its launches, J; absent unless each of them has one. */
  readonly heatFromJ?: number;
  readonly heatToJ?: number;
}

export interface LaunchCare {
  readonly launches: readonly CaredLaunch[];
  /** In the order in which the day first used them. */
  readonly methods: readonly MethodCare[];
}

/** Counts the standing starts among a day's attempts, complete or given up, kept or set aside. */
export function launchCare(attempts: readonly LaunchedAttempt[], car: LaunchedCar): LaunchCare {
  const starts = attempts.filter(({ measurement }) => measurement.run.kind === 'standing-start');
  const firstShifts = car.coupling === 'clutch' ? starts.map(firstShiftMps) : [];
  const highestMps = Math.max(0, ...firstShifts.map(speed => speed ?? 0));
  const launches = starts.map((attempt, index): CaredLaunch => {
    const before = starts[index - 1];
    const pauseS = before === undefined ? undefined : pauseBetween(before, attempt);
    const heat = heatOf(attempt, car, highestMps);
    return {
      attempt: attempt.number,
      place: index + 1,
      at: attempt.at,
      ...(attempt.launchId === undefined ? {} : { methodId: attempt.launchId }),
      ...(attempt.launchName === undefined ? {} : { methodName: attempt.launchName }),
      aborted: attempt.measurement.run.status === 'aborted',
      ...(pauseS === undefined ? {} : { pauseS }),
      ...(typeof heat === 'string' ? { noHeat: heat } : { heat }),
      flags: pauseS === undefined || pauseS >= WARM_PAUSE_S ? [] : [warmFlag(pauseS, index + 1)],
    };
  });
  const methods = [...Map.groupBy(launches, ({ methodId }) => methodId).values()].map(careOfMethod);
  return { launches, methods };
}

/** By the logs' own seconds within one log, otherwise by the clock, which knows whole seconds. */
function pauseBetween(before: LaunchedAttempt, after: LaunchedAttempt): number {
  if (before.log === after.log) return after.measurement.beginsS - before.measurement.beginsS;
  const apart = clockS(after.at) - clockS(before.at);
  // A day's work may pass midnight.
  return apart < 0 ? apart + DAY_S : apart;
}

function clockS(at: string): number {
  const [hours = 0, minutes = 0, seconds = 0] = at.split(':').map(Number);
  return hours * 3600 + minutes * 60 + seconds;
}

const warmFlag = (pauseS: number, place: number): Flag =>
  flag('warm-driveline', { place, pauseS, limitS: WARM_PAUSE_S });

/** Speed at which a run's first gear ended, m/s; undefined where no gear change could be seen. */
const firstShiftMps = ({ trace, measurement }: LaunchedAttempt): number | undefined =>
  shiftsOf(trace, measurement).shifts[0]?.speedMps;

/** @param highestMps the highest speed at which the day's first gear changes came; 0 where none was seen. */
function heatOf(
  { trace, measurement }: LaunchedAttempt,
  car: LaunchedCar,
  highestMps: number,
): SlipHeat | NoHeat {
  if (car.coupling !== 'clutch') return car.coupling;
  const followed = followedSlip(trace, measurement, car);
  if (followed !== undefined) return followed;
  if (highestMps === 0) return 'unbounded';
  return {
    fromJ: 0,
    toJ: kineticEnergyJ(car.massKg * (1 + TURNING_SHARE), highestMps),
    by: 'bounds',
  };
}

/**
 * Heat reading by reading: force on the car times the speed of the slip, seen at the wheels,
 *   E = Σ m a (n/k − v) Δt, with k the engine speed over speed of the car once nothing slips.
 */
function followedSlip(trace: Trace, measurement: RunMeasurement, car: LaunchedCar): SlipHeat | undefined {
  const { run, start } = measurement;
  const enough = trace.heldS === undefined && trace.rateHz >= 0.95 * SLIP_RATE_HZ;
  if (!enough || start === undefined || !carriesEngineSpeed(trace, measurement)) return undefined;
  const rpm = trace.channels.engineSpeedRpm!;
  const [firstGear] = levelsOf(trace, measurement);
  if (firstGear === undefined) return undefined;
  const ratio = firstGear.ratio;
  const massKg = car.massKg * (1 + TURNING_SHARE);
  const { timeS, speedMps } = trace;
  // The last reading at rest may come just after first movement: what is slower than a receiver's noise counts too.
  let first = run.beginIndex;
  while (first > 0 && timeS[first]! > start.firstMovementS) first--;
  let heatJ = 0;
  for (let k = first; k < firstGear.beginIndex; k++) {
    // Until first movement the car stood, and the engine's speed then drives nothing.
    const stood = timeS[k]! <= start.firstMovementS;
    const fromMps = stood ? 0 : speedMps[k]!;
    const engineRpm = stood ? rpm[k + 1]! : (rpm[k]! + rpm[k + 1]!) / 2;
    const slipMps = engineRpm / ratio - (fromMps + speedMps[k + 1]!) / 2;
    const ended = slipMps < SLIP_ENDED_SHARE * speedMps[k + 1]!;
    if (ended && speedMps[k + 1]! > SLIP_FROM_MPS) break;
    heatJ += massKg * (speedMps[k + 1]! - fromMps) * Math.max(0, slipMps);
  }
  return {
    fromJ: heatJ,
    toJ: heatJ,
    by: 'engine-speed',
  };
}

function careOfMethod(launches: readonly CaredLaunch[]): MethodCare {
  const [{ methodId, methodName }] = launches as readonly [CaredLaunch];
  const pauses = launches.flatMap(({ pauseS }) => pauseS ?? []);
  const heats = launches.flatMap(({ heat }) => heat ?? []);
  const sum = (of: (heat: SlipHeat) => number): number => heats.reduce((total, heat) => total + of(heat), 0);
  return {
    ...(methodId === undefined ? {} : { methodId }),
    ...(methodName === undefined ? {} : { methodName }),
    launches: launches.length,
    aborted: launches.filter(({ aborted }) => aborted).length,
    ...(pauses.length === 0 ? {} : { shortestPauseS: Math.min(...pauses) }),
    ...(heats.length < launches.length
      ? {}
      : { heatFromJ: sum(({ fromJ }) => fromJ), heatToJ: sum(({ toJ }) => toJ) }),
  };
}

/**
 * What takes up a start, by the words a car's gearbox is described in, such as “six-speed manual”; `unknown` where
 * they do not tell.
 */
export function couplingOf(gearbox: string): Coupling {
  const words = gearbox.toLowerCase();
  if (isOneGear(words) && !/stepless|continuously|cvt/.test(words)) return 'none';
  if (/manual|(dual|twin|double)[- ]clutch/.test(words)) return 'clutch';
  if (/automatic|converter/.test(words)) return 'converter';
  return 'unknown';
}

/** Whether a gearbox is described as one that makes no shifts. */
export const isOneGear = (gearbox: string): boolean =>
  /\b(single|one|1)[- ](speed|gear)|stepless|continuously variable|\bcvt\b|direct drive/i.test(gearbox);
