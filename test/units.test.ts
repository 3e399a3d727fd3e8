import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { roundToMultiple } from '../pipeline/round.ts';
import * as units from '../pipeline/units.ts';

const quantity = fc.double({ min: -1e6, max: 1e6, noNaN: true });

describe('conversions', () => {
  it.each([
    ['km/h', units.kmhToMps, units.mpsToKmh],
    ['mph', units.mphToMps, units.mpsToMph],
    ['°C', units.celsiusToKelvin, units.kelvinToCelsius],
    ['hPa', units.hpaToPa, units.paToHpa],
    ['degrees', units.degToRad, units.radToDeg],
    ['feet', units.feetToM, units.mToFeet],
  ])('from %s and back change nothing', (_, to, back) => {
    fc.assert(
      fc.property(quantity, value => {
        expect(Math.abs(back(to(value)) - value)).toBeLessThanOrEqual(1e-9 + 1e-14 * Math.abs(value));
      }),
    );
  });

  // Printed factors of NIST SP 811, appendix B.8, seven digits.
  it('agree with the printed factors of NIST SP 811', () => {
    const factors: readonly (readonly [number, string])[] = [
      [units.HORSEPOWER_W, '7.456999e+2'],
      [units.METRIC_HORSEPOWER_W, '7.354988e+2'],
      [units.POUND_FORCE_FOOT_NM, '1.355818e+0'],
      [units.PSI_PA, '6.894757e+3'],
      [units.POUND_KG, '4.535924e-1'],
      [units.KNOT_MPS, '5.144444e-1'],
      [units.MPH_MPS, '4.470400e-1'],
    ];
    for (const [factor, printed] of factors) {
      const lastDigit = Number(`1e${Number(printed.split('e')[1]) - 6}`);
      expect(Number(roundToMultiple(factor, lastDigit))).toBe(Number(printed));
    }
  });

  it('of display units divide by those factors', () => {
    expect(units.wToHorsepower(units.HORSEPOWER_W * 150)).toBeCloseTo(150, 9);
    expect(units.wToMetricHorsepower(units.kwToW(73.549875))).toBeCloseTo(100, 9);
    expect(units.kgToPounds(1000)).toBeCloseTo(2204.62262, 4);
    expect(units.nmToPoundForceFeet(100)).toBeCloseTo(73.75621, 4);
    expect(units.paToPsi(230_000)).toBeCloseTo(33.3586, 3);
  });
});
