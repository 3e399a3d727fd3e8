/** Slopes from altitude without noise: which drives count, and what their mean and scatter come to by hand. */
import { describe, expect, it } from 'vitest';
import {
  BIN_M,
  type Pass,
  slopeFromPasses,
  tracePasses,
  traceToPass,
} from '../../pipeline/conditions/logged-slope.ts';
import { destination } from '../../pipeline/geodesy.ts';
import { type Point, traceOf } from '../trace/points.ts';

const LINE = { latitudeDeg: 52, longitudeDeg: 1, headingDeg: 40 };

/** A drive along a bearing from the line's place on, with altitude rising by a share of the distance. */
function driven(points: readonly Point[], bearingDeg = LINE.headingDeg, slope = 0.01, fromM = 0) {
  const trace = traceOf(points);
  const places = [...trace.distanceM].map(m =>
    destination(LINE.latitudeDeg, LINE.longitudeDeg, bearingDeg, fromM + m),
  );
  return {
    ...trace,
    channels: {
      latitudeDeg: Float64Array.from(places, ({ latitudeDeg }) => latitudeDeg),
      longitudeDeg: Float64Array.from(places, ({ longitudeDeg }) => longitudeDeg),
      altitudeM: trace.distanceM.map(m => 80 + slope * m),
    },
  };
}
const steady = (mps: number, forS: number, from = 0): Point[] =>
  Array.from({ length: forS + 1 }, (_, t): Point => [from + t, mps]);
const passes = (points: readonly Point[], bearingDeg?: number) =>
  tracePasses(driven(points, bearingDeg), LINE);

describe('a drive along the road', () => {
  it('counts from a speed and a length on', () => {
    expect(passes(steady(4, 40))).toHaveLength(1);
    expect(passes(steady(3.999, 40))).toHaveLength(0);
    expect(passes(steady(5, 30))).toHaveLength(1);
    expect(passes(steady(4.99, 30))).toHaveLength(0);
  });

  it('ends where the car slows down, and another may begin', () => {
    const points: Point[] = [...steady(10, 20), [21, 1], ...steady(10, 16, 22)];
    const found = passes(points);
    expect(found.map(({ alongM }) => alongM.length)).toEqual([21, 17]);
    expect(found[0]!.alongM[0]).toBeCloseTo(0, 6);
    expect(found[0]!.alongM.at(-1)).toBeCloseTo(200, 3);
    expect(found[1]!.altitudeM[0]).toBeCloseTo(80 + 0.01 * 211, 6);
  });

  it('counts only where it goes along the road, one bin given', () => {
    // Over 1000 m, 0.95 less one bin of 50 m is 0.9: within 25.8°.
    expect(passes(steady(20, 50), LINE.headingDeg + 25)).toHaveLength(1);
    expect(passes(steady(20, 50), LINE.headingDeg + 27)).toHaveLength(0);
    expect(passes(steady(20, 50), LINE.headingDeg + 180)).toHaveLength(1);
  });

  it('is no pass without positions or altitude, and leaves out readings that have none', () => {
    const whole = driven(steady(10, 20));
    const without = (name: 'latitudeDeg' | 'longitudeDeg' | 'altitudeM') => {
      const { [name]: _, ...channels } = whole.channels;
      return traceToPass({ ...whole, channels }, 0, 20, LINE);
    };
    expect([without('latitudeDeg'), without('longitudeDeg'), without('altitudeM')]).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
    whole.channels.altitudeM[3] = Number.NaN;
    whole.channels.latitudeDeg[5] = Number.NaN;
    expect(traceToPass(whole, 2, 7, LINE)!.alongM).toHaveLength(4);
    expect(
      traceToPass(driven(steady(10, 20), LINE.headingDeg + 180), 0, 20, LINE)!.alongM.at(-1),
    ).toBeCloseTo(-200, 2);
  });
});

/** A pass over a straight road from one place to another, offset in height. */
const passOver = (slope: number, fromM: number, toM: number, offsetM = 0): Pass => {
  const alongM = Float64Array.from({ length: (toM - fromM) / 5 + 1 }, (_, i) => fromM + 5 * i);
  return { alongM, altitudeM: alongM.map(m => 70 + offsetM + slope * m) };
};
const decided = (list: readonly Pass[]) => {
  const answer = slopeFromPasses(list);
  if (!answer.decided) throw new Error(`${answer.passes} passes`);
  return answer.slope;
};

describe('the slope of passes', () => {
  it('has the mean of theirs, and of their scatter the root of its square over their number', () => {
    const slope = decided([0.001, 0.002, 0.003, 0.006].map((each, k) => passOver(each, -40, 840, 10 * k)));
    expect(slope.meanSlope).toBeCloseTo(0.003, 12);
    // Deviations −2, −1, 0 and 3 in a thousand: 14/3 is the variance, over four passes.
    expect(slope.standardUncertainty).toBeCloseTo(0.001 * Math.sqrt(14 / 3 / 4), 12);
    expect(slope.passes).toBe(4);
    // From the first multiple of 50 m with readings on both sides to the last.
    expect([slope.profile.fromM, slope.profile.toM]).toEqual([0, 800]);
    expect(slope.profile.heightAt(400)).toBeCloseTo(1.2, 9);
  });

  it('is told of a bent road bin by bin, from the straight line within each', () => {
    const bent = (m: number): number => (m < 300 ? 0 : 0.02 * (m - 300));
    const list = Array.from({ length: 4 }, (_, k): Pass => {
      const pass = passOver(0, 0, 600, k);
      return { ...pass, altitudeM: pass.alongM.map(m => 50 + k + bent(m)) };
    });
    const { profile } = decided(list);
    expect(profile.slopeAt(120)).toBeCloseTo(0, 9);
    expect(profile.slopeAt(480)).toBeCloseTo(0.02, 9);
    expect(profile.heightAt(500) - profile.heightAt(400)).toBeCloseTo(2, 9);
    expect(BIN_M).toBe(50);
  });

  it('does not hang on where within a bin the readings lie', () => {
    const list = [0.004, 0.006, 0.005, 0.005].map((slope, k): Pass => {
      const alongM = Float64Array.from({ length: 110 }, (_, i) => 7.3 * i + 0.002 * i * i);
      return { alongM, altitudeM: alongM.map(m => 60 + 5 * k + slope * m) };
    });
    const slope = decided(list);
    expect(slope.meanSlope).toBeCloseTo(0.005, 12);
    expect(slope.profile.fromM).toBe(0);
    expect(slope.profile.heightAt(450)).toBeCloseTo(2.25, 9);
  });

  it('takes the stretch that is known best: long, and by many', () => {
    // Over 1000 m by four, 2000; over 500 m by eight, 500 × √12, 1732.
    const four = Array.from({ length: 4 }, () => passOver(0.004, 0, 1000));
    const eight = Array.from({ length: 8 }, () => passOver(0.004, 0, 500));
    const long = decided([...four, ...eight]);
    expect([long.profile.toM, long.passes]).toEqual([1000, 4]);
    // By twelve more: 500 × √24 is 2449.
    const twelve = Array.from({ length: 12 }, () => passOver(0.004, 0, 500));
    const short = decided([...four, ...eight, ...twelve]);
    expect([short.profile.toM, short.passes]).toEqual([500, 24]);
  });

  it('needs four of them over one stretch, without a hole', () => {
    const three = Array.from({ length: 3 }, () => passOver(0.004, 0, 500));
    expect(slopeFromPasses(three)).toEqual({ decided: false, passes: 3 });
    expect(
      slopeFromPasses([...three, { alongM: new Float64Array(), altitudeM: new Float64Array() }]),
    ).toEqual({
      decided: false,
      passes: 3,
    });
    const whole = passOver(0.004, 0, 500);
    const kept = [...whole.alongM.keys()].filter(i => whole.alongM[i]! < 170 || whole.alongM[i]! > 280);
    const holed: Pass = {
      alongM: Float64Array.from(kept, i => whole.alongM[i]!),
      altitudeM: Float64Array.from(kept, i => whole.altitudeM[i]!),
    };
    // 200 and 250 m are not gone over: the longest run of that pass is from 300 to 500 m.
    const { profile } = decided([...three, holed]);
    expect([profile.fromM, profile.toM]).toEqual([300, 500]);
    // A hole after the very first place: that place alone leads nowhere.
    const late = [...whole.alongM.keys()].filter(i => whole.alongM[i]! < 20 || whole.alongM[i]! > 80);
    const broken: Pass = {
      alongM: Float64Array.from(late, i => whole.alongM[i]!),
      altitudeM: Float64Array.from(late, i => whole.altitudeM[i]!),
    };
    expect(decided([...three, broken]).profile.fromM).toBe(100);
  });
});
