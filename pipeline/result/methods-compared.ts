/**
 * Launch methods, or directions, of one day against each other: how far apart their medians lie, between what
 * and what, and whether chance alone could have done it. The one verdict behind prose, tables, figures and overlays.
 */
import { mannWhitney, smallestPossibleP } from '../compare/mann-whitney.ts';
import { medianOf } from '../compare/repeats.ts';
import { shiftBetween } from '../compare/shift.ts';
import type { StartRule } from '../run/run.ts';
import { type FairBest, fairBestOf } from './fair-best.ts';
import { MEASURES } from './measures.ts';
import { attemptsReaching, launchMethodsOf } from './pick.ts';
import type { Attempt, House, MeasureId, ResultFilter, TestResult } from './result.ts';

/** Chance of ranking methods that do not differ, kept below this over all pairs compared. */
export const LEVEL = 0.05;
/** More attempts of one method than this are not counted out exactly. */
export const MOST_ATTEMPTS = 40;

/** One attempt as a number: SI, expanded uncertainty of its own timing, place in the day. */
export interface ComparedAttempt {
  readonly id: string;
  readonly place: number;
  readonly value: number;
  readonly uncertainty?: number;
}

export interface Method {
  readonly id: string;
  readonly name: string;
  readonly figures: FairBest;
  /** Kept attempts that reached the measure, in the day's order. */
  readonly attempts: readonly ComparedAttempt[];
}

/**
 * `apart`: one is ahead, beyond chance and beyond the timing. `too-close`: not shown. `too-few`: so few attempts
 * that nothing could have been shown, whatever they were. `not-known`: no uncertainty can be stated, or more
 * attempts than are counted out.
 */
export type PairVerdict = 'apart' | 'too-close' | 'too-few' | 'not-known';

export interface MethodPair {
  /** Better median; the first named where they are equal. */
  readonly ahead: Method;
  readonly behind: Method;
  /** By how much the median of `ahead` is better, SI, 0 or more. */
  readonly difference: number;
  /**
   * Between what that difference lies, about 95 %, negative where `behind` may be ahead: scatter between attempts
   * by the exact rank interval and the timing of single attempts, root sum of squares. Absent for too few.
   */
  readonly low?: number;
  readonly high?: number;
  /** Pairings of one attempt of each, and in how many `ahead` has the better, and the worse, figure. */
  readonly pairings: number;
  readonly won: number;
  readonly lost: number;
  /** Exact two-sided chance of ranks at least as uneven where nothing differs; and after Holm, over all pairs. */
  readonly p?: number;
  readonly adjustedP?: number;
  /** The smallest chance so many attempts can ever give. */
  readonly smallestP: number;
  /** Pairs the level is shared between, this one counted where it could differ. */
  readonly pairsCounted: number;
  readonly verdict: PairVerdict;
  /** Unbroken stretches of one method in the day's order, set aside ones counted: 2 is one after the other. */
  readonly stretches: number;
  /** What one was driven in or with that the other was not. */
  readonly unlike: readonly ('direction' | 'launch method' | 'surface')[];
}

export interface MethodsCompared {
  readonly measure: MeasureId;
  readonly startRule?: StartRule;
  /** Best median first; equal ones in the order given. */
  readonly methods: readonly Method[];
  /** Every pair, best medians first. */
  readonly pairs: readonly MethodPair[];
  /** Pairs with attempts enough to differ at all: those the level is shared between (Tarone, Biometrics 46, 1990). */
  readonly pairsCounted: number;
}

export interface MethodsAsked {
  readonly measure: MeasureId;
  readonly startRule: StartRule;
  /** Narrows all methods; a launch method where directions are compared. */
  readonly among?: ResultFilter;
}

/** Every launch method with a kept attempt that reached the measure, against every other. */
export function compareLaunchMethods(test: TestResult, house: House, asked: MethodsAsked): MethodsCompared {
  return compareFiltered(
    test,
    house,
    asked,
    'launch method',
    launchMethodsOf(test, house).map(({ id, name }) => ({ id, name, filter: { launch: id } })),
  );
}

/** The directions of the road against each other. */
export function compareDirections(test: TestResult, house: House, asked: MethodsAsked): MethodsCompared {
  return compareFiltered(
    test,
    house,
    asked,
    'direction',
    test.road.directions.map(({ id, name }) => ({ id, name, filter: { direction: id } })),
  );
}

interface Filtered {
  readonly id: string;
  readonly name: string;
  readonly filter: ResultFilter;
}

function compareFiltered(
  test: TestResult,
  house: House,
  { measure, startRule, among = {} }: MethodsAsked,
  differBy: 'launch method' | 'direction',
  parts: readonly Filtered[],
): MethodsCompared {
  const details = MEASURES[measure];
  const sign = details.better === 'lower' ? 1 : -1;
  const days = new Map<string, DayOf>();
  const methods = parts
    .flatMap(({ id, name, filter }): Method[] => {
      const query = { measure, startRule, ...among, ...filter };
      const figures = fairBestOf(test, house, query);
      if (figures === undefined) return [];
      const counted = attemptsReaching(test, query);
      days.set(id, { tried: test.attempts.filter(attempt => passes(attempt, query)), counted });
      const attempts = counted.map(
        (attempt): ComparedAttempt => ({
          id: attempt.id,
          place: attempt.number,
          ...details.valueOf(attempt.measurement, startRule)!,
        }),
      );
      return [{ id, name, figures, attempts: attempts.sort((a, b) => a.place - b.place) }];
    })
    .sort((a, b) => sign * (a.figures.median.value - b.figures.median.value));
  const plain = methods.flatMap((ahead, index) =>
    methods.slice(index + 1).map(behind => ({
      ...comparePair(ahead, behind, sign),
      ...circumstances(days.get(ahead.id)!, days.get(behind.id)!, differBy),
    })),
  );
  const counted = plain.filter(({ smallestP, p }) => p !== undefined && smallestP <= LEVEL);
  const adjusted = holm(counted.map(({ p }) => p!));
  const pairs = plain.map((pair): MethodPair => {
    const place = counted.indexOf(pair);
    const own = place < 0 ? pair : { ...pair, adjustedP: adjusted[place]! };
    return { ...own, pairsCounted: counted.length, verdict: verdictOf(own) };
  });
  return {
    measure,
    ...(details.fromRest ? { startRule } : {}),
    methods,
    pairs,
    pairsCounted: counted.length,
  };
}

const passes = (attempt: Attempt, { launch, direction }: ResultFilter): boolean =>
  (launch === undefined || attempt.launchId === launch) &&
  (direction === undefined || attempt.directionId === direction);

type PlainPair = Omit<MethodPair, 'verdict' | 'stretches' | 'unlike' | 'pairsCounted'>;

function comparePair(ahead: Method, behind: Method, sign: 1 | -1): PlainPair {
  // Turned so that smaller is better.
  const [a, b] = [ahead, behind].map(({ attempts }) => attempts.map(({ value }) => sign * value)) as [
    number[],
    number[],
  ];
  const difference = medianOf(b) - medianOf(a);
  const pairings = a.length * b.length;
  if (a.length > MOST_ATTEMPTS || b.length > MOST_ATTEMPTS) {
    return { ahead, behind, difference, pairings, won: 0, lost: 0, smallestP: 0 };
  }
  const { interval, larger, smaller } = shiftBetween(a, b, 1 - LEVEL);
  const timing = Math.hypot(...[ahead, behind].map(timingOf));
  return {
    ahead,
    behind,
    difference,
    ...(interval === undefined || Number.isNaN(timing)
      ? {}
      : {
          // The interval belongs to the shift of all values; it is widened where it misses that of the medians.
          low: difference - Math.hypot(Math.max(0, difference - interval.low), timing),
          high: difference + Math.hypot(Math.max(0, interval.high - difference), timing),
        }),
    pairings,
    won: larger,
    lost: smaller,
    p: mannWhitney(a, b).p,
    smallestP: smallestPossibleP(a.length, b.length),
  };
}

/** The largest of the attempts' own expanded uncertainties, as for a median; NaN where one is not known. */
const timingOf = ({ attempts }: Method): number =>
  Math.max(...attempts.map(({ uncertainty }) => uncertainty ?? Number.NaN));

/** Chances adjusted for how many were looked at, in the order given (Holm, Scand. J. Stat. 6, 1979). */
export function holm(chances: readonly number[]): readonly number[] {
  const order = chances.map((_, index) => index).sort((a, b) => chances[a]! - chances[b]!);
  const adjusted = new Array<number>(chances.length);
  let least = 0;
  order.forEach((index, rank) => {
    least = Math.max(least, Math.min(1, (chances.length - rank) * chances[index]!));
    adjusted[index] = least;
  });
  return adjusted;
}

function verdictOf({ ahead, behind, p, adjustedP, low, won, pairings }: PlainPair): PairVerdict {
  if (p === undefined || Number.isNaN(timingOf(ahead) + timingOf(behind))) return 'not-known';
  if (adjustedP === undefined || low === undefined) return 'too-few';
  // As uneven as so few attempts can be, and still not enough among so many pairs.
  if (adjustedP > LEVEL && won === pairings) return 'too-few';
  return adjustedP <= LEVEL && low > 0 ? 'apart' : 'too-close';
}

/** What two methods should have shared, and where an attempt tells it. */
const SHARED: Readonly<Record<MethodPair['unlike'][number], (attempt: Attempt) => string | undefined>> = {
  direction: ({ directionId }) => directionId,
  'launch method': ({ launchId }) => launchId,
  surface: ({ conditions }) => conditions.surface,
};

interface DayOf {
  /** Set aside ones and those of other runs counted: they heat tyres and clutch as well. */
  readonly tried: readonly Attempt[];
  /** Those that the figures are from. */
  readonly counted: readonly Attempt[];
}

/** How the day was shared between two methods, apart from what they differ by. */
function circumstances(
  a: DayOf,
  b: DayOf,
  differBy: MethodPair['unlike'][number],
): Pick<MethodPair, 'stretches' | 'unlike'> {
  const order = [...a.tried, ...b.tried]
    .sort((x, y) => x.number - y.number)
    .map(attempt => a.tried.includes(attempt));
  const all = ({ counted }: DayOf, what: MethodPair['unlike'][number]): string =>
    [...new Set(counted.map(attempt => SHARED[what](attempt) ?? ''))].sort().join();
  return {
    stretches: order.filter((isA, index) => index === 0 || isA !== order[index - 1]).length,
    unlike: (Object.keys(SHARED) as MethodPair['unlike'][number][]).filter(
      what => what !== differBy && all(a, what) !== all(b, what),
    ),
  };
}
