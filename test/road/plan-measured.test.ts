import { describe, expect, it } from 'vitest';
import { constantSlope } from '../../pipeline/conditions/slope.ts';
import { planRoad, plusMinus } from '../../pipeline/road/plan.ts';
import { carForPlan, WET_FACTOR } from '../../pipeline/road/plan-car.ts';
import { type DescribedCar, NO_BURDEN } from '../../pipeline/road/plan-estimate.ts';
import {
  type MeasuredStart,
  measuredDeceleration,
  measuredPull,
  PULL_STEP_MPS,
} from '../../pipeline/road/plan-measured.ts';
import { kmhToMps, STANDARD_GRAVITY_MPS2 } from '../../pipeline/units.ts';

const CAR: DescribedCar = {
  massKg: 1500,
  powerW: 110_000,
  drive: 'petrol',
  drivenWheels: 'front',
  dragAreaM2: 0.65,
  rollingResistance: 0.012,
};

/** Readings of a start that gains speed at a constant rate, so that v²/2a is exact; 10 a second. */
function constantStart(gainMps2: number, toKmh: number, more: Partial<MeasuredStart> = {}): MeasuredStart {
  const count = Math.ceil((kmhToMps(toKmh) / gainMps2) * 10) + 2;
  const speedMps = Array.from({ length: count }, (_, i) => (gainMps2 * i) / 10);
  return { speedMps, distanceM: speedMps.map(v => (v * v) / (2 * gainMps2)), ...more };
}

describe('measuredPull', () => {
  it('finds a constant acceleration in every step, as far as the run goes', () => {
    const pull = measuredPull([constantStart(2.5, 120)])!;
    expect(pull.toMps).toBeCloseTo(kmhToMps(120), 9);
    // Between two readings distance is taken as straight: within 0.1 s that is at most a few centimetres.
    for (const step of pull.stepsMps2.slice(1)) expect(step).toBeCloseTo(2.5, 1);
  });

  it('brings a run to a level road: uphill it gained g s less', () => {
    const level = measuredPull([constantStart(2, 100, { slope: 0.03 })])!;
    expect(level.stepsMps2[10]).toBeCloseTo(2 + STANDARD_GRAVITY_MPS2 * 0.03, 1);
  });

  it('takes a head wind out where drag and mass are known', () => {
    const v = 10.5 * PULL_STEP_MPS;
    const pull = measuredPull([constantStart(2, 100, { headwindMps: 4, densityKgm3: 1.2 })], {
      dragAreaM2: 0.65,
      massKg: 1500,
    })!;
    const lost = (0.5 * 1.2 * 0.65 * ((v + 4) ** 2 - v ** 2)) / 1500;
    expect(pull.stepsMps2[10]).toBeCloseTo(2 + lost, 1);
  });

  it('averages distances, so that the plan on the same road takes the mean of the runs', () => {
    const starts = [constantStart(2, 100), constantStart(2.4, 100)];
    const seen = { dryPull: measuredPull(starts)! };
    const v = kmhToMps(90);
    const { car } = carForPlan(CAR, NO_BURDEN, seen, false);
    const driving = {
      reactionTimeS: 1,
      whileReacting: 'pulls',
      buildUpS: 0.2,
      reserveM: 50,
      fromMps: 0,
    } as const;
    const row = planRoad(car, { lengthM: 2000, slope: constantSlope(0) }, driving, [v]).rows[0]!;
    expect(row.from).toBe('measured');
    const mean = ((v * v) / 4 + (v * v) / 4.8) / 2;
    expect(Math.abs(row.reachedM.middle / mean - 1)).toBeLessThan(0.003);
    // Both runs lie inside.
    expect(row.reachedM.adverse).toBeGreaterThan((v * v) / 4);
    expect(row.reachedM.favourable).toBeLessThan((v * v) / 4.8);
  });

  it('says more of two runs than of one, and nothing of none', () => {
    expect(measuredPull([])).toBeUndefined();
    const one = measuredPull([constantStart(2, 100)])!;
    const two = measuredPull([constantStart(2, 100), constantStart(2.01, 100)])!;
    expect(two.uncertainty).toBeLessThan(one.uncertainty);
  });
});

describe('measuredDeceleration', () => {
  const stop = (mps2: number, more = {}) => ({
    fromMps: kmhToMps(100),
    distanceM: kmhToMps(100) ** 2 / (2 * mps2),
    uncertaintyM: 0.4,
    ...more,
  });

  it('takes the lowest of the stops less its uncertainty at the adverse end, the mean in the middle', () => {
    const found = measuredDeceleration([stop(9), stop(8.6), stop(9.2)])!;
    const { distanceM } = stop(8.6);
    expect(found.mps2.adverse).toBeCloseTo(8.6 * (1 - 0.4 / distanceM), 9);
    expect(found.mps2.middle).toBeCloseTo((9 + 8.6 + 9.2) / 3, 9);
    expect([found.stops, found.left]).toEqual([3, 0]);
  });

  it('leaves out stops that were not braked in full, and says how many', () => {
    const found = measuredDeceleration([stop(9), stop(4)])!;
    expect([found.stops, found.left]).toEqual([1, 1]);
    expect(found.mps2.adverse).toBeLessThan(9);
  });

  it('brings a stop to a level road: downhill the brakes did more than it shows', () => {
    const found = measuredDeceleration([stop(8, { slope: -0.02 }), stop(8, { slope: -0.02 })])!;
    expect(found.mps2.middle).toBeCloseTo(8 + 0.02 * STANDARD_GRAVITY_MPS2, 9);
  });

  it('gives nothing without stops', () => {
    expect(measuredDeceleration([])).toBeUndefined();
  });
});

describe('a plan with measured figures', () => {
  const dryStops = measuredDeceleration(
    [9, 9.1].map(a => ({ fromMps: 27.8, distanceM: 27.8 ** 2 / 2 / a, uncertaintyM: 0.3 })),
  )!;
  const wetStops = measuredDeceleration(
    [6, 6.1].map(a => ({ fromMps: 27.8, distanceM: 27.8 ** 2 / 2 / a, uncertaintyM: 0.3 })),
  )!;
  const brakes = (seen: Parameters<typeof carForPlan>[2], wet: boolean): number =>
    carForPlan(CAR, NO_BURDEN, seen, wet).car.decelerationMps2.middle(20);

  it('puts the wet factor on stops measured in the dry only', () => {
    expect(brakes({ dryStops }, true)).toBeCloseTo(9.05 * WET_FACTOR, 6);
    expect(brakes({ wetStops }, true)).toBeCloseTo(6.05, 6);
    expect(brakes({ dryStops, wetStops }, true)).toBeCloseTo(6.05, 6);
    expect(brakes({ dryStops, wetStops }, false)).toBeCloseTo(9.05, 6);
  });

  it('does not count on a wet road for more than the dry one has shown', () => {
    expect(brakes({ dryStops: wetStops, wetStops: dryStops }, true)).toBeCloseTo(6.05, 6);
  });

  it('holds a stop from far above the measured speed for less certain', () => {
    const { car } = carForPlan(CAR, NO_BURDEN, { dryStops }, false);
    const at = (fromMps: number): number =>
      plusMinus({
        adverse: car.decelerationMps2.adverse(fromMps),
        middle: car.decelerationMps2.middle(fromMps),
        favourable: car.decelerationMps2.favourable(fromMps),
      });
    expect(at(55.6)).toBeGreaterThan(at(27.8) + 0.5);
  });

  it('goes on beyond the measured speeds from where they end, in the shape of the estimate', () => {
    const dryPull = measuredPull([constantStart(2.2, 100), constantStart(2.2, 100)])!;
    const { car } = carForPlan(CAR, NO_BURDEN, { dryPull }, false);
    const end = dryPull.toMps;
    expect(car.measuredToMps).toBe(end);
    expect(car.pull.middle(end - 0.01)).toBeCloseTo(2.2, 1);
    expect(car.pull.middle(end)).toBeGreaterThan(1.9);
    expect(car.pull.middle(end)).toBeLessThan(2.2);
    for (let v = 1; v < 55; v += 1) {
      expect(car.pull.adverse(v)).toBeLessThanOrEqual(car.pull.middle(v) + 1e-9);
      expect(car.pull.middle(v)).toBeLessThanOrEqual(car.pull.favourable(v) + 1e-9);
    }
  });
});
