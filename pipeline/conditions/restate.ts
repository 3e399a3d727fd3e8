/**
 * The same run on a level road, in still air at 20 °C and 100 kPa, dry: worked out from the measured trace, printed
 * beside the measured figure and never instead of it.
 */

import { risingThrough } from '../measurement/crossing.ts';
import type { DistanceSplit, Flag, RunMeasurement, SpeedSplit } from '../measurement/measurement.ts';
import { COVERAGE_FACTOR } from '../measurement/uncertainty.ts';
import type { ClockRule } from '../run/run.ts';
import type { Trace } from '../trace/trace.ts';
import { dryPressurePa } from './air.ts';
import {
  type KnownCircumstances,
  knownCircumstances,
  RESTATE_LIMITS,
  type RestateLimits,
  type RunCircumstances,
} from './circumstances.ts';
import {
  AS_KNOWN,
  CONDITIONS,
  type Condition,
  gainsOf,
  type Moved,
  type PowerChange,
  type Workings,
} from './gain.ts';
import { defaultPowerCorrection } from './power-correction.ts';
import type { PowerSays } from './power-words.ts';
import { type Pull, traceToPull } from './pull.ts';
import { REFERENCE_AIR, REFERENCE_DENSITY_KGM3 } from './reference.ts';
import { type Replay, replay } from './replay.ts';
import { type NotRestatedWhy, notRestatedInWords, restateWords } from './restate-words.ts';
import { ROTATING_UNCERTAINTY } from './rotating-mass.ts';

export type RestatedSource =
  | 'measured'
  | 'mass'
  | 'drag-area'
  | 'wind'
  | 'slope'
  | 'density'
  | 'rotating-mass'
  | 'power'
  | 'launch'
  | 'acceleration';

export interface RestatedFigure {
  readonly timeS: number;
  /** Expanded, k = 2: the measured time's own and that of everything it was restated from. */
  readonly uncertaintyS: number;
  /** Restated less measured, by condition; they add up to the whole change. */
  readonly changesS: Readonly<Record<Condition, number>>;
  /** Standard uncertainties, s, largest first. */
  readonly budget: readonly { readonly source: RestatedSource; readonly standard: number }[];
}

export interface RestatedSpeedSplit extends RestatedFigure {
  readonly fromMps: number;
  readonly toMps: number;
  readonly startRule: ClockRule;
}

export interface RestatedDistanceSplit extends RestatedFigure {
  readonly toM: number;
  readonly startRule: ClockRule;
}

export interface RestatedRun {
  /** One for each measured split that the car reaches on the reference road as well. */
  readonly speedSplits: readonly RestatedSpeedSplit[];
  readonly distanceSplits: readonly RestatedDistanceSplit[];
  /** What was done about the engine's power; `powerInWords` says it. */
  readonly power?: PowerSays;
  /** Present where nothing could be restated. */
  readonly notRestated?: NotRestated;
}

export interface NotRestated {
  /** Facts that are not known, by their English names; empty where another reason stands against it. */
  readonly missing: readonly string[];
  readonly reason: NotRestatedWhy;
  /** The reason in one clause, in English; `notRestatedInWords` says it in other languages. */
  readonly text: string;
}

/** Relative standard uncertainty of a power correction: it is made for benches, not for roads (our own estimate). */
const POWER_UNCERTAINTY = 0.3;
/** Power of dry pressure in the formula of ISO 1585 for spark ignition. */
const PRESSURE_EXPONENT = 1.2;
/** Stretch over which the steepest slope of a run is told, m. */
const STEEPEST_OVER_M = 50;

/**
 * Restates every split of a standing start or rolling run. Facts that are not known are never guessed: without them
 * there is no figure, and the result names them.
 */
export function restateRun(
  trace: Trace,
  measurement: RunMeasurement,
  circumstances: RunCircumstances,
  limits: RestateLimits = RESTATE_LIMITS,
): RestatedRun {
  const facts = knownCircumstances(circumstances);
  if ('missing' in facts) return nothing({ why: 'not-known', facts: facts.missing });
  const { known } = facts;
  const pull = traceToPull(trace, measurement);
  if (pull === undefined) return nothing({ why: 'few-readings' });
  const beyond = beyondRestating(known, pull, limits);
  if (beyond !== undefined) return nothing(beyond);

  const power = powerOf(known);
  const replays = makeReplays({ known, pull, power }, power.doubt);
  const { start } = measurement;
  const beginS = start?.firstMovementS ?? Number.NaN;
  const rolloutS = beginS + (start?.rolloutS ?? Number.NaN);
  const from = (rule: ClockRule, fromMps: number): Begins => {
    if (rule === 'first-movement') {
      return { atS: beginS, earlierS: replays.whole.earlierS, change: each => -each.earlierS };
    }
    if (rule === 'one-foot-rollout') {
      return { atS: rolloutS, earlierS: 0, change: each => each.distanceChangeS(rolloutS) };
    }
    const { beginIndex, endIndex, braking } = measurement.run;
    const last = braking?.beginIndex ?? endIndex;
    const atS = risingThrough(trace, beginIndex, last, fromMps)?.timeS ?? Number.NaN;
    return { atS, earlierS: 0, change: each => each.speedChangeS(atS) };
  };
  const figureOf = (
    split: Timed,
    fromMps: number,
    changeAt: (each: Replay, atS: number) => number,
  ): RestatedFigure | undefined => {
    const begins = from(split.startRule, fromMps);
    const endS = begins.atS + split.timeS;
    return toFigure(
      split,
      replays,
      endS,
      begins.earlierS,
      each => changeAt(each, endS) - begins.change(each),
    );
  };
  const speedSplits = measurement.speedSplits.flatMap((split): RestatedSpeedSplit[] => {
    const { fromMps, toMps, startRule } = split;
    const figure = figureOf(split, fromMps, (each, atS) => each.speedChangeS(atS));
    return figure === undefined ? [] : [{ fromMps, toMps, startRule, ...figure }];
  });
  const distanceSplits = measurement.distanceSplits.flatMap((split): RestatedDistanceSplit[] => {
    const { toM, startRule } = split;
    const figure = figureOf(split, 0, (each, atS) => each.distanceChangeS(atS));
    return figure === undefined ? [] : [{ toM, startRule, ...figure }];
  });
  return { speedSplits, distanceSplits, power: power.says };
}

/** The flag of a run that was not restated; undefined where it was. */
export function notRestatedFlag({ notRestated }: RestatedRun): Flag | undefined {
  return notRestated && { code: 'not-restated', text: notRestated.text };
}

/** The restated figure of a measured split. */
export const restatedSpeed = (restated: RestatedRun, split: SpeedSplit): RestatedSpeedSplit | undefined =>
  restated.speedSplits.find(
    ({ fromMps, toMps, startRule }) =>
      fromMps === split.fromMps && toMps === split.toMps && startRule === split.startRule,
  );

export const restatedDistance = (
  restated: RestatedRun,
  split: DistanceSplit,
): RestatedDistanceSplit | undefined =>
  restated.distanceSplits.find(({ toM, startRule }) => toM === split.toM && startRule === split.startRule);

const nothing = (reason: NotRestatedWhy): RestatedRun => ({
  speedSplits: [],
  distanceSplits: [],
  notRestated: {
    missing: reason.why === 'not-known' ? reason.facts.map(fact => restateWords('en').fact[fact]) : [],
    reason,
    text: notRestatedInWords(reason, 'en'),
  },
});

function beyondRestating(
  { headwindMps, densityKgm3, road }: KnownCircumstances,
  pull: Pull,
  limits: RestateLimits,
): NotRestatedWhy | undefined {
  if (Math.abs(headwindMps) > limits.headwindMps) {
    return { why: 'wind', mps: Math.abs(headwindMps), limitMps: limits.headwindMps };
  }
  const share = densityKgm3 / REFERENCE_DENSITY_KGM3 - 1;
  if (Math.abs(share) > limits.densityShare) {
    return { why: 'density', percent: share * 100, limitPercent: limits.densityShare * 100 };
  }
  const lengthM = pull.distanceM[pull.distanceM.length - 1]!;
  for (let fromM = 0; fromM < lengthM; fromM += STEEPEST_OVER_M) {
    const slope = road.meanSlope(fromM, fromM + STEEPEST_OVER_M);
    if (Math.abs(slope) > limits.slope) {
      return { why: 'slope', percent: slope * 100, afterM: fromM, limitPercent: limits.slope * 100 };
    }
  }
  return undefined;
}

/** What the air of the day did to the engine, as far as a standard tells, and how well that is known. */
interface Power extends PowerChange {
  /** Standard uncertainty of the change. */
  readonly doubt: number;
  readonly says: PowerSays;
}

function powerOf({ drive, air }: KnownCircumstances): Power {
  const day = defaultPowerCorrection(drive, engineAir(air));
  const reference = defaultPowerCorrection(drive, engineAir(REFERENCE_AIR));
  const share = (day.factor ?? 1) / (reference.factor ?? 1) - 1;
  if (day.allowed && reference.allowed) {
    return {
      change: share,
      perDensity: PRESSURE_EXPONENT,
      doubt: POWER_UNCERTAINTY * Math.abs(share),
      says: { corrected: true },
    };
  }
  return {
    change: 0,
    perDensity: 0,
    doubt: Math.abs(share) / Math.sqrt(3),
    says: {
      corrected: false,
      ...(day.allowed ? {} : { refusal: day.refusal }),
      // Where the formula is known but stands no longer, what it would have said is how far one may be wrong.
      stays: drive === 'electric' ? 'none' : share === 0 ? 'in the figure' : 'uncertain',
    },
  };
}

const engineAir = (air: KnownCircumstances['air']) => ({
  temperatureK: air.temperatureK,
  dryPressurePa: dryPressurePa(air),
});

interface Replays {
  readonly whole: Replay;
  /** By the set of conditions that have their reference value, as bits in the order of `CONDITIONS`. */
  readonly bySet: readonly Replay[];
  /** Each input moved by its standard uncertainty up and down. */
  readonly moved: readonly { readonly source: RestatedSource; readonly up: Replay; readonly down: Replay }[];
  readonly launchBySpeed: Replay;
}

/** What restating needs of a measured split, whatever it is measured to. */
type Timed = Pick<SpeedSplit, 'startRule' | 'timeS' | 'uncertaintyS'>;

/** Where a split begins. */
interface Begins {
  readonly atS: number;
  /** By how much earlier the car moves on the reference road, where the split begins with that, s. */
  readonly earlierS: number;
  /** Change of the instant it begins, s. */
  readonly change: (each: Replay) => number;
}

const ALL = (1 << CONDITIONS.length) - 1;

function makeReplays(workings: Workings, powerDoubt: number): Replays {
  const { pull, known } = workings;
  const { uncertainty } = known;
  const gainMps2 = gainsOf(workings);
  const run = (set: number, moved: Moved, launchByTime = true): Replay =>
    replay(
      pull,
      gainMps2(
        CONDITIONS.filter((_, bit) => set & (1 << bit)),
        moved,
      ),
      launchByTime,
    );
  const bySet = Array.from({ length: ALL + 1 }, (_, set) => run(set, AS_KNOWN));
  const steps: readonly (readonly [RestatedSource, keyof Moved, number])[] = [
    ['mass', 'mass', uncertainty.mass],
    ['drag-area', 'dragArea', uncertainty.dragArea],
    ['wind', 'headwindMps', uncertainty.headwindMps],
    ['slope', 'slope', 1],
    ['density', 'density', uncertainty.density],
    ['rotating-mass', 'rotating', ROTATING_UNCERTAINTY],
    ['power', 'power', powerDoubt],
    // Anything from none of it to all of it: a rectangle of width one.
    ['power', 'launchPower', powerDoubt === 0 ? 0 : 1 / Math.sqrt(12)],
  ];
  return {
    bySet,
    whole: bySet[ALL]!,
    moved: steps
      .filter(([, , by]) => by > 0)
      .map(([source, input, by]) => ({
        source,
        up: run(ALL, { ...AS_KNOWN, [input]: by }),
        down: run(ALL, { ...AS_KNOWN, [input]: -by }),
      })),
    launchBySpeed: run(ALL, AS_KNOWN, false),
  };
}

function toFigure(
  split: Timed,
  replays: Replays,
  endS: number,
  earlierS: number,
  change: (each: Replay) => number,
): RestatedFigure | undefined {
  const values = replays.bySet.map(change);
  const total = values[ALL]!;
  const budget = [
    { source: 'measured' as const, standard: split.uncertaintyS / COVERAGE_FACTOR },
    ...replays.moved.map(({ source, up, down }) => ({
      source,
      standard: Math.abs(change(up) - change(down)) / 2,
    })),
    // How a launch goes is not known: what either way of reckoning it changes is the half width of a rectangle.
    {
      source: 'launch' as const,
      standard: Math.hypot(change(replays.launchBySpeed) - total, earlierS) / Math.sqrt(3),
    },
    { source: 'acceleration' as const, standard: replays.whole.noiseS(endS) },
  ];
  const known = [...values, ...budget.map(({ standard }) => standard)];
  if (!known.every(Number.isFinite)) return undefined;
  return {
    timeS: split.timeS + total,
    uncertaintyS: COVERAGE_FACTOR * Math.hypot(...budget.map(({ standard }) => standard)),
    changesS: shares(values),
    budget: budget.filter(({ standard }) => standard > 0).sort((a, b) => b.standard - a.standard),
  };
}

/**
 * The whole change told apart by condition: the mean, over every order in which the conditions can be taken away,
 * of what taking each away changes (Shapley 1953). The parts add up to the whole whatever bends.
 */
function shares(values: readonly number[]): Record<Condition, number> {
  const factorial = [1, 1, 2, 6];
  const n = CONDITIONS.length;
  const share = (bit: number): number => {
    let sum = 0;
    for (let set = 0; set <= ALL; set++) {
      if (set & (1 << bit)) continue;
      const size = CONDITIONS.filter((_, other) => set & (1 << other)).length;
      const weight = (factorial[size]! * factorial[n - 1 - size]!) / factorial[n]!;
      sum += weight * (values[set | (1 << bit)]! - values[set]!);
    }
    return sum;
  };
  return { slope: share(0), wind: share(1), air: share(2) };
}
