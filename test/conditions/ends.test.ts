/** Where each rule and formula of the conditions ends, and what stands at its very end. */
import { describe, expect, it } from 'vitest';
import { type AirState, airDensity, CIPM_2007_RANGE, dryPressurePa } from '../../pipeline/conditions/air.ts';
import { standardAtmosphere } from '../../pipeline/conditions/atmosphere.ts';
import { knownCircumstances, type RunCircumstances } from '../../pipeline/conditions/circumstances.ts';
import { beyondLimits, EUROPEAN_COAST_DOWN } from '../../pipeline/conditions/limits.ts';
import {
  dieselEngineFactor,
  din70020,
  iso1585Diesel,
  iso1585SparkIgnition,
  saeJ1349SparkIgnition,
} from '../../pipeline/conditions/power-correction.ts';
import { inFirstGear, rotatingShare } from '../../pipeline/conditions/rotating-mass.ts';
import { constantSlope, drivenFrom, surveyedSlope } from '../../pipeline/conditions/slope.ts';

describe('air', () => {
  const inside: AirState = { temperatureK: 293, pressurePa: 100_000, relativeHumidity: 0.5 };
  const by = (change: Partial<AirState>): string => airDensity({ ...inside, ...change }).by;

  it('is worked out by CIPM-2007 up to the very ends of its range, by ideal gases beyond', () => {
    const { lowestK, highestK, lowestPa, highestPa } = CIPM_2007_RANGE;
    for (const state of [
      { temperatureK: lowestK },
      { temperatureK: highestK },
      { pressurePa: lowestPa },
      { pressurePa: highestPa },
    ]) {
      expect(by(state), JSON.stringify(state)).toBe('cipm-2007');
    }
    for (const state of [
      { temperatureK: lowestK - 1e-6 },
      { temperatureK: highestK + 1e-6 },
      { pressurePa: lowestPa - 1e-3 },
      { pressurePa: highestPa + 1e-3 },
    ]) {
      expect(by(state), JSON.stringify(state)).toBe('ideal-gas');
    }
    expect([lowestK - 273.15, highestK - 273.15, lowestPa, highestPa]).toEqual([15, 27, 60_000, 110_000]);
  });

  it('is refused from where no air is, dry and saturated air are not', () => {
    for (const sound of [
      { relativeHumidity: 0 },
      { relativeHumidity: 1 },
      { temperatureK: 999 },
      { pressurePa: 9_999_999 },
    ]) {
      expect(() => dryPressurePa({ ...inside, ...sound })).not.toThrow();
    }
    for (const wrong of [
      { relativeHumidity: 1 + 1e-9 },
      { relativeHumidity: -1e-9 },
      { temperatureK: 1000 },
      { pressurePa: 1e7 },
      { pressurePa: 0 },
    ]) {
      expect(() => dryPressurePa({ ...inside, ...wrong }), JSON.stringify(wrong)).toThrow(RangeError);
    }
  });

  it('of the standard atmosphere reaches from −5000 to 11 000 m, both included', () => {
    // ISO 2533: 288.15 K less 6.5 K a kilometre.
    expect(standardAtmosphere(-5000).temperatureK).toBeCloseTo(320.65, 9);
    expect(standardAtmosphere(11_000).temperatureK).toBeCloseTo(216.65, 9);
    expect(() => standardAtmosphere(-5000.001)).toThrow(RangeError);
    expect(() => standardAtmosphere(11_000.001)).toThrow(RangeError);
  });
});

describe('weather', () => {
  const beyond = (weather: Parameters<typeof beyondLimits>[0]) =>
    beyondLimits(weather, EUROPEAN_COAST_DOWN, 1);

  it('is beyond the rules where they say so: wind and density above their limits, gusts and crosswind at them', () => {
    expect(beyond({ windMps: 3, gustMps: 4.999, crosswindMps: 1.999, densityKgm3: 1.0749 })).toEqual([]);
    expect(beyond({ windMps: 3.001 })).toEqual(['wind']);
    expect(beyond({ gustMps: 5 })).toEqual(['gusts']);
    expect(beyond({ crosswindMps: 2 })).toEqual(['crosswind']);
    expect(beyond({ densityKgm3: 1.0751 })).toEqual(['density']);
    expect(beyond({ densityKgm3: 0.9249 })).toEqual(['density']);
    expect(beyond({ densityKgm3: 0.9251 })).toEqual([]);
    // What is not known is not beyond, however narrow the limits.
    const narrow = {
      ...EUROPEAN_COAST_DOWN,
      meanWindMps: 0,
      gustMps: 0.1,
      crosswindMps: 0.1,
      densityShare: 0,
    };
    expect(beyondLimits({}, narrow, 1.2)).toEqual([]);
    // Exact in binary: 1.5 less 1 is 0.5.
    const coarse = { ...EUROPEAN_COAST_DOWN, densityShare: 0.5 };
    expect(beyondLimits({ densityKgm3: 1.5 }, coarse, 1)).toEqual([]);
  });
});

describe('power corrections', () => {
  const air = (dryPressurePa: number, temperatureK: number) => ({ dryPressurePa, temperatureK });

  it('stand up to the very ends of temperature and pressure', () => {
    const refused = (correction: { readonly allowed: boolean; readonly refused?: string }) =>
      correction.allowed ? 'allowed' : correction.refused;
    const spark = (pa: number, k: number) => refused(iso1585SparkIgnition(air(pa, k)));
    expect([spark(99_000, 288), spark(99_000, 308)]).toEqual(['allowed', 'allowed']);
    expect([spark(99_000, 287.999), spark(99_000, 308.001)]).toEqual(['temperature', 'temperature']);
    // Their factors are far out: pressure is asked first, and stands at its ends.
    expect([spark(80_000, 298), spark(110_000, 298)]).toEqual(['factor', 'factor']);
    expect([spark(79_999, 298), spark(110_001, 298)]).toEqual(['pressure', 'pressure']);
    const diesel = (pa: number, k: number) => refused(iso1585Diesel(air(pa, k), 'none', 37.2));
    expect([diesel(99_000, 283), diesel(99_000, 313), diesel(80_000, 298), diesel(110_000, 298)]).toEqual(
      Array(4).fill('allowed'),
    );
    expect([diesel(99_000, 282.999), diesel(99_000, 313.001)]).toEqual(['temperature', 'temperature']);
    expect([diesel(79_999, 298), diesel(110_001, 298)]).toEqual(['pressure', 'pressure']);
  });

  it('name the limit that stands against them, in kelvins and kilopascals', () => {
    expect(iso1585SparkIgnition(air(79_000, 298))).toMatchObject({
      refused: 'pressure',
      refusal: { of: 'pressure', from: 80, to: 110, found: 79 },
    });
    expect(iso1585SparkIgnition(air(99_000, 320))).toMatchObject({
      refusal: { of: 'temperature', from: 288, to: 308, found: 320 },
    });
    expect(iso1585SparkIgnition(air(90_000, 298))).toMatchObject({
      refusal: { of: 'factor', from: 0.93, to: 1.07 },
    });
  });

  it('stand up to factors of 0.93 and 1.07', () => {
    // At 298 K the factor is (99/pd)^1.2: 0.93 at 99/0.93^(1/1.2) = 105.17 kPa, 1.07 at 93.57 kPa.
    const at = (factor: number) => iso1585SparkIgnition(air(99_000 / factor ** (1 / 1.2), 298)).allowed;
    expect([at(0.9301), at(1.0699), at(0.9299), at(1.0701)]).toEqual([true, true, false, false]);
    const sae = (factor: number) =>
      saeJ1349SparkIgnition(air((99_000 * 1.18) / (factor + 0.18), 298.15)).allowed;
    expect([sae(0.9301), sae(1.0699), sae(0.9299), sae(1.0701)]).toEqual([true, true, false, false]);
  });

  it('of a diesel take its engine factor from the straight line between both ends', () => {
    expect(dieselEngineFactor(37.2)).toBeCloseTo(0.036 * 37.2 - 1.14, 12);
    expect(dieselEngineFactor(37.199)).toBe(0.2);
    expect(dieselEngineFactor(50)).toBeCloseTo(0.66, 12);
    expect(dieselEngineFactor(65)).toBeCloseTo(1.2, 12);
    expect(dieselEngineFactor(64.999)).toBeCloseTo(1.199_964, 9);
    expect(dieselEngineFactor(65.001)).toBe(1.2);
  });

  it('of DIN 70020 are pressure over pressure and the root of temperature over temperature', () => {
    expect(din70020(293.15, 101_325)).toBe(1);
    expect(din70020(4 * 293.15, 101_325)).toBeCloseTo(2, 12);
    expect(din70020(293.15, 101_325 / 2)).toBeCloseTo(2, 12);
  });
});

describe('turning masses', () => {
  // 0.85 of 6000 and 4000 rpm on a radius of 0.32 m through 13 to one, by hand.
  const firstEndsMps = (rpm: number): number => (0.85 * rpm * (Math.PI / 30) * 0.32) / 13;

  it.each([
    ['petrol', 6000],
    ['petrol-boosted', 6000],
    ['diesel', 4000],
    ['diesel-boosted', 4000],
  ] as const)(
    'of a %s car are half of first gear’s where it is in first, and fall with the square of speed',
    (drive, rpm) => {
      const ends = firstEndsMps(rpm);
      expect(inFirstGear(drive, ends * 0.9999)).toBe(true);
      expect(inFirstGear(drive, ends * 1.0001)).toBe(false);
      expect(rotatingShare(drive, ends * 0.5).wheels).toBe(0.04);
      expect(rotatingShare(drive, ends * 0.5).engine).toBeCloseTo((0.0025 * 169) / 2, 12);
      expect(rotatingShare(drive, 0).engine).toBeCloseTo((0.0025 * 169) / 2, 12);
      expect(rotatingShare(drive, ends * 2).engine).toBeCloseTo((0.0025 * 169) / 4, 12);
    },
  );

  it('of an electric car are its motor’s at any speed, and a known factor stands before all', () => {
    expect(rotatingShare('electric', 3)).toEqual({ wheels: 0, engine: 0.05 });
    expect(inFirstGear('electric', 1)).toBe(false);
    expect(rotatingShare('petrol', 3, 1.25)).toEqual({ wheels: 0.25, engine: 0 });
  });
});

describe('a road', () => {
  const road = surveyedSlope([
    [100, 5],
    [200, 7],
    [400, 6],
  ]);

  it('belongs at each of its points to the stretch that begins there', () => {
    expect(road.slopeAt(199.999)).toBe(0.02);
    expect(road.slopeAt(200)).toBe(-0.005);
    expect(road.slopeAt(400)).toBe(-0.005);
    expect(road.heightAt(150)).toBeCloseTo(1, 12);
    expect(road.heightAt(50)).toBeCloseTo(-1, 12);
    expect(road.meanSlope(200, 200)).toBe(-0.005);
    expect(road.meanSlope(100, 400)).toBeCloseTo(1 / 300, 12);
    expect([road.fromM, road.toM]).toEqual([100, 400]);
  });

  it('keeps its mean slope, turned round where it is driven the other way', () => {
    const there = drivenFrom(road, 100);
    expect(there.meanSlope(0, 300)).toBeCloseTo(1 / 300, 12);
    expect([there.fromM, there.toM]).toEqual([0, 300]);
    const back = drivenFrom(road, 400, true);
    expect(back.meanSlope(0, 300)).toBeCloseTo(-1 / 300, 12);
    expect(back.slopeAt(50)).toBe(0.005);
    expect(back.fromM).toBeCloseTo(0, 12);
    expect(back.toM).toBe(300);
  });

  it('of one slope has it in height and mean, and no ends', () => {
    const even = constantSlope(2);
    expect(even.heightAt(150)).toBeCloseTo(3, 12);
    expect(even.meanSlope(3, 7)).toBe(0.02);
    expect([even.fromM, even.toM]).toEqual([Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]);
  });
});

describe('what a run is restated from', () => {
  const whole: RunCircumstances = {
    car: { massKg: 1500, dragAreaM2: 0.66, rollingResistance: 0.012, drive: 'petrol' },
    air: { temperatureK: 290, pressurePa: 100_500, relativeHumidity: 0.6 },
    headwindMps: 0,
    road: constantSlope(0),
  };
  const missing = (circumstances: RunCircumstances): readonly string[] => {
    const answer = knownCircumstances(circumstances);
    return 'missing' in answer ? answer.missing : [];
  };

  it('is whole, or named by what is not there', () => {
    expect(missing(whole)).toEqual([]);
    expect(missing({ car: {}, air: {} })).toEqual([
      'massKg',
      'dragAreaM2',
      'drive',
      'temperatureK',
      'pressurePa',
      'relativeHumidity',
      'headwindMps',
      'road',
    ]);
    expect(missing({ ...whole, headwindMps: Number.NaN })).toEqual(['headwindMps']);
  });

  it('asks for rolling resistance only where power is corrected', () => {
    const { rollingResistance: _, ...car } = whole.car;
    expect(missing({ ...whole, car })).toEqual(['rollingResistance']);
    expect(missing({ ...whole, car: { ...car, drive: 'diesel' } })).toEqual([]);
    const diesel = knownCircumstances({
      ...whole,
      car: { ...whole.car, drive: 'diesel', rotatingMassFactor: 1.06 },
    });
    expect('known' in diesel && [diesel.known.rollingResistance, diesel.known.rotatingMassFactor]).toEqual([
      0.012, 1.06,
    ]);
    expect('known' in diesel && diesel.known.densityKgm3).toBe(airDensity(whole.air as AirState).densityKgm3);
  });

  it('is known as well as stated, otherwise as taken for granted', () => {
    const answer = knownCircumstances({ ...whole, uncertainty: { mass: 0.002 } });
    expect('known' in answer && answer.known.uncertainty).toEqual({
      mass: 0.002,
      dragArea: 0.05,
      headwindMps: 0.5,
      slope: 0.0005,
      density: 0.004,
    });
  });
});
