import { describe, expect, it } from 'vitest';
import { constantSlope } from '../../pipeline/conditions/slope.ts';
import { type PlannedCar, planRoad } from '../../pipeline/road/plan.ts';
import { brakingDistanceM } from '../../pipeline/road/plan-braking.ts';
import { carForPlan } from '../../pipeline/road/plan-car.ts';
import {
  type DescribedCar,
  estimatedPull,
  NO_BURDEN,
  scaledToTime,
  timeToSpeedS,
} from '../../pipeline/road/plan-estimate.ts';
import { HIGHWAY_CODE } from '../../pipeline/road/road-load.ts';
import { roundToDecimals } from '../../pipeline/round.ts';
import { HORSEPOWER_W, kmhToMps, mphToMps, POUND_KG } from '../../pipeline/units.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

const LEVEL = constantSlope(0);
const same = <T>(one: T) => ({ adverse: one, middle: one, favourable: one });

/** The plan of a car that slows as the table behind the UK Highway Code has it, and holds its speed while reacting. */
function plannedStop(speedMps: number) {
  const car: PlannedCar = {
    pull: same(() => 3),
    pullingOn: same(() => 3),
    decelerationMps2: same(() => HIGHWAY_CODE.decelerationMps2),
    apparentMass: 1,
    measuredToMps: 0,
  };
  const driving = {
    reactionTimeS: HIGHWAY_CODE.reactionTimeS,
    whileReacting: 'holds',
    buildUpS: 0,
    reserveM: 0,
    fromMps: 0,
  } as const;
  const row = planRoad(car, { lengthM: 2000, slope: LEVEL }, driving, [speedMps]).rows[0]!;
  return { thinkingM: row.reactionM.middle, brakingM: row.brakingM.middle };
}

/** UK Highway Code rule 126, as printed: whole metres, totals of rounded parts. */
const row = (entry: CheckValue): void => {
  const { thinkingM, brakingM } = plannedStop(mphToMps(entry.inputs.mph));
  expectWithin(
    {
      thinking_m: thinkingM,
      braking_m: brakingM,
      total_m: thinkingM + brakingM,
      model_m: thinkingM + brakingM,
    },
    entry,
  );
  const printed = Number(roundToDecimals(thinkingM, 0)) + Number(roundToDecimals(brakingM, 0));
  expect(printed).toBe(entry.expected.total_m);
};

describeCheckValues('stopping distances of a road plan', {
  'highway-code.20': row,
  'highway-code.30': row,
  'highway-code.40': row,
  'highway-code.50': row,
  'highway-code.60': row,
  'highway-code.70': row,
  'brake.ramp': entry =>
    expectWithin(brakingDistanceM(kmhToMps(100), 0, { decelerationMps2: 8, buildUpS: 0.2 }, LEVEL), entry),
});

/**
 * Common practice, no source: on a road a little over 1 km long a car that needs under about 5 s to 100 km/h has room
 * for 200 km/h with braking and reserve, one that needs clearly more has not. Assumed here: 1100 m, level, dry, still
 * air; power from the time to 100 km/h; one second of reaction; brakes of 9 m/s² in full after 0.2 s; 100 m in reserve.
 */
describe('a road of 1100 m, common practice', () => {
  const driving = {
    reactionTimeS: 1,
    whileReacting: 'pulls',
    buildUpS: 0.2,
    reserveM: 100,
    fromMps: 0,
  } as const;
  const fast: DescribedCar = {
    massKg: 1650,
    powerW: 250_000,
    drive: 'petrol-boosted',
    drivenWheels: 'all',
    dragAreaM2: 0.62,
    rollingResistance: 0.011,
  };
  const highestKmh = (car: DescribedCar): number => {
    const { car: planned } = carForPlan(car, NO_BURDEN, {}, false, 9);
    const { highest } = planRoad(planned, { lengthM: 1100, slope: LEVEL }, driving);
    expect(highest.middle.limitedBy).toBe('road');
    return highest.middle.speedMps * 3.6;
  };
  const needing = (timeS: number, car = fast): number => {
    const scaled = scaledToTime(car, kmhToMps(100), timeS);
    expect(timeToSpeedS(estimatedPull(scaled, NO_BURDEN).middle, kmhToMps(100))).toBeCloseTo(timeS, 3);
    return highestKmh(scaled);
  };

  it.each([4, 4.5, 4.8])('has room for 200 km/h for a car that needs %d s to 100 km/h', timeS => {
    expect(needing(timeS)).toBeGreaterThan(200);
  });

  it.each([6, 7, 9, 12])('has no room for 200 km/h for a car that needs %d s to 100 km/h', timeS => {
    expect(needing(timeS)).toBeLessThan(200);
  });

  it('has less room for a car that is held back by two driven wheels and as quick to 100 km/h', () => {
    const twoWheels: DescribedCar = { ...fast, drivenWheels: 'rear' };
    expect(needing(6.5, twoWheels)).toBeLessThan(200);
  });
});

/**
 * 400 recorded cars (open data of the 1970s and 1980s): time to 60 mph over m v²/2P lies between 1.5266 and 3.5190,
 * gross power; no car beats constant power.
 */
describe('estimates of cars from their power and mass', () => {
  const LEAST = 1.5266;
  const MOST = 3.519;
  // Rows 0 to 2 of the same data: horsepower, pounds, seconds.
  const recorded = [
    [130, 3504, 12],
    [165, 3693, 11.5],
    [150, 3436, 11],
  ] as const;

  it.each(recorded)(
    'keep the time of a car of %d hp and %d lb, %d s, within their bounds',
    (hp, lb, timeS) => {
      const massKg = lb * POUND_KG + 100;
      const car: DescribedCar = { massKg, powerW: hp * HORSEPOWER_W, drive: 'petrol', drivenWheels: 'rear' };
      const pull = estimatedPull(car, NO_BURDEN);
      // Gross power of an engine on a bench without its fan and silencer: bounds reach to the slower side only.
      expect(timeToSpeedS(pull.favourable, mphToMps(60))).toBeLessThan(timeS);
      expect(timeToSpeedS(pull.adverse, mphToMps(60))).toBeGreaterThan(timeS);
    },
  );

  it.each([
    [1100, 60_000],
    [1500, 110_000],
    [1700, 150_000],
    [1900, 220_000],
    [2300, 105_000],
  ])('lie inside what recorded cars did, %d kg and %d W', (massKg, powerW) => {
    const v = mphToMps(60);
    const ratio = (drive: DescribedCar['drive']): number =>
      timeToSpeedS(estimatedPull({ massKg, powerW, drive, drivenWheels: 'front' }, NO_BURDEN).middle, v) /
      ((massKg * v * v) / (2 * powerW));
    expect(ratio('petrol-boosted')).toBeGreaterThan(LEAST);
    expect(ratio('petrol-boosted')).toBeLessThan(MOST);
    // The recorded cars all have gears; of an electric car it holds that none beats constant power.
    expect(ratio('electric')).toBeGreaterThan(1);
    expect(ratio('electric')).toBeLessThan(ratio('petrol-boosted'));
  });
});
