import { describe, expect, it } from 'vitest';
import { mphToMps, mpsToKmh } from '../../pipeline/units.ts';
import { speedStops, speedText } from '../../site/desk/strip-speeds.ts';

describe('speeds beside the strip', () => {
  it('are round in the publication’s unit and stand where the data have them', () => {
    expect(speedStops(126, 260, 'km/h')).toEqual([0, 50, 100].map(kmh => expect.closeTo(kmh, 9)));
    const stops = speedStops(126, 260, 'mph');
    expect(stops).toEqual([0, 20, 40, 60].map(mph => expect.closeTo(mpsToKmh(mphToMps(mph)), 9)));
    expect(stops.map(kmh => speedText(kmh, 'mph'))).toEqual(['0', '20', '40', '60']);
  });

  it('leave room for their letters and end within the plot', () => {
    for (const unit of ['km/h', 'mph'] as const) {
      for (const highest of [20, 47, 126, 260, 400]) {
        const stops = speedStops(highest, 260, unit);
        expect(stops.at(-1)).toBeLessThanOrEqual(highest + 1e-9);
        expect(stops.length).toBeGreaterThan(1);
        expect(((stops[1]! - stops[0]!) / highest) * 260).toBeGreaterThanOrEqual(44);
      }
    }
  });
});
