import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Pass, slopeFromPasses, traceToPass } from '../../pipeline/conditions/logged-slope.ts';
import {
  constantSlope,
  drivenFrom,
  type ProfilePoint,
  surveyedSlope,
  TWO_WAY_STATEMENT,
  twoWayMean,
} from '../../pipeline/conditions/slope.ts';
import { destination } from '../../pipeline/geodesy.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import { ELECTRIC_HATCH } from '../simulate/cars.ts';
import { samplesToLog } from '../simulate/day.ts';
import { drive, STILL_DRY_AIR } from '../simulate/drive.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { receive } from '../simulate/receiver.ts';

const POINTS: readonly ProfilePoint[] = [
  [0, 10],
  [250, 10.4],
  [500, 10.2],
];

describe('a surveyed road', () => {
  const road = surveyedSlope(POINTS);

  it('is straight between its points and counts height from its first', () => {
    expect(road.heightAt(0)).toBe(0);
    expect(road.heightAt(125)).toBeCloseTo(0.2, 12);
    expect(road.heightAt(500)).toBeCloseTo(0.2, 12);
    expect(road.slopeAt(100)).toBeCloseTo(0.0016, 12);
    expect(road.slopeAt(300)).toBeCloseTo(-0.0008, 12);
    expect(road.meanSlope(0, 500)).toBeCloseTo(0.0004, 12);
  });

  it('goes on beyond its ends as its last stretch does', () => {
    expect(road.slopeAt(900)).toBe(road.slopeAt(400));
    expect(road.slopeAt(-5)).toBe(road.slopeAt(5));
  });

  it('rises the other way round where it is driven the other way', () => {
    const back = drivenFrom(road, 500, true);
    expect(back.heightAt(0)).toBeCloseTo(0, 15);
    expect(back.heightAt(250)).toBeCloseTo(0.2, 12);
    expect(back.slopeAt(300)).toBeCloseTo(-0.0016, 12);
    expect(back.fromM).toBeCloseTo(0, 15);
    expect(back.toM).toBe(500);
    fc.assert(
      fc.property(fc.double({ min: 1, max: 499, noNaN: true }), place => {
        expect(back.heightAt(500 - place)).toBeCloseTo(road.heightAt(place) - road.heightAt(500), 12);
      }),
    );
  });

  it('refuses points that do not go on', () => {
    expect(() => surveyedSlope([[0, 1]])).toThrow(RangeError);
    expect(() =>
      surveyedSlope([
        [0, 1],
        [0, 2],
      ]),
    ).toThrow(RangeError);
  });

  it('has one slope everywhere where one was stated, in percent', () => {
    expect(constantSlope(0.3).slopeAt(777)).toBeCloseTo(0.003, 15);
    expect(drivenFrom(constantSlope(0.3), 0, true).slopeAt(12)).toBeCloseTo(-0.003, 15);
  });
});

describe('two directions', () => {
  it('count once each, however often each was driven', () => {
    const { mean, halfDifference, says } = twoWayMean([8, 8, 8], [10]);
    expect(mean).toBe(9);
    expect(halfDifference).toBe(-1);
    expect(says).toBe(TWO_WAY_STATEMENT);
    expect(() => twoWayMean([], [1])).toThrow(RangeError);
  });
});

describe('slope from logged altitude', () => {
  /** Passes over a road of 0.4 %, with altitude off by a constant and wandering by a metre. */
  const passes = (count: number, wanderM: number, seed: number): Pass[] => {
    const random = randomFromSeed(seed);
    return Array.from({ length: count }, () => {
      const alongM = Float64Array.from({ length: 400 }, (_, i) => i * 2 + 25);
      const [offset, rate] = [random.normal() * 20, (random.normal() * wanderM) / 800];
      const altitudeM = alongM.map(along => 90 + offset + (0.004 + rate) * along + 0.02 * random.normal());
      return { alongM, altitudeM };
    });
  };

  it('finds the slope of passes that do not wander, whatever their offsets', () => {
    const answer = slopeFromPasses(passes(6, 0, 1));
    if (!answer.decided) throw new Error(`${answer.passes} passes`);
    expect(answer.slope.meanSlope).toBeCloseTo(0.004, 4);
    expect(answer.slope.profile.slopeAt(300)).toBeCloseTo(0.004, 3);
    expect(answer.slope.passes).toBe(6);
  });

  it('says how far the mean of wandering passes can be trusted', () => {
    let inside = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const answer = slopeFromPasses(passes(16, 1, seed));
      if (!answer.decided) throw new Error(`${answer.passes} passes`);
      if (Math.abs(answer.slope.meanSlope - 0.004) <= 2 * answer.slope.standardUncertainty) inside++;
    }
    // Student's t with 15 degrees of freedom leaves 6.4 % outside ± 2 u.
    expect(inside / 200).toBeGreaterThan(0.89);
    expect(inside / 200).toBeLessThan(0.985);
  });

  it('refuses too few passes', () => {
    expect(slopeFromPasses(passes(3, 0, 1))).toMatchObject({ decided: false });
    expect(slopeFromPasses([])).toMatchObject({ decided: false });
  });

  it('places the positions of a log along the road', () => {
    const driven = drive(ELECTRIC_HATCH, { headingDeg: 72 }, STILL_DRY_AIR, [
      { kind: 'stand', forS: 2 },
      { kind: 'travel-to', alongM: 600, cruiseMps: 20 },
    ]);
    const samples = receive(
      driven.trajectory,
      { rateHz: 10, noiseMps: 0.02, wanderM: 0.01 },
      randomFromSeed(3),
    );
    const { trace } = logToTrace(samplesToLog(samples));
    const line = {
      latitudeDeg: trace.channels.latitudeDeg![0]!,
      longitudeDeg: trace.channels.longitudeDeg![0]!,
      headingDeg: 72,
    };
    const pass = traceToPass(trace, 0, trace.timeS.length - 1, line);
    expect(pass?.alongM.at(-1)).toBeGreaterThan(598);
    expect(pass?.alongM.at(-1)).toBeLessThan(602);
    const place = destination(line.latitudeDeg, line.longitudeDeg, 72, pass!.alongM.at(-1)!);
    expect(place.latitudeDeg).toBeCloseTo(trace.channels.latitudeDeg!.at(-1)!, 5);
  });
});
