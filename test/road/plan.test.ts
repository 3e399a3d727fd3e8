import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { constantSlope, drivenFrom, surveyedSlope } from '../../pipeline/conditions/slope.ts';
import { type PlanDriving, type PlannedCar, planRoad, plusMinus } from '../../pipeline/road/plan.ts';
import { brakingDistanceM } from '../../pipeline/road/plan-braking.ts';
import { carForPlan, ESTIMATED_DECELERATION_MPS2, WET_FACTOR } from '../../pipeline/road/plan-car.ts';
import { type DescribedCar, NO_BURDEN } from '../../pipeline/road/plan-estimate.ts';
import { pullPath, reachedM } from '../../pipeline/road/plan-pull.ts';
import { kmhToMps, STANDARD_GRAVITY_MPS2 } from '../../pipeline/units.ts';

const LEVEL = constantSlope(0);
const same = <T>(one: T) => ({ adverse: one, middle: one, favourable: one });

/** Gains and loses speed at constant rates whatever the speed. */
const constantCar = (gainMps2: number, lossMps2: number): PlannedCar => ({
  pull: same(() => gainMps2),
  pullingOn: same(() => gainMps2),
  decelerationMps2: same(() => lossMps2),
  apparentMass: 1,
  measuredToMps: 0,
});
const DRIVING: PlanDriving = {
  reactionTimeS: 1,
  whileReacting: 'holds',
  buildUpS: 0,
  reserveM: 100,
  fromMps: 0,
};

describe('closed forms', () => {
  const rates = fc.record({
    gain: fc.double({ min: 0.8, max: 9, noNaN: true }),
    loss: fc.double({ min: 2, max: 11, noNaN: true }),
    speed: fc.double({ min: 5, max: 60, noNaN: true }),
  });

  it('reaches a speed after v²/2a, from rest and rolling', () => {
    fc.assert(
      fc.property(rates, fc.double({ min: 0, max: 4.9, noNaN: true }), ({ gain, speed }, from) => {
        const path = pullPath(() => gain, LEVEL, 5000, from);
        expect(reachedM(path, speed)).toBeCloseTo((speed ** 2 - from ** 2) / (2 * gain), 6);
      }),
    );
  });

  it('stops after v²/2b on a level road and v²/2(b + g s) on a slope', () => {
    fc.assert(
      fc.property(rates, fc.double({ min: -8, max: 8, noNaN: true }), ({ loss, speed }, slopePct) => {
        const slope = constantSlope(slopePct);
        const brakes = { decelerationMps2: loss, buildUpS: 0 };
        const net = loss + (STANDARD_GRAVITY_MPS2 * slopePct) / 100;
        expect(brakingDistanceM(speed, 300, brakes, slope)).toBeCloseTo(speed ** 2 / (2 * net), 5);
      }),
    );
  });

  it('sets the highest speed of a standing start where acceleration, reaction, braking and reserve fill the road', () => {
    fc.assert(
      fc.property(rates, fc.integer({ min: 300, max: 3000 }), ({ gain, loss }, lengthM) => {
        const { highest } = planRoad(constantCar(gain, loss), { lengthM, slope: LEVEL }, DRIVING);
        // v²/2a + v t + v²/2b = L − R
        const k = 1 / (2 * gain) + 1 / (2 * loss);
        const expected = (-1 + Math.sqrt(1 + 4 * k * (lengthM - 100))) / (2 * k);
        expect(highest.middle.speedMps).toBeCloseTo(expected, 6);
        expect(highest.middle.limitedBy).toBe('road');
      }),
    );
  });

  it('lets the car pull on through the reaction: v t + a t²/2, then braking from v + a t', () => {
    const [a, b, v, t] = [3, 8, kmhToMps(100), 1.2];
    const driving: PlanDriving = { ...DRIVING, reactionTimeS: t, whileReacting: 'pulls' };
    const plan = planRoad(constantCar(a, b), { lengthM: 1500, slope: LEVEL }, driving, [v]);
    const row = plan.rows[0]!;
    expect(row.reactionM.middle).toBeCloseTo(v * t + (a * t * t) / 2, 9);
    expect(row.brakeFromMps.middle).toBeCloseTo(v + a * t, 9);
    expect(row.brakingM.middle).toBeCloseTo((v + a * t) ** 2 / (2 * b), 6);
    expect(row.leftM.middle).toBeCloseTo(1500 - row.stoppedM.middle, 9);
  });

  it('places the last point to brake so that the stop from it ends at the reserve', () => {
    const road = surveyedSlope([
      [0, 0],
      [400, 6],
      [900, -4],
      [1600, 2],
    ]);
    const plan = planRoad(constantCar(3, 7), { lengthM: 1500, slope: road }, DRIVING);
    expect(plan.rows.length).toBeGreaterThan(5);
    for (const { speedMps, lastPointM, reactionM } of plan.rows) {
      const brakeM = lastPointM.middle + reactionM.middle;
      const stop = brakeM + brakingDistanceM(speedMps, brakeM, { decelerationMps2: 7, buildUpS: 0 }, road);
      expect(stop).toBeCloseTo(1400, 5);
    }
  });
});

describe('slope', () => {
  const falling = constantSlope(-2);
  const rising = constantSlope(2);

  it('makes braking downhill longer than uphill, and gaining speed shorter', () => {
    const car = constantCar(3, 7);
    const at = (slope: typeof falling) =>
      planRoad(car, { lengthM: 1500, slope }, DRIVING, [kmhToMps(100)]).rows[0]!;
    expect(at(falling).brakingM.middle).toBeGreaterThan(at(rising).brakingM.middle);
    expect(at(falling).reachedM.middle).toBeLessThan(at(rising).reachedM.middle);
  });

  it('is turned round with the direction', () => {
    const profile = surveyedSlope([
      [0, 0],
      [600, 0],
      [1500, -30],
    ]);
    const brakes = (slope: ReturnType<typeof surveyedSlope>): number =>
      planRoad(constantCar(2.5, 7), { lengthM: 1500, slope }, DRIVING, [kmhToMps(200)]).rows[0]!.brakingM
        .middle;
    expect(brakes(drivenFrom(profile, 0))).toBeGreaterThan(brakes(drivenFrom(profile, 1500, true)));
  });

  it('gives no room where the road falls as hard as the brakes hold', () => {
    const plan = planRoad(constantCar(3, 1), { lengthM: 1500, slope: constantSlope(-15) }, DRIVING);
    expect(plan.highestRow).toBeUndefined();
    expect(plan.rows.every(({ room }) => room === 'none')).toBe(true);
  });
});

const CAR: DescribedCar = {
  massKg: 1500,
  powerW: 120_000,
  drive: 'petrol-boosted',
  drivenWheels: 'front',
};
const described = fc.record({
  massKg: fc.double({ min: 800, max: 3200, noNaN: true }),
  powerW: fc.double({ min: 40_000, max: 400_000, noNaN: true }),
  drive: fc.constantFrom('electric' as const, 'petrol' as const, 'diesel-boosted' as const),
  drivenWheels: fc.constantFrom('front' as const, 'rear' as const, 'all' as const),
});
/** A road that rises and falls by up to 2 % every 300 m. */
const roads = fc
  .array(fc.double({ min: -6, max: 6, noNaN: true }), { minLength: 10, maxLength: 10 })
  .map(rises => {
    let height = 0;
    return surveyedSlope(
      rises.map((rise, i) => {
        height += rise;
        return [i * 300, height] as const;
      }),
    );
  });
const PULLING: PlanDriving = { ...DRIVING, whileReacting: 'pulls', buildUpS: 0.2 };
const EDGES = ['adverse', 'middle', 'favourable'] as const;
interface Asked {
  readonly lengthM?: number;
  readonly loadKg?: number;
  readonly towKg?: number;
  readonly wet?: boolean;
  readonly reserveM?: number;
}
const highestOf = (car: DescribedCar, slope: ReturnType<typeof surveyedSlope>, asked: Asked) => {
  const burden = { ...NO_BURDEN, loadKg: asked.loadKg ?? 0, towKg: asked.towKg ?? 0 };
  const { car: planned } = carForPlan(car, burden, {}, asked.wet ?? false);
  const driving = { ...PULLING, reserveM: asked.reserveM ?? 100 };
  return planRoad(planned, { lengthM: asked.lengthM ?? 1200, slope }, driving, []).highest;
};
/** What one step of time gains downhill, 0.02 s · g · 3 %: the drive ends with a whole step. */
const ARITHMETIC_MPS = 0.006;
const expectNeverHigher = (more: ReturnType<typeof highestOf>, less: ReturnType<typeof highestOf>): void => {
  for (const edge of EDGES)
    expect(more[edge].speedMps).toBeLessThanOrEqual(less[edge].speedMps + ARITHMETIC_MPS);
};

describe('properties of the highest speed, at every edge, on roads that rise and fall', () => {
  const runs = { numRuns: 60 };

  it('is never lower on a longer road', () => {
    fc.assert(
      fc.property(
        described,
        roads,
        fc.double({ min: 300, max: 1800, noNaN: true }),
        fc.double({ min: 1, max: 800, noNaN: true }),
        (car, slope, lengthM, moreM) => {
          const short = highestOf(car, slope, { lengthM });
          const long = highestOf(car, slope, { lengthM: lengthM + moreM });
          expectNeverHigher(short, long);
        },
      ),
      runs,
    );
  });

  it('is never higher with more load or a trailer', () => {
    fc.assert(
      fc.property(
        described,
        roads,
        fc.double({ min: 1, max: 1500, noNaN: true }),
        fc.boolean(),
        (car, slope, addedKg, towed) => {
          const more = highestOf(car, slope, towed ? { towKg: addedKg } : { loadKg: addedKg });
          expectNeverHigher(more, highestOf(car, slope, {}));
        },
      ),
      runs,
    );
  });

  it('is never higher in the wet', () => {
    fc.assert(
      fc.property(described, roads, (car, slope) => {
        expectNeverHigher(highestOf(car, slope, { wet: true }), highestOf(car, slope, {}));
      }),
      runs,
    );
  });

  it('is never higher with more reserve', () => {
    fc.assert(
      fc.property(
        described,
        roads,
        fc.integer({ min: 0, max: 400 }),
        fc.integer({ min: 1, max: 600 }),
        (car, slope, reserveM, moreM) => {
          expectNeverHigher(
            highestOf(car, slope, { reserveM: reserveM + moreM }),
            highestOf(car, slope, { reserveM }),
          );
        },
      ),
      runs,
    );
  });

  it('is lowest at the adverse edge and highest at the favourable', () => {
    fc.assert(
      fc.property(described, roads, (car, slope) => {
        const highest = highestOf(car, slope, {});
        expect(highest.adverse.speedMps).toBeLessThanOrEqual(highest.middle.speedMps + 1e-3);
        expect(highest.middle.speedMps).toBeLessThanOrEqual(highest.favourable.speedMps + 1e-3);
      }),
      runs,
    );
  });
});

describe('carForPlan', () => {
  const burden = { ...NO_BURDEN };

  it('takes a stated deceleration as it is, without uncertainty, and puts the wet factor on it', () => {
    const dry = carForPlan(CAR, burden, {}, false, 7);
    expect([dry.decelerationFrom, plusMinus(dry.decelerationMps2)]).toEqual(['stated', 0]);
    expect(dry.car.decelerationMps2.adverse(50)).toBe(7);
    expect(carForPlan(CAR, burden, {}, true, 7).car.decelerationMps2.adverse(50)).toBeCloseTo(
      7 * WET_FACTOR,
      9,
    );
  });

  it('estimates deceleration down to what the regulation asks of a car from high speed, printed there as 5.76', () => {
    expect(ESTIMATED_DECELERATION_MPS2.adverse).toBeCloseTo(5.76, 2);
    expect(carForPlan(CAR, burden, {}, false).decelerationFrom).toBe('estimated');
  });

  it('brakes an unbraked trailer with the brakes of the car', () => {
    const towing = carForPlan(CAR, { ...burden, towKg: 750 }, {}, false, 9);
    expect(towing.car.decelerationMps2.middle(30)).toBeCloseTo(6, 9);
  });

  it('counts on no more than the top speed its maker states', () => {
    const { car } = carForPlan({ ...CAR, topMps: 40 }, burden, {}, false);
    const { highest } = planRoad(car, { lengthM: 6000, slope: LEVEL }, PULLING);
    expect(highest.middle.limitedBy).toBe('car');
    expect(highest.middle.speedMps).toBeCloseTo(40, 1);
  });
});
