import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decimalsForUncertainty,
  roundToDecimals,
  roundToMultiple,
  roundUncertainty,
} from '../pipeline/round.ts';

const decimal = fc
  .tuple(fc.integer({ min: -10_000_000, max: 10_000_000 }), fc.integer({ min: 0, max: 6 }))
  .map(([units, places]) => Number(`${units}e-${places}`));

describe('roundToDecimals', () => {
  it('rounds ties to the even digit as the number is written', () => {
    const cases: readonly (readonly [number, number, string])[] = [
      [0.5, 0, '0'],
      [1.5, 0, '2'],
      [2.5, 0, '2'],
      [-2.5, 0, '-2'],
      [-1.5, 0, '-2'],
      [4.255, 2, '4.26'],
      [1.005, 2, '1.00'],
      [1.015, 2, '1.02'],
      [2.675, 2, '2.68'],
      [9.995, 2, '10.00'],
      [99.95, 1, '100.0'],
      [-0.05, 1, '0.0'],
    ];
    for (const [value, decimals, text] of cases)
      expect(roundToDecimals(value, decimals), `${value}`).toBe(text);
  });

  it('never gives a sign to zero', () => {
    expect(roundToDecimals(-0, 2)).toBe('0.00');
    expect(roundToDecimals(-0.004, 2)).toBe('0.00');
    expect(roundToDecimals(-1e-9, 0)).toBe('0');
  });

  it('writes very large and very small numbers out in full', () => {
    expect(roundToDecimals(1e21, 0)).toBe('1000000000000000000000');
    expect(roundToDecimals(1.5e21, 1)).toBe('1500000000000000000000.0');
    expect(roundToDecimals(1.25e-7, 8)).toBe('0.00000012');
    expect(roundToDecimals(5e-324, 3)).toBe('0.000');
  });

  it('rounds to tens and hundreds with negative decimals', () => {
    expect(roundToDecimals(1250, -2)).toBe('1200');
    expect(roundToDecimals(1350, -2)).toBe('1400');
    expect(roundToDecimals(-15, -1)).toBe('-20');
    expect(roundToDecimals(4, -1)).toBe('0');
  });

  it('refuses what is no number, and decimals that are no count', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expect(() => roundToDecimals(value, 2)).toThrow(RangeError);
    }
    expect(() => roundToDecimals(1, 1.5)).toThrow(RangeError);
    expect(() => roundToDecimals(1, Number.NaN)).toThrow(RangeError);
    expect(() => roundToMultiple(1, 0)).toThrow(RangeError);
    expect(() => roundToMultiple(1, -0.1)).toThrow(RangeError);
  });

  it('is never further off than half a unit, keeps its decimals, and is the same again', () => {
    fc.assert(
      fc.property(decimal, fc.integer({ min: 0, max: 5 }), (value, decimals) => {
        const text = roundToDecimals(value, decimals);
        expect(text.split('.')[1]?.length ?? 0).toBe(decimals);
        expect(Math.abs(Number(text) - value)).toBeLessThanOrEqual(0.5 * 10 ** -decimals * (1 + 1e-9));
        expect(roundToDecimals(Number(text), decimals)).toBe(text);
      }),
    );
  });

  it('is the mirror image for the negative of a number', () => {
    fc.assert(
      fc.property(decimal, fc.integer({ min: 0, max: 4 }), (value, decimals) => {
        const text = roundToDecimals(Math.abs(value), decimals);
        const mirrored = Number(text) === 0 ? text : `-${text}`;
        expect(roundToDecimals(-Math.abs(value), decimals)).toBe(mirrored);
      }),
    );
  });

  // The language itself rounds decimals written exactly, half to even, once it is told so (ECMA-402, halfEven).
  it('agrees with the half-even rounding of Intl on decimals in text form', () => {
    fc.assert(
      fc.property(decimal, fc.integer({ min: 0, max: 4 }), (value, decimals) => {
        const format = new Intl.NumberFormat('en', {
          minimumFractionDigits: decimals,
          maximumFractionDigits: decimals,
          roundingMode: 'halfEven',
          useGrouping: false,
          signDisplay: 'negative',
        });
        expect(roundToDecimals(value, decimals)).toBe(format.format(String(value) as `${number}`));
      }),
      { numRuns: 2000 },
    );
  });
});

describe('decimalsForUncertainty', () => {
  it('goes to the first digit of the uncertainty, and to the second after a 1', () => {
    const cases: readonly (readonly [number, number])[] = [
      [0.021, 2],
      [0.018, 3],
      [0.0999, 2],
      [0.1, 2],
      [0.3, 1],
      [0.95, 1],
      [1.4, 1],
      [2, 0],
      [14, 0],
      [25, -1],
      [0.000_31, 4],
      [0.199_999_999_999_999_98, 1],
    ];
    for (const [u, decimals] of cases) expect(decimalsForUncertainty(u, { most: 9 }), `${u}`).toBe(decimals);
  });

  it('never gives more than the most', () => {
    expect(decimalsForUncertainty(0.018, { most: 2 })).toBe(2);
    expect(decimalsForUncertainty(0, { most: 2 })).toBe(2);
    expect(decimalsForUncertainty(0.3, { most: 2 })).toBe(1);
  });

  it('refuses an uncertainty that is none', () => {
    for (const u of [-0.01, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => decimalsForUncertainty(u, { most: 2 })).toThrow(RangeError);
    }
  });
});

describe('roundUncertainty', () => {
  it('rounds to the nearest, but up where more than a tenth would go', () => {
    const cases: readonly (readonly [number, number, string])[] = [
      [0.021, 2, '0.02'],
      [0.024, 2, '0.03'],
      [0.004, 2, '0.01'],
      [0.0149, 2, '0.02'],
      [0.95, 1, '1.0'],
      [0.92, 1, '0.9'],
      [0, 2, '0.00'],
      [23, -1, '30'],
      [21, -1, '20'],
      [0.0985, 2, '0.10'],
    ];
    for (const [u, decimals, text] of cases) expect(roundUncertainty(u, decimals), `${u}`).toBe(text);
  });

  it('never prints an uncertainty above zero as zero', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1e-12, max: 50, noNaN: true }),
        fc.integer({ min: 0, max: 3 }),
        (u, decimals) => {
          const printed = Number(roundUncertainty(u, decimals));
          expect(printed).toBeGreaterThanOrEqual(0.9 * u);
          expect(printed).toBeLessThanOrEqual(u + 10 ** -decimals * (1 + 1e-9));
        },
      ),
    );
  });
});
