import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { ConditionsContent, RoadContent } from '../../pipeline/content/schema.ts';
import {
  conditionsToFlags,
  directionOf,
  placeReadings,
  readingBefore,
  readingToConditions,
  slopePct,
} from '../../pipeline/result/match-conditions.ts';

const east = { id: 'east', name: 'East', heading_deg: 90 };
const west = { id: 'west', name: 'West', heading_deg: 270 };
const road = (more: Partial<RoadContent> = {}): RoadContent => ({
  name: 'x',
  about: 'x',
  permission: 'x',
  surface: 'x',
  length_m: 1000,
  directions: [east, west],
  ...more,
});
const reading = (at: string, more: Partial<ConditionsContent> = {}): ConditionsContent => ({ at, ...more });

describe('the reading of an attempt', () => {
  const readings = [reading('22:00'), reading('23:30'), reading('00:30')];
  const readingsS = [22, 23.5, 24.5].map(h => h * 3600);

  it.each([
    [21, '22:00'],
    [22, '22:00'],
    [23.4, '22:00'],
    [23.5, '23:30'],
    [24.4, '23:30'],
    [25, '00:30'],
  ])('that begins at hour %d is the one made at %s', (hour, at) => {
    const placed = placeReadings(readings, readingsS, 22 * 3600);
    expect(readingBefore(placed, hour * 3600).reading.at).toBe(at);
  });

  it('is the first one where the instant is not known', () => {
    expect(readingBefore(placeReadings(readings, readingsS, undefined), undefined).reading.at).toBe('22:00');
  });

  it('made after midnight is of the night of the runs, not of the night before', () => {
    const placed = placeReadings([reading('00:10'), reading('00:50')], [600, 3000], 23.9 * 3600);
    expect(readingBefore(placed, 24.5 * 3600).reading.at).toBe('00:10');
  });
});

describe('air, wind and slope', () => {
  it('are there for every reading the schema lets through, without an exception', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -60, max: 60, noNaN: true }),
        fc.double({ min: 500, max: 1100, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        (temperature_c, pressure_hpa, humidity_pct) => {
          const found = readingToConditions(
            reading('10:00', { temperature_c, pressure_hpa, humidity_pct }),
            road(),
            east,
          );
          expect(found.densityKgm3).toBeGreaterThan(0.4);
          expect(found.densityKgm3).toBeLessThan(1.9);
          expect(Number.isFinite(found.densityAltitudeM)).toBe(true);
        },
      ),
    );
  });

  it('leave out what was not written: no density without humidity, no headwind without a direction', () => {
    const told = { temperature_c: 20, pressure_hpa: 1000, wind_mps: 3, wind_from_deg: 90 };
    expect(readingToConditions(reading('10:00', told), road(), undefined)).toEqual({
      readAt: '10:00',
      temperatureK: 293.15,
      pressurePa: 100_000,
      windMps: 3,
    });
  });

  it('still air has neither headwind nor crosswind, whichever way it does not blow', () => {
    expect(readingToConditions(reading('10:00', { wind_mps: 0 }), road(), undefined)).toMatchObject({
      headwindMps: 0,
      crosswindMps: 0,
    });
  });

  it('opposite directions have opposite headwinds and slopes', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 30, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: -5, max: 5, noNaN: true }).filter(s => s !== 0),
        (wind_mps, wind_from_deg, slope_pct) => {
          const here = reading('10:00', { wind_mps, wind_from_deg });
          const there = readingToConditions(here, road({ slope_pct }), east);
          const back = readingToConditions(here, road({ slope_pct }), west);
          expect(there.headwindMps).toBeCloseTo(-back.headwindMps!, 9);
          expect(there.crosswindMps).toBeCloseTo(-back.crosswindMps!, 9);
          expect([there.slopePct, back.slopePct]).toEqual([slope_pct, -slope_pct]);
          expect(Math.hypot(there.headwindMps!, there.crosswindMps!)).toBeCloseTo(wind_mps, 9);
        },
      ),
    );
  });

  it('the slope comes from the profile where no mean is written: 3 m on 1000 m is 0.3 %', () => {
    const profile: [number, number][] = [
      [0, 10],
      [500, 15],
      [1000, 13],
    ];
    expect(slopePct(road({ profile }), 'east')).toBeCloseTo(0.3, 12);
    expect(slopePct(road({ profile, slope_pct: 0.1 }), 'west')).toBe(-0.1);
  });

  it('is unknown on a slope without a direction, and level on a level road', () => {
    expect(slopePct(road({ slope_pct: 1 }), undefined)).toBeUndefined();
    expect(slopePct(road({ slope_pct: 0 }), undefined)).toBe(0);
    expect(slopePct(road(), 'east')).toBeUndefined();
  });

  it('a road with one direction needs none noted', () => {
    expect(directionOf(road({ directions: [east] }), undefined)).toEqual(east);
    expect(directionOf(road(), undefined)).toBeUndefined();
    expect(directionOf(road(), 'nowhere')).toBeUndefined();
  });
});

describe('flags', () => {
  it('are raised beyond a limit, not at it, and not without one', () => {
    const conditions = { readAt: '10:00', windMps: 3, slopePct: -0.5 };
    const codes = (limits: Parameters<typeof conditionsToFlags>[1]) =>
      conditionsToFlags(conditions, limits).map(flag => flag.code);
    expect(codes(undefined)).toEqual([]);
    expect(codes({ wind_mps: 3, slope_pct: 0.5 })).toEqual([]);
    expect(codes({ wind_mps: 2.9, slope_pct: 0.4 })).toEqual(['wind', 'slope']);
  });
});
