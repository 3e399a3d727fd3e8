import { describe, expect, it } from 'vitest';
import {
  type CoastDownLaw,
  coastDownDistanceM,
  coastDownTimeS,
  type DirectedCoastDown,
  estimateCoastDown,
  findCoastDowns,
} from '../../pipeline/conditions/coast-down.ts';
import { coastDownRefusalInWords } from '../../pipeline/conditions/coast-down-words.ts';
import { logToTrace } from '../../pipeline/trace/build.ts';
import { DIESEL_VAN, ELECTRIC_HATCH, type SimulatedCar } from '../simulate/cars.ts';
import { samplesToLog } from '../simulate/day.ts';
import { drive, type Manoeuvre, type Surroundings } from '../simulate/drive.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { receive } from '../simulate/receiver.ts';

const AIR: Surroundings = { densityKgm3: 1.19, windMps: 2, windFromDeg: 0, grip: 1 };

/** Coast-downs to and fro in wind on a slope, as a log has them. */
function coastedDay(
  car: SimulatedCar,
  pairs: number,
  seed: number,
  slopePct = 0.3,
  fromMps = 33,
): DirectedCoastDown[] {
  const random = randomFromSeed(seed);
  return [1, -1].flatMap(way =>
    Array.from({ length: pairs }, () => {
      const wind = AIR.windMps + 0.15 * random.normal();
      const script: Manoeuvre[] = [
        { kind: 'stand', forS: 6 },
        { kind: 'glide', toMps: fromMps, overS: 40 },
        { kind: 'coast', forS: 70 },
        { kind: 'brake' },
        { kind: 'stand', forS: 3 },
      ];
      const rise = way * slopePct;
      const driven = drive(
        car,
        {
          headingDeg: 0,
          profile: [
            [0, 0],
            [5000, rise * 50],
          ],
        },
        { ...AIR, windMps: wind, windFromDeg: way === 1 ? 0 : 180 },
        script,
      );
      const samples = receive(driven.trajectory, { rateHz: 10, noiseMps: 0.02 }, random);
      const { trace } = logToTrace(samplesToLog(samples));
      const found = findCoastDowns(trace);
      expect(found).toHaveLength(1);
      return { trace, coastDown: found[0]!, way: way as 1 | -1 };
    }),
  );
}

describe('finding coast-downs', () => {
  it('takes the coasting and neither the driving before it nor the braking after it', () => {
    const [first] = coastedDay(ELECTRIC_HATCH, 1, 1);
    const { timeS, speedMps } = first!.trace;
    const { beginIndex, endIndex } = first!.coastDown;
    expect(timeS[beginIndex]).toBeGreaterThan(45.9);
    expect(timeS[beginIndex]).toBeLessThan(49);
    expect(timeS[endIndex]).toBeGreaterThan(112);
    expect(timeS[endIndex]).toBeLessThanOrEqual(116);
    expect(speedMps[beginIndex]).toBeGreaterThan(speedMps[endIndex]! + 7);
  });

  it('finds none where a car only accelerates, cruises and brakes', () => {
    const driven = drive(ELECTRIC_HATCH, { headingDeg: 0 }, AIR, [
      { kind: 'stand', forS: 5 },
      { kind: 'standing-start', launch: ELECTRIC_HATCH.launches[0]!, toMps: 30 },
      { kind: 'cruise', forS: 30 },
      { kind: 'brake' },
      { kind: 'stand', forS: 5 },
    ]);
    const samples = receive(driven.trajectory, { rateHz: 25, noiseMps: 0.02 }, randomFromSeed(5));
    expect(findCoastDowns(logToTrace(samplesToLog(samples)).trace)).toEqual([]);
  });
});

describe('drag area and rolling resistance from coast-downs', () => {
  it.each([ELECTRIC_HATCH, DIESEL_VAN])('come out as simulated, both ways in wind on a slope: $id', car => {
    const answer = estimateCoastDown(coastedDay(car, 4, 7), {
      massKg: car.massKg,
      densityKgm3: AIR.densityKgm3,
      wheelShare: 0,
    });
    if (!answer.decided) throw new Error(answer.reason.why);
    const { estimate } = answer;
    expect(Math.abs(estimate.dragAreaM2 / car.dragAreaM2 - 1)).toBeLessThan(0.03);
    expect(Math.abs(estimate.rollingResistance / car.rollingResistance - 1)).toBeLessThan(0.04);
    expect(estimate.headwindMps).toBeCloseTo(2, 0);
    expect(estimate.slope).toBeCloseTo(0.003, 3);
    expect(estimate.runs).toBe(8);
    expect(estimate.fewerThanAdvised).toBe(true);
  });

  it('is within its own uncertainty in about 19 days of 20', () => {
    const days = 40;
    let drag = 0;
    let rolling = 0;
    for (let seed = 1; seed <= days; seed++) {
      const car = ELECTRIC_HATCH;
      const answer = estimateCoastDown(coastedDay(car, 3, 100 + seed), {
        massKg: car.massKg,
        densityKgm3: AIR.densityKgm3,
        wheelShare: 0,
      });
      if (!answer.decided) throw new Error(answer.reason.why);
      const { estimate } = answer;
      if (Math.abs(estimate.dragAreaM2 - car.dragAreaM2) <= 2 * estimate.dragAreaStandardM2) drag++;
      if (
        Math.abs(estimate.rollingResistance - car.rollingResistance) <=
        2 * estimate.rollingResistanceStandard
      )
        rolling++;
    }
    // The share is itself known to about 5 % of 40 days.
    expect(drag / days).toBeGreaterThan(0.85);
    expect(rolling / days).toBeGreaterThan(0.85);
  });

  it('refuses one direction alone, naming what is missing', () => {
    const oneWay = coastedDay(ELECTRIC_HATCH, 3, 9).filter(({ way }) => way === 1);
    const answer = estimateCoastDown(oneWay, { massKg: 1735, densityKgm3: 1.19 });
    expect(answer).toMatchObject({ decided: false });
    expect(answer.decided ? '' : coastDownRefusalInWords(answer.reason, 'en')).toContain('each way');
  });

  it('refuses runs over a narrow range of speed', () => {
    const runs = coastedDay(ELECTRIC_HATCH, 2, 11).map(run => ({
      ...run,
      coastDown: { beginIndex: run.coastDown.beginIndex, endIndex: run.coastDown.beginIndex + 120 },
    }));
    expect(estimateCoastDown(runs, { massKg: 1735, densityKgm3: 1.19 })).toMatchObject({ decided: false });
  });
});

describe('the closed form of a coast-down', () => {
  const law: CoastDownLaw = { massKg: 1500, constantN: 150, quadraticNPerMps2: 0.36 };

  it('adds up over parts of a coast-down', () => {
    expect(coastDownTimeS(law, 30, 20) + coastDownTimeS(law, 20, 5)).toBeCloseTo(
      coastDownTimeS(law, 30, 5),
      9,
    );
    expect(coastDownDistanceM(law, 30, 20) + coastDownDistanceM(law, 20, 5)).toBeCloseTo(
      coastDownDistanceM(law, 30, 5),
      9,
    );
  });

  it('is that of the simulated car', () => {
    const driven = drive(ELECTRIC_HATCH, { headingDeg: 0 }, { ...AIR, windMps: 0 }, [
      { kind: 'stand', forS: 1 },
      { kind: 'glide', toMps: 30, overS: 30 },
      { kind: 'coast', forS: 60 },
    ]);
    const at = driven.trajectory.count - 1;
    const simulated: CoastDownLaw = {
      massKg: ELECTRIC_HATCH.massKg,
      constantN: ELECTRIC_HATCH.massKg * 9.80665 * ELECTRIC_HATCH.rollingResistance,
      quadraticNPerMps2: (AIR.densityKgm3 / 2) * ELECTRIC_HATCH.dragAreaM2,
    };
    expect(coastDownTimeS(simulated, 30, driven.trajectory.speedMps[at]!)).toBeCloseTo(60, 2);
  });
});
