/** What is told where conditions forbid a figure: every reason, with its numbers, in both languages. */
import { describe, expect, it } from 'vitest';
import { pressureAltitudeM, standardAtmosphere } from '../../pipeline/conditions/atmosphere.ts';
import type { CoastDownRefusal } from '../../pipeline/conditions/coast-down.ts';
import { coastDownRefusalInWords } from '../../pipeline/conditions/coast-down-words.ts';
import { refusalInWords } from '../../pipeline/conditions/power-words.ts';
import { notRestatedInWords } from '../../pipeline/conditions/restate-words.ts';
import { rotatingShare } from '../../pipeline/conditions/rotating-mass.ts';
import { unitInWords } from '../../pipeline/measurement/words/units.ts';

describe('why coasting decides nothing', () => {
  const said = (refusal: CoastDownRefusal): [string, string] => [
    coastDownRefusalInWords(refusal, 'en'),
    coastDownRefusalInWords(refusal, 'de'),
  ];

  it('is told by its numbers where there are any', () => {
    for (const text of said({ why: 'few', there: 1, back: 3, fewest: 2 })) {
      expect(text.match(/\d/g)).toEqual(['1', '3', '2']);
    }
    for (const text of said({ why: 'disagree', percent: 11.6 })) expect(text).toContain('12 %');
  });

  it('is told apart, in words that differ', () => {
    const texts = (['narrow', 'undetermined', 'negative'] as const).flatMap(why => said({ why }));
    expect(new Set(texts).size).toBe(6);
    for (const text of texts) expect(text.length).toBeGreaterThan(20);
  });
});

describe('why power is not corrected', () => {
  it('is the engine', () => {
    const texts = (['electric', 'petrol-boosted', 'diesel'] as const).flatMap(engine =>
      (['en', 'de'] as const).map(spoken => refusalInWords({ of: 'engine', engine }, spoken)),
    );
    expect(new Set(texts).size).toBe(6);
    for (const text of texts) expect(text.length).toBeGreaterThan(20);
  });
});

describe('why a run is not restated', () => {
  it('counts what is not known', () => {
    expect(notRestatedInWords({ why: 'not-known', facts: ['road'] }, 'en')).toBe(
      'the slope of the road is not known',
    );
    expect(notRestatedInWords({ why: 'not-known', facts: ['road', 'relativeHumidity'] }, 'en')).toMatch(
      / are not known$/,
    );
  });
});

describe('units that are words', () => {
  it('are said in the reader’s language, symbols as they are', () => {
    expect([unitInWords('readings', 'en'), unitInWords('readings', 'de')]).toEqual(['readings', 'Messwerte']);
    expect([unitInWords('m/s', 'en'), unitInWords('m/s', 'de')]).toEqual(['m/s', 'm/s']);
  });
});

describe('where the formulas end', () => {
  it('a pressure of 11 km has that altitude still', () => {
    const { pressurePa } = standardAtmosphere(11_000);
    expect(pressureAltitudeM(pressurePa * 1.000_001)).toBeCloseTo(11_000, 1);
    expect(() => pressureAltitudeM(pressurePa * 0.999_9)).toThrow(RangeError);
  });

  it('a car at rest turns as one in first gear does', () => {
    for (const speed of [0, 0.05, 0.1, 0.105]) {
      expect(rotatingShare('petrol', speed)).toEqual(rotatingShare('petrol', 5));
    }
  });
});
