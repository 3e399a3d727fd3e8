import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distanceToSegment, type Point, thinLine } from '../../pipeline/figure/thin.ts';

const TOLERANCE = { x: 0.05, y: 0.4 };
const line = fc
  .array(fc.float({ min: -100, max: 100, noNaN: true }), { minLength: 1, maxLength: 300 })
  .map(ys => ys.map((y, x): Point => ({ x: x / 10, y })));

const farthestOff = (all: readonly Point[], kept: readonly Point[]): number =>
  Math.max(
    ...all.map(point => {
      const after = kept.findIndex(({ x }) => x >= point.x);
      const to = kept[after]!;
      return distanceToSegment(point, kept[after - 1] ?? to, to, TOLERANCE);
    }),
  );

describe('thinning a line', () => {
  it('leaves no dropped point farther than the tolerance from the drawn line', () => {
    fc.assert(
      fc.property(line, points => {
        expect(farthestOff(points, thinLine(points, TOLERANCE, 1000))).toBeLessThanOrEqual(1 + 1e-9);
      }),
    );
  });

  it('keeps the first and the last point and the order', () => {
    fc.assert(
      fc.property(line, points => {
        const kept = thinLine(points, TOLERANCE, 20);
        expect(kept[0]).toBe(points[0]);
        expect(kept.at(-1)).toBe(points.at(-1));
        expect(kept.every((point, i) => i === 0 || point.x > kept[i - 1]!.x)).toBe(true);
        expect(kept.length).toBeLessThanOrEqual(Math.max(20, 2));
      }),
    );
  });

  it('keeps a single peak among a thousand points on a straight line and little else', () => {
    const points = Array.from({ length: 1000 }, (_, x): Point => ({ x, y: x === 437 ? 50 : 0 }));
    const kept = thinLine(points, TOLERANCE);
    expect(kept.map(({ x }) => x)).toEqual([0, 436, 437, 438, 999]);
  });
});
