import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { MEASURES } from '../../pipeline/result/measures.ts';
import type { Result } from '../../pipeline/result/result.ts';
import {
  localiseDigits,
  printDifference,
  printMedian,
  printQuantity,
  printResult,
  withUnit,
} from '../../pipeline/result/words.ts';
import { kmhToMps } from '../../pipeline/units.ts';
import { houseFixture } from './fixture.ts';

const british = { language: 'en-GB' };
const german = { language: 'de-DE' };
const result: Result = {
  measure: '0-100-kmh',
  statistic: 'best',
  startRule: 'one-foot-rollout',
  value: 5.931,
  uncertainty: 0.021,
  n: 6,
  nSetAside: 2,
  median: 6.018,
  medianUncertainty: 0.09,
  among: {},
  attemptIds: ['a03'],
};

describe('printResult', () => {
  it('prints value, unit, uncertainty, rule and count, with no-break spaces', () => {
    expect(printResult(result, british)).toEqual({
      value: '5.93',
      unit: 's',
      text: '5.93\u00a0s',
      uncertainty: '±\u00a00.02\u00a0s',
      rule: 'clock after the one-foot rollout',
      count: 'best of 6, median 6.02\u00a0s; 2 set aside',
      full: '0–100 km/h: 5.93\u00a0s ±\u00a00.02\u00a0s (k = 2), clock after the one-foot rollout, best of 6, median 6.02\u00a0s, 2 set aside.',
    });
  });

  it('prints a median to the places of its own uncertainty, as wherever else it stands', () => {
    for (const [medianUncertainty, text] of [
      [0.02, '6.02'],
      [0.3, '6.0'],
      [4, '6'],
    ] as const) {
      const of = { ...result, medianUncertainty };
      const alone = { ...of, statistic: 'median' as const, value: of.median, uncertainty: medianUncertainty };
      expect(printResult(of, british).count).toBe(`best of 6, median ${text}\u00a0s; 2 set aside`);
      expect(printMedian(of, british)).toBe(`${text}\u00a0s`);
      expect(printResult(alone, british).text).toBe(printMedian(of, british));
    }
  });

  it('uses the decimal sign of the language', () => {
    const { text, uncertainty, count } = printResult(result, german);
    expect(text).toBe('5,93\u00a0s');
    expect(uncertainty).toBe('±\u00a00,02\u00a0s');
    expect(count).toContain('6,02\u00a0s');
  });

  it('says which clock', () => {
    expect(printResult({ ...result, startRule: 'first-movement' }, british).rule).toBe(
      'clock from first movement',
    );
    const { startRule, ...rolling } = result;
    expect(startRule).toBeDefined();
    expect(printResult({ ...rolling, measure: '80-120-kmh' }, british)).not.toHaveProperty('rule');
  });

  it('counts in words', () => {
    const count = (more: Partial<Result>): string =>
      printResult({ ...result, nSetAside: 0, ...more }, british).count;
    expect(count({})).toBe('best of 6, median 6.02\u00a0s');
    expect(count({ statistic: 'median' })).toBe('median of 6');
    expect(count({ statistic: 'median', nSetAside: 1 })).toBe('median of 6; 1 set aside');
    expect(count({ statistic: 'this' })).toBe('one of 6 attempts, median 6.02\u00a0s');
    expect(count({ n: 1 })).toBe('one attempt');
    expect(count({ n: 1, statistic: 'median', nSetAside: 3 })).toBe('one attempt; 3 set aside');
  });

  it('gives no more digits than the uncertainty carries, and never more than two decimals of a second', () => {
    const text = (uncertainty: number): string => {
      const printed = printResult({ ...result, uncertainty }, british);
      return `${printed.value} ${printed.uncertainty}`;
    };
    expect(text(0.004)).toBe('5.93 ±\u00a00.01\u00a0s');
    expect(text(0.15)).toBe('5.93 ±\u00a00.15\u00a0s');
    expect(text(0.3)).toBe('5.9 ±\u00a00.3\u00a0s');
    expect(text(2.4)).toBe('6 ±\u00a03\u00a0s');
  });

  it('prints speeds in km/h and says where no uncertainty can be stated', () => {
    const { uncertainty, ...speed } = { ...result, measure: '402-m-speed' as const, value: kmhToMps(158.14) };
    expect(uncertainty).toBeDefined();
    const printed = printResult({ ...speed, median: kmhToMps(157.6) }, british);
    expect(printed.text).toBe('158\u00a0km/h');
    expect(printed).not.toHaveProperty('uncertainty');
    expect(printed.full).toContain('no uncertainty can be stated');
    const known = printResult({ ...speed, uncertainty: kmhToMps(0.4) }, british);
    expect(known.text).toBe('158.1\u00a0km/h');
    expect(known.uncertainty).toBe('±\u00a00.4\u00a0km/h');
  });

  it('names the launch method where the house is known, and what a median’s uncertainty holds', () => {
    const narrowed = { ...result, statistic: 'median' as const, among: { launch: 'brake' } };
    const { full } = printResult(narrowed, houseFixture());
    expect(full).toContain('launch method: Brake and throttle');
    expect(full).toContain('about 95 %, scatter between attempts included');
    expect(printResult(narrowed, british).full).not.toContain('launch method');
    expect(printResult({ ...narrowed, n: 5 }, british).full).toContain('so few attempts taken as normal');
    expect(printResult({ ...narrowed, n: 1 }, british).full).toContain('(k = 2)');
  });
});

describe('printQuantity', () => {
  it('converts from SI and prints with the unit', () => {
    const cases: readonly (readonly [string, string])[] = [
      [printQuantity(287.65, 'temperature', 1, 'en-GB'), '14.5\u00a0°C'],
      [printQuantity(269.95, 'temperature', 1, 'en-GB'), '−3.2\u00a0°C'],
      [printQuantity(273.149, 'temperature', 1, 'en-GB'), '0.0\u00a0°C'],
      [printQuantity(98_512, 'pressure', undefined, 'en-GB'), '985\u00a0hPa'],
      [printQuantity(0.624, 'humidity', undefined, 'de-DE'), '62\u00a0%'],
      [printQuantity(1460, 'mass', undefined, 'en-GB'), '1460\u00a0kg'],
      [printQuantity(12_345.6, 'mass', 1, 'en-GB'), '12,345.6\u00a0kg'],
      [printQuantity(12_345.6, 'mass', 1, 'de-DE'), '12.345,6\u00a0kg'],
      [printQuantity(kmhToMps(100), 'speed', 0, 'en-GB'), '100\u00a0km/h'],
      [printQuantity(1.2042, 'density', undefined, 'de-DE'), '1,204\u00a0kg/m³'],
      [printQuantity(115_000, 'power', undefined, 'en-GB'), '115\u00a0kW'],
      [printQuantity(-0.4, 'slope', undefined, 'en-GB'), '−0.4\u00a0%'],
      [printQuantity(88, 'angle', 0, 'en-GB'), '88°'],
      [printQuantity(14, 'count', undefined, 'en-GB'), '14'],
    ];
    for (const [printed, expected] of cases) expect(printed).toBe(expected);
  });

  it('rounds by an uncertainty in SI, as a difference of temperatures and not as one', () => {
    expect(printQuantity(287.653, 'temperature', { uncertainty: 0.5 }, 'en-GB')).toBe('14.5\u00a0°C');
    expect(printQuantity(287.653, 'temperature', { uncertainty: 2 }, 'en-GB')).toBe('15\u00a0°C');
    expect(printQuantity(43.72, 'distance', { uncertainty: 0.5 }, 'en-GB')).toBe('43.7\u00a0m');
  });

  // 12.25 km/h has no exact value in m/s, 14.5 °C none in K; both still end on a tie, and go to the even digit.
  it('does not let the conversion to SI and back decide a tie', () => {
    expect(printQuantity(kmhToMps(12.25), 'speed', 1, 'en-GB')).toBe('12.2\u00a0km/h');
    expect(printQuantity(kmhToMps(12.35), 'speed', 1, 'en-GB')).toBe('12.4\u00a0km/h');
    for (let tenths = -395; tenths < 400; tenths += 10) {
      const celsius = tenths / 10;
      const even = (2 * Math.round(celsius / 2)).toString().replace('-', '−').replace(/^−0$/, '0');
      expect(printQuantity(celsius + 273.15, 'temperature', 0, 'en-GB')).toBe(`${even}\u00a0°C`);
    }
  });

  it('throws where there is no number', () => {
    expect(() => printQuantity(Number.NaN, 'mass', 0, 'en-GB')).toThrow(RangeError);
  });
});

describe('digits', () => {
  it('keep their value and their places in every language', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -9_999_999, max: 9_999_999 }),
        fc.integer({ min: 0, max: 4 }),
        fc.constantFrom('en-GB', 'de-DE', 'fr-FR', 'sv-SE', 'nb-NO', 'es-ES', 'pl-PL', 'ar-EG', 'hi-IN'),
        (units, places, language) => {
          const text = (units / 10 ** places).toFixed(places);
          const printed = localiseDigits(text, language)
            .replaceAll('\u200f', '')
            .replaceAll('\u200e', '')
            .replaceAll('\u061c', '');
          expect(printed.replace(/[^0-9]/g, '')).toBe(text.replace(/[^0-9]/g, ''));
          expect(printed).not.toContain('-');
          expect(printed.includes('−')).toBe(text.startsWith('-'));
        },
      ),
    );
  });

  it('keep every digit of numbers beyond the precision of a number', () => {
    expect(localiseDigits('12345678901234567890.123456789', 'de-DE')).toBe(
      '12.345.678.901.234.567.890,123456789',
    );
  });

  it('stand close to a degree sign and apart from everything else', () => {
    expect(withUnit('12', '°')).toBe('12°');
    expect(withUnit('12', 's')).toBe('12\u00a0s');
    expect(withUnit('12', '')).toBe('12');
  });

  it('of a difference never carry a sign', () => {
    expect(printDifference(-0.47, 0.03, MEASURES['0-100-kmh'], 'en-GB')).toEqual({
      text: '0.47\u00a0s',
      uncertainty: '±\u00a00.03\u00a0s',
    });
    expect(printDifference(0.47, Number.POSITIVE_INFINITY, MEASURES['0-100-kmh'], 'en-GB')).toEqual({
      text: '0.5\u00a0s',
    });
  });
});
