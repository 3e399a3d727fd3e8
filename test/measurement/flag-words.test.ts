/** What flags say, number by number, in both languages. */
import { describe, expect, it } from 'vitest';
import { flag, flagText } from '../../pipeline/measurement/flag-words.ts';

const both = (one: ReturnType<typeof flag>): [string, string] => [flagText(one, 'en'), flagText(one, 'de')];

describe('a poor fix', () => {
  it('says each of its reasons that there is, and no other', () => {
    expect(both(flag('poor-fix', { satellites: 5 }))).toEqual(['5 satellites', '5 Satelliten']);
    expect(both(flag('poor-fix', { satellites: 1 }))[1]).toBe('1 Satellit');
    expect(both(flag('poor-fix', { dilution: 2.64 }))).toEqual([
      'horizontal dilution of precision 2.6',
      'horizontale Genauigkeitsminderung (HDOP) 2,6',
    ]);
    expect(both(flag('poor-fix', { statedKmh: 0.9 }))).toEqual([
      'receiver states 0.90 km/h',
      'Empfänger gibt 0,90 km/h an',
    ]);
    expect(both(flag('poor-fix', { satellites: 4, dilution: 3, statedKmh: 1.234 }))).toEqual([
      '4 satellites; horizontal dilution of precision 3.0; receiver states 1.23 km/h',
      '4 Satelliten; horizontale Genauigkeitsminderung (HDOP) 3,0; Empfänger gibt 1,23 km/h an',
    ]);
  });
});

describe('other flags', () => {
  it('give their numbers with as many digits as they are worth', () => {
    const texts = [
      flag('gap', { missingS: 0.456, afterS: 12.3449 }),
      flag('held-values', { everyS: 0.25 }),
      flag('low-rate', { rateHz: 4.96, limitHz: 10 }),
      flag('noisy', { kmh: 0.2345 }),
      flag('filtered', { filterS: 0.1049 }),
      flag('brief-rest', { filterS: 0.1049 }),
      flag('irregular', { ms: 3.4 }),
      flag('creep', { m: 0.456, kmh: 1.26 }),
      flag('rolled-back', { kmh: 1.26, withinS: 1.5 }),
      flag('warm-driveline', { place: 3, pauseS: 61.4, limitS: 120 }),
      flag('short-road', { usedM: 812.4, lengthM: 900 }),
      flag('wind', { mps: 3.26, limitMps: 3 }),
    ].map(one => flagText(one, 'en').match(/\d+(?:\.\d+)?/g));
    expect(texts).toEqual([
      ['0.46', '12.34'],
      ['0.2'],
      ['5.0', '10'],
      ['0.23'],
      ['0.10'],
      ['0.10'],
      ['3'],
      ['0.46', '1.3'],
      ['1.3', '1.5'],
      ['3', '61', '120'],
      ['812', '900'],
      ['3.3', '3'],
    ]);
  });

  it('tell whether a road rises or falls, and count spikes', () => {
    expect(both(flag('slope', { risePct: 0.6, limitPct: 0.5 }))).toEqual([
      'the road rises 0.60 %; the limit of this publication is 0.5 %',
      'die Straße steigt um 0,60 %; die Grenze dieser Publikation liegt bei 0,5 %',
    ]);
    expect(both(flag('slope', { risePct: -0.6, limitPct: 0.5 }))).toEqual([
      'the road falls 0.60 %; the limit of this publication is 0.5 %',
      'die Straße fällt um 0,60 %; die Grenze dieser Publikation liegt bei 0,5 %',
    ]);
    expect(both(flag('spike', { count: 1 }))[0]).toBe('1 impossible reading left out');
    expect(both(flag('spike', { count: 2 }))[0]).toBe('2 impossible readings left out');
  });
});
