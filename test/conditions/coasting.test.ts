/** Coasting without noise: where a coast-down begins and ends, and car, wind and slope out of the closed form. */
import { describe, expect, it } from 'vitest';
import {
  COAST_WHEEL_SHARE,
  COASTING,
  type CoastDownAnswer,
  type DirectedCoastDown,
  estimateCoastDown,
  findCoastDowns,
} from '../../pipeline/conditions/coast-down.ts';
import { STANDARD_GRAVITY_MPS2 } from '../../pipeline/units.ts';
import { type Point, traceOf } from '../trace/points.ts';

const RATE_HZ = 10;

/** Pieces of constant deceleration, m/s², each for some seconds, from a speed on. */
function slowing(fromMps: number, pieces: readonly (readonly [mps2: number, forS: number])[]): Point[] {
  const points: Point[] = [[0, fromMps]];
  let k = 0;
  for (const [mps2, forS] of pieces) {
    for (let n = 0; n < Math.round(forS * RATE_HZ); n++) {
      points.push([++k / RATE_HZ, points.at(-1)![1] - mps2 / RATE_HZ]);
    }
  }
  return points;
}
const found = (fromMps: number, ...pieces: (readonly [mps2: number, forS: number])[]) => {
  const trace = traceOf(slowing(fromMps, pieces), { rateHz: RATE_HZ });
  return findCoastDowns(trace).map(({ beginIndex, endIndex }) => ({
    fromS: trace.timeS[beginIndex]!,
    toS: trace.timeS[endIndex]!,
    lostMps: trace.speedMps[beginIndex]! - trace.speedMps[endIndex]!,
  }));
};

describe('a coast-down', () => {
  it('lies a half width of the line inside the slowing, which begins where the line first shows it', () => {
    const [one, ...more] = found(30, [0, 5], [0.4, 30], [6, 3]);
    expect(more).toEqual([]);
    // Until the line lies wholly in the slowing, at 6 s, it rises by more than a coast-down may.
    expect(one!.fromS).toBeGreaterThan(6);
    expect(one!.fromS).toBeLessThan(7);
    expect(one!.toS).toBeGreaterThan(32.5);
    expect(one!.toS).toBeLessThan(34);
  });

  it('is long enough and loses enough, or is none', () => {
    // At 1 m/s² the loss is large: only the length counts. One reading less each time, until there is none.
    const lengths = Array.from({ length: 40 }, (_, k) => found(33, [0, 3], [1, 14 - k / RATE_HZ], [6, 2])[0])
      .filter(one => one !== undefined)
      .map(({ fromS, toS }) => toS - fromS);
    expect(Math.min(...lengths)).toBeCloseTo(COASTING.shortestS, 6);
    expect(lengths.length).toBeLessThan(40);
    // At 0.3 m/s² it takes 23 s to lose 25 km/h.
    const losses = Array.from({ length: 60 }, (_, k) => found(33, [0, 3], [0.3, 28 - k / RATE_HZ], [6, 2])[0])
      .filter(one => one !== undefined)
      .map(({ lostMps }) => lostMps);
    expect(Math.min(...losses)).toBeGreaterThanOrEqual(COASTING.smallestLossMps);
    expect(Math.min(...losses)).toBeLessThan(COASTING.smallestLossMps + 0.031);
    expect(losses.length).toBeLessThan(60);
  });

  it('is neither gentler than a car that is driven nor harder than one without brakes', () => {
    expect(found(33, [0.042, 200], [6, 2])).toHaveLength(1);
    expect(found(33, [0.038, 220], [6, 2])).toHaveLength(0);
    expect(found(33, [1.19, 20], [6, 2])).toHaveLength(1);
    expect(found(33, [1.21, 20], [6, 2])).toHaveLength(0);
  });

  it('ends where the car slows more than before by more than the rise allowed, and below the slowest speed', () => {
    expect(found(33, [0.3, 30], [0.41, 20])[0]!.toS).toBeGreaterThan(45);
    expect(found(33, [0.3, 30], [0.43, 20])[0]!.toS).toBeLessThan(31);
    // A car that slows less and less, then as at first: more than the least so far by 0.2.
    expect(found(33, [0.5, 10], [0.3, 20], [0.5, 20])[0]!.toS).toBeLessThan(31);
    const slowest = found(20, [0.4, 60])[0]!;
    // 15 km/h are 4.167 m/s: reached after 39.6 s; a second is left out before it.
    expect(slowest.toS).toBeCloseTo(38.5, 0);
  });

  it('goes on to the end of the log, and stops at a gap', () => {
    expect(found(33, [0.4, 40])[0]!.toS).toBeCloseTo(39, 6);
    const points = slowing(33, [[0.4, 60]]);
    const trace = traceOf(points, { rateHz: RATE_HZ, gaps: [{ index: 300, fromS: 30, toS: 30.1 }] });
    expect(findCoastDowns(trace).map(({ beginIndex, endIndex }) => [beginIndex, endIndex])).toEqual([
      [10, 290],
      [312, 590],
    ]);
  });
});

const CAR = { massKg: 1480, densityKgm3: 1.2 };
const TRUE = { dragAreaM2: 0.62, rollingResistance: 0.011, headwindMps: 1.5, slope: 0.002 };

/** The closed form of m(1 + s) dv/dt = −m g (c + way·slope) − ρ/2 CdA (v + way·wind)². */
function coasted(way: 1 | -1, change: Partial<typeof TRUE> = {}, toS = 60, fromMps = 32): DirectedCoastDown {
  const { dragAreaM2, rollingResistance, headwindMps, slope } = { ...TRUE, ...change };
  const constant = CAR.massKg * STANDARD_GRAVITY_MPS2 * (rollingResistance + way * slope);
  const quadratic = (CAR.densityKgm3 / 2) * dragAreaM2;
  const apparentKg = CAR.massKg * (1 + COAST_WHEEL_SHARE);
  const begin = Math.atan((fromMps + way * headwindMps) * Math.sqrt(quadratic / constant));
  const speedAt = (t: number): number =>
    Math.sqrt(constant / quadratic) * Math.tan(begin - (t * Math.sqrt(constant * quadratic)) / apparentKg) -
    way * headwindMps;
  const points = Array.from(
    { length: toS * RATE_HZ + 1 },
    (_, i): Point => [i / RATE_HZ, speedAt(i / RATE_HZ)],
  );
  return {
    trace: traceOf(points, { noiseMps: 0 }),
    coastDown: { beginIndex: 0, endIndex: points.length - 1 },
    way,
  };
}
const decided = (answer: CoastDownAnswer) => {
  if (!answer.decided) throw new Error(answer.reason.why);
  return answer.estimate;
};
const BOTH_WAYS = [coasted(1), coasted(-1), coasted(1), coasted(-1)];

describe('car, wind and slope from coasting without noise', () => {
  it('are those of the closed form', () => {
    const estimate = decided(estimateCoastDown(BOTH_WAYS, CAR));
    for (const name of ['dragAreaM2', 'rollingResistance', 'headwindMps', 'slope'] as const) {
      expect(Math.abs(estimate[name] / TRUE[name] - 1), name).toBeLessThan(1e-4);
    }
    expect([estimate.runs, estimate.fewerThanAdvised]).toEqual([4, true]);
    // Runs that are all alike leave the doubt of the mass alone, 1.2 %.
    expect(estimate.dragAreaStandardM2 / estimate.dragAreaM2).toBeCloseTo(0.012, 6);
    expect(estimate.rollingResistanceStandard / estimate.rollingResistance).toBeCloseTo(0.012, 6);
  });

  it('grow with the wheels’ share of the mass', () => {
    const whole = decided(estimateCoastDown(BOTH_WAYS, CAR));
    const none = decided(estimateCoastDown(BOTH_WAYS, { ...CAR, wheelShare: 0 }));
    for (const name of ['dragAreaM2', 'rollingResistance', 'slope'] as const) {
      expect(whole[name] / none[name]).toBeCloseTo(1 + COAST_WHEEL_SHARE, 9);
    }
    expect(none.headwindMps).toBe(whole.headwindMps);
  });

  it('are doubtful by as much as they change when each run is left out', () => {
    const six = [0.62, 0.64, 0.6, 0.62, 0.62, 0.61].map((dragAreaM2, k) =>
      coasted(k % 2 === 0 ? 1 : -1, { dragAreaM2 }),
    );
    const left = six.map((_, out) =>
      decided(
        estimateCoastDown(
          six.filter((__, i) => i !== out),
          CAR,
        ),
      ),
    );
    const all = decided(estimateCoastDown(six, CAR));
    // Tukey 1958: (n − 1)/n times the sum of squares about the mean.
    const jackknife = (of: (one: (typeof left)[0]) => number): number => {
      const mean = left.reduce((sum, one) => sum + of(one), 0) / 6;
      return Math.sqrt((5 / 6) * left.reduce((sum, one) => sum + (of(one) - mean) ** 2, 0));
    };
    expect(all.dragAreaStandardM2).toBeCloseTo(
      Math.hypot(
        jackknife(one => one.dragAreaM2),
        0.012 * all.dragAreaM2,
      ),
      9,
    );
    expect(all.rollingResistanceStandard).toBeCloseTo(
      Math.hypot(
        jackknife(one => one.rollingResistance),
        0.012 * all.rollingResistance,
      ),
      9,
    );
  });

  it('are doubtful by what a road that steepens would change, in proportion to it', () => {
    const doubt = (unevenness: number): number => {
      const { dragAreaStandardM2, dragAreaM2 } = decided(estimateCoastDown(BOTH_WAYS, CAR, { unevenness }));
      return Math.sqrt(dragAreaStandardM2 ** 2 - (0.012 * dragAreaM2) ** 2);
    };
    expect(doubt(0.0002)).toBeGreaterThan(0.001);
    expect(doubt(0.0004) / doubt(0.0002)).toBeCloseTo(2, 3);
  });

  it('are advised from eight runs each way on', () => {
    const eight = Array.from({ length: 8 }, () => BOTH_WAYS.slice(0, 2)).flat();
    expect(decided(estimateCoastDown(eight, CAR)).fewerThanAdvised).toBe(false);
    expect(decided(estimateCoastDown(eight.slice(1), CAR)).fewerThanAdvised).toBe(true);
  });
});

describe('coasting decides nothing', () => {
  const refusal = (runs: readonly DirectedCoastDown[]) => {
    const answer = estimateCoastDown(runs, CAR);
    return answer.decided ? undefined : answer.reason;
  };

  it('with fewer than two runs each way', () => {
    expect(refusal(BOTH_WAYS.slice(0, 3))).toEqual({ why: 'few', there: 2, back: 1, fewest: 2 });
    expect(refusal(BOTH_WAYS.filter(({ way }) => way === -1))).toEqual({
      why: 'few',
      there: 0,
      back: 2,
      fewest: 2,
    });
  });

  it('over less than 1.6 to one of speed', () => {
    const cut = (toMps: number) =>
      BOTH_WAYS.map(run => {
        const endIndex = run.trace.speedMps.findIndex(speed => speed < toMps);
        return { ...run, coastDown: { beginIndex: 0, endIndex } };
      });
    // From 32 m/s: 20 m/s is the end of the range.
    expect(refusal(cut(20.2))).toEqual({ why: 'narrow' });
    expect(refusal(cut(19.98))).toBeUndefined();
    // Exactly 32 to 20 m/s is wide enough; that these know no drag is another matter.
    const even = traceOf(Array.from({ length: 61 }, (_, k): Point => [k / 2, 32 - k / 5]));
    const exact = ([1, -1, 1, -1] as const).map(way => ({
      trace: even,
      coastDown: { beginIndex: 0, endIndex: 60 },
      way,
    }));
    expect(even.speedMps[60]).toBe(20);
    expect(refusal(exact)?.why).not.toBe('narrow');
  });

  it('where the car would be pushed by its own drag, or the runs disagree', () => {
    const pushed = { dragAreaM2: -0.05, rollingResistance: 0.03 };
    // atan and tan of an imaginary number: put down by small steps instead.
    const rising = (way: 1 | -1): DirectedCoastDown => {
      const points: Point[] = [[0, 32]];
      for (let k = 1; k <= 600; k++) {
        const v = points.at(-1)![1];
        const force =
          CAR.massKg * STANDARD_GRAVITY_MPS2 * pushed.rollingResistance + 0.6 * pushed.dragAreaM2 * v * v;
        points.push([k / RATE_HZ, v - force / CAR.massKg / RATE_HZ]);
      }
      return { trace: traceOf(points, { noiseMps: 0 }), coastDown: { beginIndex: 0, endIndex: 600 }, way };
    };
    expect(refusal([rising(1), rising(-1), rising(1), rising(-1)])).toEqual({ why: 'negative' });
    const apart = refusal([
      coasted(1),
      coasted(-1, { dragAreaM2: 0.9 }),
      coasted(1, { dragAreaM2: 0.9 }),
      coasted(-1),
      coasted(1),
      coasted(-1),
    ]);
    expect(apart?.why).toBe('disagree');
    expect(apart?.why === 'disagree' && apart.percent).toBeGreaterThan(8);
  });
});
