import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  clockOrderToDayS,
  clockTextToS,
  DAY_S,
  dateTextToMs,
  msToDateText,
  sToClockText,
  zoneTextToS,
} from '../../pipeline/content/calendar.ts';
import { editDistance, nearMiss, sameButUnit } from '../../pipeline/content/near-miss.ts';

describe('edit distance', () => {
  // Wagner and Fischer, Journal of the ACM 21 (1974), and the usual textbook pairs; the last tells the
  // restricted form (3) from the unrestricted one (2). From memory.
  it.each([
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['', 'abc', 3],
    ['ab', 'ba', 1],
    ['ca', 'abc', 3],
  ])('from %s to %s is %i', (from, to, distance) => {
    expect(editDistance(from, to)).toBe(distance);
  });

  it('is a distance: 0 for the same, the same both ways, at most the longer word', () => {
    const word = fc.string({ maxLength: 8 });
    fc.assert(
      fc.property(word, word, (a, b) => {
        expect(editDistance(a, a)).toBe(0);
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, b)).toBeLessThanOrEqual(Math.max([...a].length, [...b].length));
      }),
    );
  });
});

describe('the word somebody meant', () => {
  it.each([
    ['wnd_mps', 'wind_mps'],
    ['Wind-mps', 'wind_mps'],
    ['wind_from_deg', 'wind_from_deg'],
    ['temprature_c', 'temperature_c'],
    ['colour', undefined],
    ['x', undefined],
  ])('%s → %s', (word, expected) => {
    expect(nearMiss(word, ['wind_mps', 'wind_from_deg', 'temperature_c', 'surface'])).toBe(expected);
  });
});

describe('clock and calendar', () => {
  it('a clock time survives the way to seconds and back', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: DAY_S - 1 }), s => {
        expect(clockTextToS(sToClockText(s))).toBe(s);
        expect(sToClockText(s + DAY_S)).toBe(sToClockText(s));
        expect(sToClockText(s - DAY_S)).toBe(sToClockText(s));
      }),
    );
  });

  it.each(['24:00', '10:60', '1:00', '10:22:60', '10.22', ''])('%j is no clock time', text => {
    expect(clockTextToS(text)).toBeUndefined();
  });

  it('a date survives the way to milliseconds and back, and no other text is one', () => {
    const day = fc.integer({ min: -30_000, max: 60_000 }).map(n => n * DAY_S * 1000);
    fc.assert(
      fc.property(day, ms => {
        expect(dateTextToMs(msToDateText(ms))).toBe(ms);
      }),
    );
    // Days of the months: ISO 8601-1:2019, table 1; 1900 has no 29 February, 2000 has one.
    for (const text of ['2026-02-29', '1900-02-29', '2026-04-31', '2026-13-01', '2026-00-10', '2026-1-1']) {
      expect(dateTextToMs(text), text).toBeUndefined();
    }
    expect(dateTextToMs('2000-02-29')).toBe(951_782_400_000);
  });

  it('zones are signed hours and minutes', () => {
    expect(['+01:00', '-03:30', '+00:00', '+14:00'].map(zoneTextToS)).toEqual([3600, -12_600, 0, 50_400]);
    expect(zoneTextToS('Z')).toBeUndefined();
  });

  it('only a step back of more than twelve hours is midnight', () => {
    const hours = (...h: number[]) => clockOrderToDayS(h.map(n => n * 3600)).map(s => s / 3600);
    expect(hours(9, 10, 11)).toEqual([9, 10, 11]);
    expect(hours(9, 8, 11)).toEqual([9, 8, 11]);
    expect(hours(22, 23, 0.5, 1)).toEqual([22, 23, 24.5, 25]);
  });
});

describe('a field that is the same but for its unit', () => {
  const fields = [
    'at',
    'temperature_c',
    'wind_mps',
    'wind_from_deg',
    'gust_mps',
    'power_kw',
    'length_m',
    'length_ft',
  ];

  it.each([
    ['wind_kmh', 'wind_mps'],
    ['temperature_f', 'temperature_c'],
    ['power', 'power_kw'],
    ['Power', 'power_kw'],
    ['length', undefined],
    ['at_s', undefined],
    ['surface', undefined],
  ])('of %s is %s', (name, expected) => {
    expect(sameButUnit(name, fields)).toBe(expected);
  });
});
