import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { localFit, slopeWindowS } from '../../pipeline/figure/local-slope.ts';
import { launchAt } from '../result/fixture.ts';

describe('slope of a line through the readings of a window', () => {
  it('is exact for a parabola on even samples: the derivative of a + bt + ct² is b + 2ct', () => {
    const coefficient = fc.double({ min: -5, max: 5, noNaN: true });
    fc.assert(
      fc.property(coefficient, coefficient, coefficient, (a, b, c) => {
        const t = Array.from({ length: 41 }, (_, i) => i / 20);
        const { slope } = localFit(
          t,
          t.map(s => a + b * s + c * s * s),
          0.5,
        );
        expect(slope[20]!).toBeCloseTo(b + 2 * c * t[20]!, 9);
      }),
    );
  });

  it('gives the height of the fitted line too: a straight line is itself', () => {
    const t = Array.from({ length: 41 }, (_, i) => i / 20);
    const { value } = localFit(
      t,
      t.map(s => 3 - 2 * s),
      0.5,
    );
    expect(value[20]!).toBeCloseTo(3 - 2 * t[20]!, 12);
  });

  it('says nothing where the window reaches past an end or holds fewer than five readings', () => {
    const t = Array.from({ length: 21 }, (_, i) => i / 10);
    const { slope } = localFit(t, t, 0.4);
    expect([...slope].map(Number.isFinite)).toEqual(t.map(s => s > 0.15 && s < 1.85));
    expect([...localFit(t, t, 0.3).slope].some(Number.isFinite)).toBe(false);
  });

  it('has a window of half a second, or of five readings where they come more slowly', () => {
    expect(slopeWindowS(25)).toBe(0.5);
    expect(slopeWindowS(10)).toBe(0.5);
    expect(slopeWindowS(5)).toBeCloseTo(0.8, 12);
  });

  it('follows the closed-form acceleration of a launch within 0.05 m/s² once the onset is over', () => {
    const launch = { finalMps: 57, lagS: 8.8, onsetS: 0.2 };
    const t = Array.from({ length: 161 }, (_, i) => i / 20);
    const { slope } = localFit(
      t,
      t.map(s => launchAt(launch, s).speedMps),
      0.5,
    );
    for (const [i, s] of t.entries()) {
      if (s < 1 || !Number.isFinite(slope[i]!)) continue;
      expect(Math.abs(slope[i]! - launchAt(launch, s).accelerationMps2)).toBeLessThan(0.05);
    }
  });
});
