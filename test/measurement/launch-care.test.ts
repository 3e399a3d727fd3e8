import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  couplingOf,
  isOneGear,
  type LaunchedAttempt,
  launchCare,
  TURNING_SHARE,
  WARM_PAUSE_S,
} from '../../pipeline/measurement/launch-care.ts';
import { heldLaunchSlip, kineticEnergyJ } from '../../pipeline/measurement/launch-slip.ts';
import { measureLog } from '../../pipeline/measurement/measure.ts';
import { AUTOMATIC_ESTATE, MANUAL_TURBO, type SimulatedCar } from '../simulate/cars.ts';
import { simulateDay } from '../simulate/day.ts';

const clock = (atS: number): string =>
  [3600, 60, 1]
    .map((unit, k) => String(Math.floor(atS / unit) % (k === 0 ? 24 : 60)).padStart(2, '0'))
    .join(':');

/** A simulated day as attempts, each with the launch method it was driven by. */
function attemptsOf(car: SimulatedCar, rateHz = 25) {
  const day = simulateDay({ seed: 9, car, rateHz, noiseMps: 0.015, runs: 4, aborted: 2, rolling: 1 });
  const { trace, measurements } = measureLog(day.toLog());
  const attempts = measurements.map((measurement, k): LaunchedAttempt => {
    const truth = day.truth.find(({ beginsS }) => Math.abs(beginsS - measurement.beginsS) < 1.5);
    return {
      number: k + 1,
      at: clock(36_000 + measurement.beginsS),
      log: 'day.csv',
      ...(truth?.launchId === undefined ? {} : { launchId: truth.launchId, launchName: truth.launchId }),
      trace,
      measurement,
    };
  });
  return { day, attempts };
}
const car = { massKg: MANUAL_TURBO.massKg, coupling: 'clutch' } as const;

describe('launches of a day', () => {
  const { day, attempts } = attemptsOf(MANUAL_TURBO);
  const starts = day.truth.filter(({ kind }) => kind === 'standing-start');
  const care = launchCare(attempts, car);

  it('are its standing starts in order, those given up included, rolling runs not', () => {
    expect(attempts.length).toBeGreaterThan(starts.length);
    expect(care.launches.map(({ place }) => place)).toEqual(starts.map((_, k) => k + 1));
    expect(care.launches.map(({ aborted }) => aborted)).toEqual(
      starts.map(({ status }) => status === 'aborted'),
    );
    expect(care.launches.filter(({ aborted }) => aborted)).toHaveLength(2);
  });

  it('come after the pauses that were driven', () => {
    expect(care.launches[0]!.pauseS).toBeUndefined();
    for (const [k, launch] of care.launches.entries()) {
      if (k === 0) continue;
      const pauseS = starts[k]!.beginsS - starts[k - 1]!.beginsS;
      expect(Math.abs(launch.pauseS! - pauseS)).toBeLessThan(0.1);
    }
  });

  it('are flagged where the pause was short, and only there', () => {
    const short = care.launches.filter(({ pauseS }) => pauseS !== undefined && pauseS < WARM_PAUSE_S);
    const flagged = care.launches.filter(({ flags }) => flags.some(({ code }) => code === 'warm-driveline'));
    expect(short.length).toBeGreaterThan(0);
    expect(flagged).toEqual(short);
    expect(flagged[0]!.flags[0]!.text).toContain(`${Math.round(flagged[0]!.pauseS!)} s after the last`);
  });

  it('add up by method', () => {
    const ids = [...new Set(starts.map(({ launchId }) => launchId))];
    expect(care.methods.map(({ methodId }) => methodId)).toEqual(ids);
    expect(care.methods.map(({ methodName }) => methodName)).toEqual(ids);
    for (const method of care.methods) {
      const own = care.launches.filter(({ methodId }) => methodId === method.methodId);
      expect([method.launches, method.aborted]).toEqual([
        own.length,
        own.filter(({ aborted }) => aborted).length,
      ]);
      expect(method.heatToJ).toBeCloseTo(
        own.reduce((sum, { heat }) => sum + heat!.toJ, 0),
        6,
      );
    }
  });

  // First gear ends at 6300 rpm, 13.4 to one, on 0.315 m of radius: 15.51 m/s.
  it('are bounded by the kinetic energy at the end of first gear where no engine speed is logged', () => {
    const endMps = ((MANUAL_TURBO.shiftRpm * Math.PI) / 30 / 13.4) * 0.315;
    const expected = kineticEnergyJ(car.massKg * (1 + TURNING_SHARE), endMps);
    for (const { heat } of care.launches) {
      expect(heat!.by).toBe('bounds');
      expect(heat!.fromJ).toBe(0);
      expect(Math.abs(heat!.toJ / expected - 1)).toBeLessThan(0.03);
    }
  });

  it('have no bounds, and a reason, where no gear change shows either', () => {
    const slow = launchCare(attemptsOf(MANUAL_TURBO, 5).attempts, car);
    expect(slow.launches.length).toBeGreaterThan(3);
    for (const { heat, noHeat } of slow.launches) {
      expect(heat).toBeUndefined();
      expect(noHeat).toBe('unbounded');
    }
    for (const { heatFromJ, heatToJ } of slow.methods)
      expect([heatFromJ, heatToJ]).toEqual([undefined, undefined]);
  });

  it('have no heat of a clutch in a car that starts through something else', () => {
    const { launches } = launchCare(attemptsOf(AUTOMATIC_ESTATE).attempts, {
      massKg: 1680,
      coupling: 'converter',
    });
    expect(new Set(launches.map(({ noHeat }) => noHeat))).toEqual(new Set(['converter']));
  });

  it('in different logs are as far apart as the clock says, past midnight too', () => {
    const apart = (first: string, second: string) =>
      launchCare(
        [
          { ...attempts[0]!, at: first, log: 'one.csv' },
          { ...attempts[0]!, at: second, log: 'two.csv' },
        ],
        car,
      ).launches[1]!.pauseS;
    expect(apart('10:00:00', '10:00:00')).toBe(0);
    expect(apart('10:00:00', '10:03:20')).toBe(200);
    expect(apart('09:59', '11')).toBe(3660);
    expect(apart('23:59:30', '00:01:00')).toBe(90);
  });

  it('name no pause, heat or method that there is not', () => {
    const [first] = care.launches;
    expect(Object.hasOwn(first!, 'pauseS')).toBe(false);
    expect(first!.flags).toEqual([]);
    const { launchId: _, launchName: __, ...nameless } = attempts[0]!;
    const alone = launchCare([nameless], { massKg: 1200, coupling: 'unknown' });
    expect(Object.keys(alone.launches[0]!)).toEqual(['attempt', 'place', 'at', 'aborted', 'noHeat', 'flags']);
    expect(alone.methods).toEqual([{ launches: 1, aborted: Number(alone.launches[0]!.aborted) }]);
  });

  it('of an empty day are none', () => {
    expect(launchCare([], car)).toEqual({ launches: [], methods: [] });
  });
});

describe('heat of a held launch', () => {
  const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  const launches = fc.record({
    engineRpm: between(800, 7000),
    torqueNm: between(50, 600),
    overallRatio: between(6, 18),
    wheelRadiusM: between(0.25, 0.4),
    massKg: between(700, 4000),
  });

  it('is the kinetic energy at its end, whatever the torque', () => {
    fc.assert(
      fc.property(launches, launch => {
        const { syncMps, heatJ } = heldLaunchSlip(launch);
        expect(heatJ / kineticEnergyJ(launch.massKg, syncMps)).toBeCloseTo(1, 9);
      }),
    );
  });

  it('grows with what resists the car, by the share of the force that takes', () => {
    fc.assert(
      fc.property(launches, between(0.01, 0.9), (launch, share) => {
        const forceN = (launch.torqueNm * launch.overallRatio) / launch.wheelRadiusM;
        const loaded = heldLaunchSlip({ ...launch, resistanceN: share * forceN });
        expect((loaded.heatJ * (1 - share)) / heldLaunchSlip(launch).heatJ).toBeCloseTo(1, 9);
      }),
    );
  });

  it('has no end where the clutch cannot move the car', () => {
    const held = { engineRpm: 2000, torqueNm: 100, overallRatio: 10, wheelRadiusM: 0.3, massKg: 1500 };
    expect(() => heldLaunchSlip({ ...held, resistanceN: 4000 })).toThrow(RangeError);
  });
});

describe('the words of a gearbox', () => {
  it.each([
    ['six-speed manual', 'clutch', false],
    ['seven-speed dual-clutch automatic', 'clutch', false],
    ['six-speed automatic', 'converter', false],
    ['single-speed', 'none', true],
    ['Stepless automatic', 'converter', true],
    ['eCVT', 'unknown', false],
    ['CVT', 'unknown', true],
    ['two-speed', 'unknown', false],
  ] as const)('‘%s’ tell what takes up the start: %s', (gearbox, coupling, oneGear) => {
    expect([couplingOf(gearbox), isOneGear(gearbox)]).toEqual([coupling, oneGear]);
  });
});
