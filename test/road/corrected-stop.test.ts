import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CORRECTED_FROM_SHARE, correctedStop } from '../../pipeline/road/corrected-stop.ts';
import { kmhToMps } from '../../pipeline/units.ts';

describe('a stop set to the stated speed', () => {
  const stated = kmhToMps(100);

  it('is exact where deceleration is the same from the first instant', () => {
    fc.assert(
      fc.property(
        fc.double({ min: CORRECTED_FROM_SHARE, max: 1.02, noNaN: true }),
        fc.double({ min: 2, max: 12, noNaN: true }),
        (share, mps2) => {
          const passed = share * stated;
          const { correctedM, measuredM } = correctedStop(passed ** 2 / (2 * mps2), passed, stated)!;
          expect(correctedM).toBeCloseTo(stated ** 2 / (2 * mps2), 9);
          expect(measuredM).toBe(passed ** 2 / (2 * mps2));
        },
      ),
    );
  });

  it('is corrected too much by half the share of a linear build-up, and no more than 0.06 m', () => {
    // A linear build-up of 0.2 s to 8 m/s²: v²/2a + v·tₛ/2 − a·tₛ²/24 (closed form).
    const closed = (mps: number): number => mps ** 2 / 16 + mps * 0.1 - (8 * 0.04) / 24;
    for (const share of [0.98, 0.99, 1.01, 1.02]) {
      const { correctedM } = correctedStop(closed(share * stated), share * stated, stated)!;
      const over = correctedM - closed(stated);
      expect(Math.abs(over)).toBeLessThan(0.06);
      expect(Math.sign(over)).toBe(share < 1 ? 1 : -1);
    }
  });

  it('is refused beyond 2 % either way, and for what is no speed', () => {
    expect(correctedStop(40, 0.9799 * stated, stated)).toBeUndefined();
    expect(correctedStop(40, 1.0201 * stated, stated)).toBeUndefined();
    expect(correctedStop(40, 0, stated)).toBeUndefined();
    expect(correctedStop(40, Number.NaN, stated)).toBeUndefined();
  });
});
