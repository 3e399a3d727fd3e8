import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { moveApart } from '../../pipeline/figure/move-apart.ts';

const places = fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 1, maxLength: 8 });

describe('moving labels apart', () => {
  it('leaves at least the gap between neighbours and stays inside while they fit', () => {
    fc.assert(
      fc.property(places, wanted => {
        const moved = moveApart(wanted, 20, 0, 300);
        const sorted = [...moved].sort((a, b) => a - b);
        for (const [i, place] of sorted.entries()) {
          if (i > 0) expect(place - sorted[i - 1]!).toBeGreaterThanOrEqual(20 - 1e-9);
          expect(place).toBeGreaterThanOrEqual(0);
          expect(place).toBeLessThanOrEqual(300 + 1e-9);
        }
      }),
    );
  });

  it('keeps the order wanted', () => {
    fc.assert(
      fc.property(places, wanted => {
        const moved = moveApart(wanted, 20, 0, 300);
        for (const [i, a] of wanted.entries()) {
          for (const [j, b] of wanted.entries()) if (a < b) expect(moved[i]!).toBeLessThan(moved[j]!);
        }
      }),
    );
  });

  it('leaves alone what is apart already', () => {
    expect(moveApart([250, 10, 100], 20, 0, 300)).toEqual([250, 10, 100]);
  });

  it('shares the way evenly between two that coincide', () => {
    expect(moveApart([100, 100], 20, 0, 300)).toEqual([90, 110]);
  });
});
