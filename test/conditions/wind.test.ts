import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beyondLimits, EUROPEAN_COAST_DOWN } from '../../pipeline/conditions/limits.ts';
import { dragRatio, twoWayDragRatio, windComponents } from '../../pipeline/conditions/wind.ts';

const degrees = fc.double({ min: 0, max: 360, noNaN: true });

describe('windComponents', () => {
  it('is against the car that drives to where the wind comes from', () => {
    const against = windComponents(5, 270, 270);
    expect(against.headwindMps).toBe(5);
    expect(against.crosswindMps).toBe(0);
    expect(windComponents(5, 90, 270).headwindMps).toBeCloseTo(-5, 12);
  });

  it('is positive across from the right', () => {
    expect(windComponents(4, 90, 0).crosswindMps).toBeCloseTo(4, 12);
    expect(windComponents(4, 270, 0).crosswindMps).toBeCloseTo(-4, 12);
    expect(windComponents(4, 90, 0).headwindMps).toBeCloseTo(0, 12);
  });

  it('keeps the wind whole, and turns over with the direction driven', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 30, noNaN: true }), degrees, degrees, (wind, from, heading) => {
        const out = windComponents(wind, from, heading);
        const back = windComponents(wind, from, heading + 180);
        expect(Math.hypot(out.headwindMps, out.crosswindMps)).toBeCloseTo(wind, 9);
        expect(back.headwindMps).toBeCloseTo(-out.headwindMps, 9);
        expect(back.crosswindMps).toBeCloseTo(-out.crosswindMps, 9);
      }),
    );
  });
});

describe('drag in wind', () => {
  it('of opposite runs never comes below drag in still air', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 60, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (speed, share) => {
          const wind = speed * share;
          expect(twoWayDragRatio(speed, wind)).toBeCloseTo(1 + share * share, 9);
          expect(dragRatio(speed, wind)).toBeGreaterThanOrEqual(dragRatio(speed, -wind));
        },
      ),
    );
  });

  it('pushes where the wind from behind is faster than the car', () => {
    expect(dragRatio(5, -10)).toBe(-1);
  });
});

describe('beyondLimits', () => {
  const reference = 1.189;
  it('finds nothing on a still day', () => {
    expect(beyondLimits({}, EUROPEAN_COAST_DOWN, reference)).toEqual([]);
    expect(
      beyondLimits(
        { windMps: 3, gustMps: 4.9, crosswindMps: -1.9, densityKgm3: 1.25 },
        EUROPEAN_COAST_DOWN,
        reference,
      ),
    ).toEqual([]);
  });

  it('names everything that is beyond, crosswind from either side', () => {
    expect(
      beyondLimits(
        { windMps: 3.1, gustMps: 5, crosswindMps: -2, densityKgm3: 1.05 },
        EUROPEAN_COAST_DOWN,
        reference,
      ),
    ).toEqual(['wind', 'gusts', 'crosswind', 'density']);
  });
});
