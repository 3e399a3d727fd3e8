import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balanceSpeedMps, HIGHWAY_CODE, roadLoad, stoppingDistance } from '../../pipeline/road/road-load.ts';

const car = { massKg: 1500, rollingResistance: 0.012, dragAreaM2: 0.65 };
const air = { densityKgm3: 1.2 };

describe('roadLoad', () => {
  it('turns with slope and wind', () => {
    const level = roadLoad(car, 20, air);
    expect(level.gradeN).toBe(0);
    expect(level.totalN).toBe(level.rollingN + level.dragN);
    expect(roadLoad(car, 20, air, -0.02).gradeN).toBeCloseTo(-roadLoad(car, 20, air, 0.02).gradeN, 9);
    expect(roadLoad(car, 20, { ...air, headwindMps: 20 }).dragN).toBeCloseTo(4 * level.dragN, 9);
    expect(roadLoad(car, 20, { ...air, headwindMps: -20 }).dragN).toBe(0);
    expect(roadLoad(car, 20, { ...air, headwindMps: -40 }).dragN).toBeCloseTo(-level.dragN, 9);
  });
});

describe('balanceSpeedMps', () => {
  it('is the speed at which power and load meet', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5e3, max: 4e5, noNaN: true }),
        fc.double({ min: 0, max: 0.1, noNaN: true }),
        (powerW, slope) => {
          const speed = balanceSpeedMps(car, powerW, air, slope);
          expect(roadLoad(car, speed, air, slope).totalN * speed).toBeCloseTo(powerW, 3);
          expect(balanceSpeedMps(car, powerW * 1.1, air, slope)).toBeGreaterThan(speed);
        },
      ),
    );
  });

  it('is nothing without power and without bound where nothing holds the car', () => {
    expect(balanceSpeedMps(car, 0, air)).toBe(0);
    expect(balanceSpeedMps({ ...car, rollingResistance: 0, dragAreaM2: 0 }, 1000, air)).toBe(
      Number.POSITIVE_INFINITY,
    );
  });
});

describe('stoppingDistance', () => {
  it('doubles its thinking and quadruples its braking at twice the speed', () => {
    const one = stoppingDistance(15, HIGHWAY_CODE);
    const two = stoppingDistance(30, HIGHWAY_CODE);
    expect(two.thinkingM).toBeCloseTo(2 * one.thinkingM, 9);
    expect(two.brakingM).toBeCloseTo(4 * one.brakingM, 9);
    expect(two.totalM).toBe(two.thinkingM + two.brakingM);
  });

  it('is nothing at rest, and refused without brakes', () => {
    expect(stoppingDistance(0, HIGHWAY_CODE).totalM).toBe(0);
    for (const decelerationMps2 of [0, -1, Number.NaN]) {
      expect(() => stoppingDistance(10, { reactionTimeS: 1, decelerationMps2 })).toThrow(RangeError);
    }
  });
});
