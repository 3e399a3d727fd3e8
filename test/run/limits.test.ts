/** Each rule of what counts as a run, just within it and just beyond. */
import { describe, expect, it } from 'vitest';
import { findRuns } from '../../pipeline/run/find.ts';
import { findLaunches } from '../../pipeline/run/launches.ts';
import { accelerations, decelerations } from '../../pipeline/run/phases.ts';
import { firstAtLeast, highestIn, indexAtOrAfter } from '../../pipeline/run/readings.ts';
import * as rules from '../../pipeline/run/rules.ts';
import type { Trace } from '../../pipeline/trace/trace.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { type Point, traceOf } from '../trace/points.ts';
import { driven, type Leg, traceOfLegs } from './legs.ts';

describe('looking among readings', () => {
  const values = Float64Array.of(3, 1, 4, 4, 2);

  it('gives the first that is at least a limit, the limit itself counting', () => {
    expect(firstAtLeast(values, 0, 4, 3)).toBe(0);
    expect(firstAtLeast(values, 1, 4, 3)).toBe(2);
    expect(firstAtLeast(values, 1, 2, 4)).toBe(2);
    expect(firstAtLeast(values, 1, 1, 2)).toBeUndefined();
    expect(firstAtLeast(values, 0, 4, 5)).toBeUndefined();
  });

  it('gives the last of the greatest', () => {
    expect(highestIn(values, 0, 4)).toBe(3);
    expect(highestIn(values, 0, 2)).toBe(2);
    expect(highestIn(values, 0, 1)).toBe(0);
    expect(highestIn(values, 4, 4)).toBe(4);
  });

  it('gives the first of rising ones that is not before a limit', () => {
    const rising = Float64Array.of(1, 2, 4, 8);
    expect([0, 1, 1.5, 2, 3, 8, 9].map(limit => indexAtOrAfter(rising, limit))).toEqual([
      0, 0, 1, 1, 2, 3, 4,
    ]);
    expect(indexAtOrAfter(new Float64Array(), 1)).toBe(0);
  });
});

describe('stretches of gaining and losing speed', () => {
  const A = rules.ACCELERATING_MPS2;
  const B = rules.BRAKING_MPS2;

  it('begin and end with the readings that gain more than the limit, which itself is too little', () => {
    const trace = traceOf([0, 1, 2, 3, 4, 5].map(t => [10 * t, 0]));
    expect(accelerations(trace, Float64Array.of(A, 2 * A, A + 1e-9, A, 0, 2 * A))).toEqual([
      { beginIndex: 1, endIndex: 2 },
      { beginIndex: 5, endIndex: 5 },
    ]);
    expect(decelerations(trace, Float64Array.of(-B, -B - 1e-9, -2 * B, -B, B, -2 * B))).toEqual([
      { beginIndex: 1, endIndex: 2 },
      { beginIndex: 5, endIndex: 5 },
    ]);
  });

  /** One reading that gains, a pause, and one that gains again. */
  const gains = (pauseS: number, lossMps: number): number =>
    accelerations(
      traceOf([
        [-1.25, lossMps],
        [0, 0],
        [pauseS - 1.25, 0],
      ]),
      Float64Array.of(1, 0, 1),
    ).length;
  const losses = (pauseS: number): number =>
    decelerations(
      traceOf([
        [-0.25, 9],
        [0, 9],
        [pauseS - 0.25, 9],
      ]),
      Float64Array.of(-3, 0, -3),
    ).length;

  it('go on over a gear change as long and as deep as the limits, and no more', () => {
    expect(gains(rules.SHIFT_LONGEST_S, rules.SHIFT_DEEPEST_MPS)).toBe(1);
    expect(gains(rules.SHIFT_LONGEST_S + 1e-9, 0)).toBe(2);
    expect(gains(1, rules.SHIFT_DEEPEST_MPS + 1e-9)).toBe(2);
  });

  it('of braking go on over brakes released for as long as the limit, and no longer', () => {
    expect(losses(rules.BRAKING_PAUSE_S)).toBe(1);
    expect(losses(rules.BRAKING_PAUSE_S + 1e-9)).toBe(2);
  });
});

const FROM = rules.LAUNCH_FROM_MPS;
const TO = rules.LAUNCH_TO_MPS;
const LIMIT_MPS = 0.25;

/** Departures from rest; each begins at its own time 0 with the first reading at `LAUNCH_FROM_MPS`, after a stand. */
function launches(departures: readonly (readonly Point[])[], more: Partial<Trace> = {}, gaining = true) {
  const points: Point[] = [];
  const stands = [];
  const gains = [];
  let atS = 0;
  for (const departure of departures) {
    const before = departure[0]![0];
    stands.push({ beginIndex: points.length, endIndex: points.length + 2 });
    for (const restS of [2, 1, 0]) points.push([atS + before - 2 - restS, 0]);
    const begin = points.length;
    points.push(...departure.map(([t, v]): Point => [atS + t, v]));
    if (gaining) gains.push({ beginIndex: begin, endIndex: points.length - 1 });
    atS += 100;
  }
  const trace = traceOf(points, more);
  return findLaunches(trace, stands, gains, LIMIT_MPS).map(
    ({ beginIndex, endIndex, status }) => [trace.timeS[beginIndex]!, trace.timeS[endIndex]!, status] as const,
  );
}
const count = (...departures: (readonly Point[])[]): number => launches(departures).length;
/** So hard that nothing counts beside it but what counts by itself. */
const HARDEST: readonly Point[] = [
  [0, FROM],
  [0.1, TO],
];
const steady = (mps2: number, toMps: number = TO): readonly Point[] => [
  [0, FROM],
  [(toMps - FROM) / mps2, toMps],
];
const LESS = 1 - 1e-9;

describe('a departure counts as a standing start', () => {
  it('by itself from the mean acceleration of a launch on', () => {
    expect(count(steady(rules.LAUNCH_MPS2), HARDEST)).toBe(2);
    expect(count(steady(rules.LAUNCH_MPS2 * LESS), HARDEST)).toBe(1);
  });

  it('by itself where it was given up early but hard', () => {
    expect(count(steady(rules.LAUNCH_SHORT_MPS2, rules.LAUNCH_SHORT_TO_MPS))).toBe(1);
    expect(count(steady(rules.LAUNCH_SHORT_MPS2 * LESS, rules.LAUNCH_SHORT_TO_MPS))).toBe(0);
    expect(count(steady(9, rules.LAUNCH_SHORT_TO_MPS * LESS))).toBe(0);
  });

  it('by itself where it is slow but holds on', () => {
    /** Slower than a sustained start at first. */
    const slow = (mps2: number, endMps: number): readonly Point[] => [
      [0, FROM],
      [(rules.SUSTAINED_EARLY_TO_MPS - FROM) / (0.9 * mps2), rules.SUSTAINED_EARLY_TO_MPS],
      [(TO - FROM) / mps2, TO],
      [(TO - FROM) / mps2 + 9, endMps],
    ];
    const end = rules.COMPLETE_MPS;
    expect(count(slow(rules.LAUNCH_SLOW_MPS2, end), HARDEST)).toBe(2);
    expect(count(slow(rules.LAUNCH_SLOW_MPS2, end * LESS), HARDEST)).toBe(1);
    expect(count(slow(rules.LAUNCH_SLOW_MPS2 * LESS, end), HARDEST)).toBe(1);
  });

  it('where it is sustained from early on, beside starts not much harder', () => {
    expect(count(steady(rules.SUSTAINED_MPS2))).toBe(1);
    expect(count(steady(rules.SUSTAINED_MPS2 * LESS))).toBe(0);
    const late: readonly Point[] = [
      [0, FROM],
      [(rules.SUSTAINED_EARLY_TO_MPS - FROM) / (rules.SUSTAINED_MPS2 * LESS), rules.SUSTAINED_EARLY_TO_MPS],
      [(TO - FROM) / 1.5, TO],
    ];
    expect(count(late)).toBe(0);
    const beside = (share: number): number => count(steady(1.9 * share), steady(1.9));
    expect(beside(rules.SUSTAINED_SHARE + 0.01)).toBe(2);
    expect(beside(rules.SUSTAINED_SHARE - 0.01)).toBe(1);
  });

  it('only if it left rest no earlier than the limit, with one interval of grace', () => {
    const leaving = (earlierS: number): readonly Point[] => [
      [-earlierS + 2, LIMIT_MPS],
      [0, FROM],
      [3, TO],
    ];
    // The stand ends two seconds before the first point; readings come once a second.
    expect(count(leaving(rules.LAUNCH_LATEST_S + 1))).toBe(1);
    expect(count(leaving(rules.LAUNCH_LATEST_S + 1 + 1e-9))).toBe(0);
  });

  it('and is complete from the speed of a complete start on', () => {
    const ending = (mps: number) => launches([[...steady(4), [8, mps]]])[0]![2];
    expect(ending(rules.COMPLETE_MPS)).toBe('complete');
    expect(ending(rules.COMPLETE_MPS * LESS)).toBe('aborted');
  });
});

describe('a standing start', () => {
  it('begins with the last reading that noise alone explains, a second back at most', () => {
    const rising = (mps: number, sinceS = 0.5): number =>
      launches([
        [
          [-0.5 - sinceS, mps],
          [-0.5, 0.2],
          [0, FROM],
          [2, TO],
        ],
      ])[0]![0];
    const rest = rules.REST_NOISE_SDS * 0.01;
    expect(rising(rest * LESS)).toBe(-1);
    expect(rising(rest)).toBe(-3);
    expect(rising(rest, 1)).toBe(-3.5);
    expect(rising(rest, 1.01)).toBe(-0.5);
    // With more than a second between, the limit for standing holds.
    expect(
      launches([
        [
          [-2.6, rest],
          [-1.5, rest],
          [-0.5, 0.2],
          [0, FROM],
          [2, TO],
        ],
      ])[0]![0],
    ).toBe(-0.5);
  });

  it('that is sustained ends at its highest reading, also where no stretch of it gains speed all along', () => {
    const sustained = [[...steady(1.3), [20, TO + 3], [25, TO]]] as const;
    expect(launches(sustained)[0]![1]).toBe(20);
    expect(launches(sustained, {}, false)[0]![1]).toBeCloseTo((TO - FROM) / 1.3, 9);
  });

  it('that is sustained is none where speed falls further than a gear change lets it', () => {
    const early = (lossMps: number): number =>
      launches(
        [
          [
            [0, FROM],
            [2, 6],
            [4, 9],
            [5, 9 - lossMps],
            [9, TO],
          ],
        ],
        { rateHz: 1 },
      ).length;
    expect(early(rules.SHIFT_DEEPEST_MPS)).toBe(1);
    expect(early(rules.SHIFT_DEEPEST_MPS + 1e-9)).toBe(0);
  });
});

describe('runs on the move', () => {
  const STAND: Leg = ['hold', 4];
  const runs = (...legs: Leg[]) => driven([STAND, ...legs, STAND], 25);

  it('that brake count from the speed and the mean deceleration of the rules on', () => {
    const braked = (fromKmh: number, mps2: number) =>
      runs(['to', fromKmh, 1], ['hold', 12], ['to', 0, mps2]).length;
    expect([braked(51, 6), braked(49, 6)]).toEqual([1, 0]);
    expect([braked(90, 3.1), braked(90, 2.9)]).toEqual([1, 0]);
  });

  it('take braking that follows soon enough', () => {
    const following = (pauseS: number) => runs(['to', 110, 4], ['hold', pauseS], ['to', 0, 8]);
    expect(following(19)).toEqual(['standing-start complete with braking']);
    expect(following(21)).toEqual(['standing-start complete', 'braking complete']);
  });

  it('roll from the speed and with the power of the rules on', () => {
    const rolling = (fromKmh: number, toKmh: number, mps2: number) =>
      runs(['to', fromKmh, 1], ['hold', 12], ['to', toKmh, mps2], ['hold', 3], ['to', 0, 1.5]).length;
    expect([rolling(37, 90, 2), rolling(33, 90, 2)]).toEqual([1, 0]);
    // From 60 to 100 km/h, 22.2 m/s on average: 18 W/kg is 0.81 m/s².
    expect([rolling(55, 103, 0.84), rolling(55, 103, 0.78)]).toEqual([1, 0]);
    // A pull that covers no split.
    expect(rolling(62, 98, 3)).toBe(0);
  });

  it('brake on where the brakes were let go for less than the rules allow', () => {
    const eased = (pauseS: number) =>
      runs(['to', 120, 1], ['hold', 12], ['to', 80, 7], ['hold', pauseS], ['to', 0, 7]);
    expect(eased(0.3)).toEqual(['braking complete']);
    expect(kmhToMps(80)).toBeGreaterThan(rules.BRAKING_FROM_MPS);
    expect(eased(6)).toEqual(['braking complete']);
  });

  it('brake from the reading where braking begins, however long the car coasted before', () => {
    const trace = traceOfLegs([STAND, ['to', 120, 1], ['to', 100, 0.5], ['to', 0, 8], STAND], 25);
    const [run] = findRuns(trace);
    // 4 s of rest, 33.3 s up, 11.1 s of coasting.
    const onsetS = 4 + 100 / 3 + 100 / 9;
    const beganS = trace.timeS[run!.beginIndex]! - onsetS;
    expect(run!.kind).toBe('braking');
    expect(beganS).toBeGreaterThan(-1.6);
    expect(beganS).toBeLessThan(0.1);
  });

  it('come in the order of time, each with its own braking', () => {
    expect(
      runs(
        ['to', 45, 1.1],
        ['hold', 4],
        ['to', 125, 2.2],
        ['to', 0, 1.5],
        STAND,
        ['to', 110, 4],
        ['hold', 1],
        ['to', 0, 8],
      ),
    ).toEqual(['rolling complete', 'standing-start complete with braking']);
  });
});
