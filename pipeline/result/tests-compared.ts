/**
 * Tests of different days, roads or cars side by side: the difference of their medians with both days' scatter,
 * which conditions were alike, and who is ahead only where the conditions that matter let it be said.
 */

import { repeatsOf } from '../compare/repeats.ts';
import type { RunMeasurement } from '../measurement/measurement.ts';
import { onceOf } from '../once-of.ts';
import type { StartRule } from '../run/run.ts';
import { type ConditionVerdict, comparabilityOf } from './comparability.ts';
import { type Comparison, compareResults } from './compare.ts';
import { type FairBest, fairBestOf } from './fair-best.ts';
import { MEASURES, type MeasuredValue } from './measures.ts';
import { attemptsReaching, medianUncertainty } from './pick.ts';
import type { Attempt, House, MeasureId, Result, ResultQuery, TestResult } from './result.ts';
import { conditionsWords } from './words/conditions.ts';
import { dateInWords } from './words.ts';

/** One test's share of a comparison. */
export interface TestSide {
  readonly test: TestResult;
  /** Tells the tests apart: car, or car and date. */
  readonly name: string;
  readonly figures: FairBest;
  /** Median of the same attempts restated; absent where any of them could not be. */
  readonly restated?: Result;
}

export type TestsVerdict = 'first' | 'second' | 'too-close' | 'not-alike' | 'not-known';

export interface TestsCompared {
  readonly measure: MeasureId;
  /** Absent where no clock starts from rest. */
  readonly startRule?: StartRule;
  /** The launch method that both were narrowed to; absent where all count. */
  readonly launch?: { readonly id: string; readonly name: string };
  readonly first: TestSide;
  readonly second: TestSide;
  /** Of the medians, first minus second, SI. */
  readonly measured: Comparison;
  readonly restated?: Comparison;
  readonly conditions: readonly ConditionVerdict[];
  /** Conditions that stand against ranking. */
  readonly against: readonly ConditionVerdict[];
  /** Who is ahead, or why nobody is. */
  readonly verdict: TestsVerdict;
}

export interface TestsAsked {
  readonly measure: MeasureId;
  readonly startRule: StartRule;
  /** A launch method by its id; the one both tests used most where absent; null for all of them. */
  readonly launch?: string | null;
  /** Where they are told apart among more than two. */
  readonly names?: readonly [string, string];
}

/**
 * Two tests by the medians of a measure; undefined where either has no kept attempt that reached it.
 * Figures from rest are narrowed to the launch method that both tried twice or more, and most often.
 */
export function compareTests(
  tests: readonly [TestResult, TestResult],
  house: House,
  { measure, startRule, launch, names }: TestsAsked,
): TestsCompared | undefined {
  const common =
    launch === undefined
      ? MEASURES[measure].fromRest
        ? commonLaunch(measure, tests, house)
        : undefined
      : house.launch_methods.find(({ id }) => id === launch);
  const query: ResultQuery = { measure, startRule, ...(common === undefined ? {} : { launch: common.id }) };
  const [name, otherName] = names ?? testNames(tests, house);
  const first = sideOf(tests[0], name!, house, query);
  const second = sideOf(tests[1], otherName!, house, query);
  if (first === undefined || second === undefined) return undefined;
  const measured = compareResults(first.figures.median, second.figures.median);
  const restated =
    first.restated === undefined || second.restated === undefined
      ? undefined
      : compareResults(first.restated, second.restated);
  const conditions = comparabilityOf(...tests, {
    attempts: [attemptsReaching(tests[0], query), attemptsReaching(tests[1], query)],
    startRules: [startRule, startRule],
    language: house.language,
  });
  const plain = { measure, first, second, measured, ...(restated === undefined ? {} : { restated }) };
  const against = conditions.filter(each => standsAgainst(each, plain));
  return {
    ...plain,
    conditions,
    against,
    ...(MEASURES[measure].fromRest ? { startRule } : {}),
    ...(common === undefined ? {} : { launch: { id: common.id, name: common.name } }),
    verdict: verdictOf(plain, against),
  };
}

type PlainComparison = Pick<TestsCompared, 'measure' | 'first' | 'second' | 'measured' | 'restated'>;

function verdictOf(
  { measure, first, second, measured }: PlainComparison,
  against: readonly ConditionVerdict[],
): TestsVerdict {
  if (against.some(({ likeness }) => likeness === 'not-alike')) return 'not-alike';
  if (!Number.isFinite(measured.uncertainty) || against.length > 0) return 'not-known';
  // A single attempt shows nothing of its day's scatter.
  if (first.figures.n < 2 || second.figures.n < 2) return 'not-known';
  if (measured.tooCloseToCall) return 'too-close';
  return measured.difference < 0 === (MEASURES[measure].better === 'lower') ? 'first' : 'second';
}

type Condition = ConditionVerdict['condition'];
/** Conditions that a restated figure is free of. */
const RESTATED_AWAY: ReadonlySet<Condition> = new Set<Condition>(['density', 'wind', 'slope']);
/** Conditions that must be known to be alike, and those that must not be known to differ. */
const MUST_BE_ALIKE: ReadonlySet<Condition> = new Set<Condition>(['surface', 'start-rule']);
const MUST_NOT_DIFFER: ReadonlySet<Condition> = new Set<Condition>(['temperature']);

/**
 * Whether a condition keeps two tests from being ranked. Nothing makes up for another surface, start rule or
 * temperature. Air density, wind and slope that are not alike stand against it unless both tests are restated and
 * come out in the same order there; load, unless the difference is more than it can have made. Rate and number of
 * attempts are in the uncertainty already.
 */
function standsAgainst(
  { condition, likeness }: ConditionVerdict,
  { first, second, measured, restated, measure }: PlainComparison,
): boolean {
  if (likeness === 'alike') return false;
  if (MUST_BE_ALIKE.has(condition)) return true;
  if (likeness === 'not-known') return false;
  if (MUST_NOT_DIFFER.has(condition)) return true;
  if (condition === 'load') {
    return Math.abs(measured.difference) <= measured.uncertainty + loadAllowance(measure, first, second);
  }
  const sameOrder =
    restated !== undefined &&
    !restated.tooCloseToCall &&
    Math.sign(restated.difference) === Math.sign(measured.difference);
  return RESTATED_AWAY.has(condition) && !sameOrder;
}

/**
 * The most that a difference in load can have made of two medians, SI: at the same force, acceleration goes as one
 * over mass, so a time, or a speed or an acceleration, changes by at most the share of the mass. Stopping distances
 * are limited by the tyres and do not depend on mass to this order. 0 where the lighter laden test is behind.
 */
function loadAllowance(measure: MeasureId, first: TestSide, second: TestSide): number {
  const { unit, better } = MEASURES[measure];
  if (unit === 'm' || measure.startsWith('mfdd')) return 0;
  const [a, b] = [first, second].map(({ test }) => ({
    load: test.content.as_tested.mass_kg - test.car.kerb_mass_kg,
    mass: test.content.as_tested.mass_kg,
  })) as [Laden, Laden];
  const [heavy, light] = a.load > b.load ? [first, second] : [second, first];
  const heavyBehind =
    better === 'lower'
      ? heavy.figures.median.value > light.figures.median.value
      : heavy.figures.median.value < light.figures.median.value;
  return heavyBehind
    ? (heavy.figures.median.value * Math.abs(a.load - b.load)) / Math.min(a.mass, b.mass)
    : 0;
}

interface Laden {
  readonly load: number;
  readonly mass: number;
}

/** The launch method that every test tried twice or more, and most often; undefined where there is none. */
export function commonLaunch(
  measure: MeasureId,
  tests: readonly TestResult[],
  house: House,
): { readonly id: string; readonly name: string } | undefined {
  const counted = house.launch_methods.map(({ id, name }) => ({
    id,
    name,
    n: Math.min(...tests.map(test => attemptsReaching(test, { measure, launch: id }).length)),
  }));
  return counted.filter(({ n }) => n >= 2).sort((a, b) => b.n - a.n)[0];
}

/** Short names that tell tests apart: the car, with its date where a car comes twice, with its id where that does. */
export function testNames(tests: readonly TestResult[], house: House): readonly string[] {
  const ofHouse = onceOf(named, tests, () => new WeakMap<House, readonly string[]>());
  return onceOf(ofHouse, house, () => namesOf(tests, house));
}
/** Asked for once a test of an archive, of the same tests each time. */
const named = new WeakMap<readonly TestResult[], WeakMap<House, readonly string[]>>();

function namesOf(tests: readonly TestResult[], house: House): readonly string[] {
  const cars = tests.map(({ car }) => car.short_name);
  const dated = tests.map(({ car, content }) =>
    conditionsWords(house).carOn(car.short_name, dateInWords(content.date, house.language)),
  );
  const ofCar = Map.groupBy(cars, name => name);
  const ofDate = Map.groupBy(dated, name => name);
  return tests.map(({ id }, index) => {
    const [car, date] = [cars[index]!, dated[index]!];
    if (ofCar.get(car)!.length === 1) return car;
    return ofDate.get(date)!.length === 1 ? date : `${date}, ${id}`;
  });
}

function sideOf(test: TestResult, name: string, house: House, query: ResultQuery): TestSide | undefined {
  const figures = fairBestOf(test, house, query);
  if (figures === undefined) return undefined;
  const restated = restatedMedian(test, figures.median, query);
  return { test, name, figures, ...(restated === undefined ? {} : { restated }) };
}

/** The median of all a query's attempts restated; undefined unless each of them was. */
function restatedMedian(test: TestResult, median: Result, query: ResultQuery): Result | undefined {
  const attempts = attemptsReaching(test, query);
  const values = attempts.flatMap(attempt => restatedValue(attempt, query) ?? []);
  if (values.length < attempts.length) return undefined;
  const value = repeatsOf(values.map(each => each.value)).median;
  const uncertainty = medianUncertainty(values, value);
  const { uncertainty: _, medianUncertainty: __, ...rest } = median;
  const known = uncertainty === undefined ? {} : { uncertainty, medianUncertainty: uncertainty };
  return { ...rest, value, median: value, ...known };
}

/** The figure of one attempt on the level reference road; undefined where it was not restated. SI. */
export function restatedValue(
  { measurement, restated }: Attempt,
  { measure, startRule }: Pick<ResultQuery, 'measure' | 'startRule'>,
): MeasuredValue | undefined {
  if (restated === undefined || MEASURES[measure].unit !== 's') return undefined;
  const asMeasured: RunMeasurement = {
    ...measurement,
    speedSplits: restated.speedSplits.map(({ fromMps, toMps, startRule: rule, timeS, uncertaintyS }) => ({
      fromMps,
      toMps,
      startRule: rule,
      timeS,
      uncertaintyS,
      distanceM: Number.NaN,
    })),
    distanceSplits: restated.distanceSplits.flatMap(({ toM, startRule: rule, timeS, uncertaintyS }) =>
      rule === 'rolling' ? [] : [{ toM, startRule: rule, timeS, uncertaintyS, speedMps: Number.NaN }],
    ),
  };
  return MEASURES[measure].valueOf(asMeasured, startRule);
}
