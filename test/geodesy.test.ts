import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { destination, distanceM, geodesicBetween } from '../pipeline/geodesy.ts';

const latitude = fc.double({ min: -80, max: 80, noNaN: true });
const longitude = fc.double({ min: -179, max: 179, noNaN: true });

describe('geodesics', () => {
  it('lead to where they were aimed, as far as they were sent', () => {
    fc.assert(
      fc.property(
        latitude,
        longitude,
        fc.double({ min: -179, max: 179, noNaN: true }),
        fc.double({ min: 1, max: 5000, noNaN: true }),
        (lat, lon, bearing, metres) => {
          const there = destination(lat, lon, bearing, metres);
          const way = geodesicBetween(lat, lon, there.latitudeDeg, there.longitudeDeg);
          expect(way.distanceM).toBeCloseTo(metres, 5);
          expect(distanceM(lat, lon, there.latitudeDeg, there.longitudeDeg)).toBe(way.distanceM);
          // A metre's bearing is known to the rounding of its ends.
          const turn = Math.abs(way.startBearingDeg - bearing);
          expect(Math.min(turn, 360 - turn)).toBeLessThan(1e-3);
        },
      ),
    );
  });

  it('are as long back as forth', () => {
    fc.assert(
      fc.property(latitude, longitude, latitude, longitude, (lat1, lon1, lat2, lon2) => {
        const out = distanceM(lat1, lon1, lat2, lon2);
        expect(Math.abs(distanceM(lat2, lon2, lat1, lon1) - out)).toBeLessThan(1e-6);
      }),
    );
  });

  it('of a missing position have no length', () => {
    expect(distanceM(Number.NaN, 0, 1, 1)).toBeNaN();
    expect(distanceM(50, 8, 50, 8)).toBe(0);
  });
});
