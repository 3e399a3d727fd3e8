import { describe, expect, it } from 'vitest';
import { restatedSpeed } from '../../pipeline/conditions/restate.ts';
import type { TestContent } from '../../pipeline/content/schema.ts';
import { attemptToCircumstances, restateAttempt } from '../../pipeline/result/restate-attempt.ts';
import type { AttemptConditions, Car, Road } from '../../pipeline/result/result.ts';
import { simulatePair } from '../conditions/simulated-pair.ts';
import { AUTOMATIC_ESTATE } from '../simulate/cars.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { testFixture } from './fixture.ts';

const { content, car, road } = testFixture();
const TEST: TestContent = {
  ...content,
  as_tested: { ...content.as_tested, mass_kg: AUTOMATIC_ESTATE.massKg, mass_from: 'weighed' },
};
const CAR: Car = {
  ...car,
  drive: 'petrol',
  drag_area_m2: AUTOMATIC_ESTATE.dragAreaM2,
  rolling_resistance: AUTOMATIC_ESTATE.rollingResistance,
};
const ROAD: Road = { ...road, slope_pct: 0.2 };

/** The same car the same day, one way against wind and slope, the other with them. */
const driven = (way: 1 | -1) => {
  const random = randomFromSeed(12 + way);
  const day = {
    slopePct: 0.2 * way,
    headwindMps: 2.5 * way,
    temperatureK: 290,
    relativeHumidity: 0.5,
    densityShare: 0.02,
  };
  const { trace, measurement, circumstances, referenceTruth } = simulatePair({
    car: AUTOMATIC_ESTATE,
    launch: AUTOMATIC_ESTATE.launches[0]!,
    day,
    receiver: { rateHz: 25, noiseMps: 0.015 },
    random,
  });
  const conditions: AttemptConditions = {
    readAt: '10:00',
    temperatureK: 290,
    pressurePa: circumstances.air.pressurePa!,
    relativeHumidity: 0.5,
    windMps: 2.5,
    headwindMps: 2.5 * way,
    slopePct: 0.2 * way,
  };
  return { attempt: { trace, measurement, conditions }, referenceTruth };
};

describe('an attempt', () => {
  it('comes to the same restated figure whichever way it was driven', () => {
    const [there, back] = ([1, -1] as const).map(way => {
      const { attempt, referenceTruth } = driven(way);
      const restated = restateAttempt(attempt, TEST, CAR, ROAD)!;
      const split = attempt.measurement.speedSplits.find(
        ({ toMps, startRule }) => Math.abs(toMps - 100 / 3.6) < 1e-9 && startRule === 'one-foot-rollout',
      )!;
      const truth = referenceTruth.speedSplits.find(({ toMps }) => Math.abs(toMps - 100 / 3.6) < 1e-9)!;
      return { measuredS: split.timeS, figure: restatedSpeed(restated, split)!, trueS: truth.rolloutTimeS };
    });
    expect(there!.measuredS - back!.measuredS).toBeGreaterThan(0.2);
    expect(Math.abs(there!.figure.timeS - back!.figure.timeS)).toBeLessThan(0.03);
    expect(Math.abs(there!.figure.timeS - there!.trueS)).toBeLessThan(0.03);
  });

  it('is not restated where the content lacks a fact, and the answer names it', () => {
    const { attempt } = driven(1);
    const { drag_area_m2: _, ...plain } = CAR;
    expect(restateAttempt(attempt, TEST, plain, ROAD)?.notRestated?.text).toContain('drag area');
    const { headwindMps: __, ...noDirection } = attempt.conditions;
    const unknown = restateAttempt({ ...attempt, conditions: noDirection }, TEST, CAR, ROAD);
    expect(unknown?.notRestated?.missing).toEqual(['wind along the run']);
  });

  it('is restated only where it is a standing start', () => {
    const { attempt } = driven(1);
    const braking = { ...attempt.measurement, run: { ...attempt.measurement.run, kind: 'braking' as const } };
    expect(restateAttempt({ ...attempt, measurement: braking }, TEST, CAR, ROAD)).toBeUndefined();
  });

  it('is surer of a mass that was weighed, and of a road that is even', () => {
    const { attempt } = driven(1);
    const of = (test: TestContent, place: Road) =>
      attemptToCircumstances(attempt, test, CAR, place).uncertainty!;
    const workedOut: TestContent = {
      ...TEST,
      as_tested: { ...TEST.as_tested, mass_from: 'worked-out' },
    };
    expect(of(workedOut, ROAD).mass).toBeGreaterThan(of(TEST, ROAD).mass!);
    const uneven: Road = {
      ...ROAD,
      profile: [
        [0, 0],
        [400, 4],
        [800, 0],
        [1200, 4],
      ],
    };
    expect(of(TEST, uneven).slope).toBeGreaterThan(5 * of(TEST, ROAD).slope!);
  });
});
