import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  airDensity,
  CIPM_2007_RANGE,
  cipm2007Air,
  dryPressurePa,
  idealGasDensityKgm3,
  saturationVapourPressurePa,
} from '../../pipeline/conditions/air.ts';
import {
  densityAltitudeM,
  pressureAltitudeM,
  standardAtmosphere,
} from '../../pipeline/conditions/atmosphere.ts';

const weather = fc.record({
  temperatureK: fc.double({ min: 248, max: 318, noNaN: true }),
  pressurePa: fc.double({ min: 60_000, max: 106_000, noNaN: true }),
  relativeHumidity: fc.double({ min: 0, max: 1, noNaN: true }),
});

describe('airDensity', () => {
  it('names CIPM-2007 inside its range, ends included, and the ideal gas outside', () => {
    const by = (temperatureC: number, pressureHpa: number): string =>
      airDensity({
        temperatureK: temperatureC + 273.15,
        pressurePa: pressureHpa * 100,
        relativeHumidity: 0.5,
      }).by;
    expect([by(15, 1000), by(27, 1000), by(20, 600), by(20, 1100)]).toEqual(new Array(4).fill('cipm-2007'));
    expect([by(14.9, 1000), by(27.1, 1000), by(20, 599), by(20, 1101)]).toEqual(
      new Array(4).fill('ideal-gas'),
    );
  });

  it('hardly steps where the two formulas meet', () => {
    for (const temperatureK of [CIPM_2007_RANGE.lowestK, CIPM_2007_RANGE.highestK]) {
      for (const pressurePa of [70_000, 85_000, 101_325]) {
        for (const relativeHumidity of [0, 0.5, 1]) {
          const state = { temperatureK, pressurePa, relativeHumidity };
          const ratio = cipm2007Air(state).densityKgm3 / idealGasDensityKgm3(state);
          expect(Math.abs(ratio - 1)).toBeLessThan(0.001);
        }
      }
    }
  });

  it('falls with heat and humidity and rises with pressure', () => {
    fc.assert(
      fc.property(weather, state => {
        const { densityKgm3 } = airDensity(state);
        // Steps larger than the small step between the two formulas.
        expect(airDensity({ ...state, temperatureK: state.temperatureK + 1 }).densityKgm3).toBeLessThan(
          densityKgm3,
        );
        expect(airDensity({ ...state, pressurePa: state.pressurePa * 1.005 }).densityKgm3).toBeGreaterThan(
          densityKgm3,
        );
        const drier = { ...state, relativeHumidity: state.relativeHumidity * 0.5 };
        // Of a humidity next to none the difference is less than the last bit, which may fall either way.
        expect(airDensity(drier).densityKgm3).toBeGreaterThanOrEqual(densityKgm3 * (1 - Number.EPSILON));
      }),
    );
  });

  it('refuses air that cannot be', () => {
    const good = { temperatureK: 293, pressurePa: 100_000, relativeHumidity: 0.5 };
    for (const wrong of [
      { ...good, temperatureK: 0 },
      { ...good, temperatureK: Number.NaN },
      { ...good, pressurePa: -1 },
      { ...good, relativeHumidity: 50 },
      { ...good, relativeHumidity: -0.1 },
    ]) {
      expect(() => airDensity(wrong)).toThrow(RangeError);
      expect(() => dryPressurePa(wrong)).toThrow(RangeError);
    }
  });

  it('has all of its pressure from dry air where there is no humidity', () => {
    expect(dryPressurePa({ temperatureK: 300, pressurePa: 98_000, relativeHumidity: 0 })).toBe(98_000);
  });
});

describe('vapour pressure', () => {
  it('of the three formulas agrees within half a per cent between 0 and 40 °C', () => {
    for (let celsius = 0; celsius <= 40; celsius++) {
      const buck = saturationVapourPressurePa(celsius + 273.15);
      for (const formula of ['magnus-wmo', 'cipm-2007'] as const) {
        expect(Math.abs(saturationVapourPressurePa(celsius + 273.15, formula) / buck - 1)).toBeLessThan(
          0.005,
        );
      }
    }
  });
});

describe('the standard atmosphere', () => {
  it('gives back the altitude it was asked for, by density and by pressure', () => {
    fc.assert(
      fc.property(fc.double({ min: -4900, max: 10_900, noNaN: true }), altitudeM => {
        const { densityKgm3, pressurePa } = standardAtmosphere(altitudeM);
        expect(densityAltitudeM(densityKgm3)).toBeCloseTo(altitudeM, 6);
        expect(pressureAltitudeM(pressurePa)).toBeCloseTo(altitudeM, 6);
      }),
    );
  });

  it('ends with the troposphere', () => {
    expect(() => standardAtmosphere(11_001)).toThrow(RangeError);
    expect(() => standardAtmosphere(Number.NaN)).toThrow(RangeError);
    expect(() => densityAltitudeM(0.3)).toThrow(RangeError);
    expect(() => densityAltitudeM(3)).toThrow(RangeError);
  });

  // Rule of pilots' handbooks, from memory: 120 ft for each °C above standard. At 5000 ft and 30 °C it gives 8000 ft.
  it('comes near the rule of thumb of aviation', () => {
    const { pressurePa } = standardAtmosphere(5000 * 0.3048);
    const hot = idealGasDensityKgm3({ temperatureK: 303.15, pressurePa, relativeHumidity: 0 });
    expect(Math.abs(densityAltitudeM(hot) / 0.3048 - 8000)).toBeLessThan(250);
  });
});
