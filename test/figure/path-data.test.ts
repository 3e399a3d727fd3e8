import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pathSegments, type Segment } from '../../pipeline/figure/path-data.ts';

const ends = (segments: readonly Segment[]): number[][] =>
  segments.flatMap(segment => (segment.to === 'Z' ? [] : [segment.points.slice(-2) as number[]]));

/** A point of a cubic curve. */
function onCurve(from: readonly number[], c: readonly number[], t: number): [number, number] {
  const mix = (a: number, b: number, d: number, e: number): number =>
    a * (1 - t) ** 3 + 3 * b * t * (1 - t) ** 2 + 3 * d * t * t * (1 - t) + e * t ** 3;
  return [mix(from[0]!, c[0]!, c[2]!, c[4]!), mix(from[1]!, c[1]!, c[3]!, c[5]!)];
}

describe('path data', () => {
  it('reads absolute and relative commands to the same places', () => {
    expect(pathSegments('M10,20 l5-5 h3 v-2 H1 V2 z m1 1')).toEqual(
      pathSegments('M10 20 L15 15 L18 15 L18 13 L1 13 L1 2 Z M11 21'),
    );
  });

  it('takes further pairs after a move for lines', () => {
    expect(pathSegments('m1 1 2 2 3 3').map(({ to }) => to)).toEqual(['M', 'L', 'L']);
  });

  it('raises a quadratic curve to the cubic one through the same points', () => {
    const [, curve] = pathSegments('M0 0 Q10 20 30 0');
    for (const t of [0.1, 0.5, 0.9]) {
      const [x, y] = onCurve([0, 0], (curve as { points: readonly number[] }).points, t);
      expect(x).toBeCloseTo(2 * t * (1 - t) * 10 + t * t * 30, 9);
      expect(y).toBeCloseTo(2 * t * (1 - t) * 20, 9);
    }
  });

  it('mirrors the control point of the curve before (SVG 2, 9.3.6 and 9.3.7)', () => {
    expect(pathSegments('M0 0 C0 10 10 10 10 0 S20 -10 20 0')).toEqual(
      pathSegments('M0 0 C0 10 10 10 10 0 C10 -10 20 -10 20 0'),
    );
    expect(pathSegments('M0 0 Q5 10 10 0 T20 0')).toEqual(pathSegments('M0 0 Q5 10 10 0 Q15 -10 20 0'));
  });

  it('keeps every point of a circular arc on its circle to 0.03 % of the radius', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.5, max: 500, noNaN: true }),
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.double({ min: 0.1, max: 6.1, noNaN: true }),
        fc.boolean(),
        (radius, begins, sweeps, clockwise) => {
          const angle = begins + (clockwise ? sweeps : -sweeps);
          const at = (a: number): [number, number] => [radius * Math.cos(a), radius * Math.sin(a)];
          const [from, to] = [at(begins), at(angle)];
          const d = `M${from.join(' ')}A${radius} ${radius} 0 ${sweeps > Math.PI ? 1 : 0} ${clockwise ? 1 : 0} ${to.join(' ')}`;
          const segments = pathSegments(d);
          let before: readonly number[] = from;
          for (const segment of segments.slice(1)) {
            const points = (segment as { points: readonly number[] }).points;
            for (const t of [0.25, 0.5, 0.75]) {
              const [x, y] = onCurve(before, points, t);
              expect(Math.abs(Math.hypot(x, y) / radius - 1)).toBeLessThan(3e-4);
            }
            before = points.slice(-2);
          }
          expect(before[0]!).toBeCloseTo(to[0], 6);
          expect(before[1]!).toBeCloseTo(to[1], 6);
        },
      ),
    );
  });

  it('reads arc flags that stand against the next number', () => {
    expect(ends(pathSegments('M0 0a3 3 0 013 3')).at(-1)).toEqual(
      ends(pathSegments('M0 0 A3 3 0 0 1 3 3')).at(-1),
    );
  });

  it('refuses what is not path data rather than drawing something else', () => {
    for (const wrong of ['M1', 'X1 2', 'L1 2 3', 'M1 2 Z3', 'M1 nought']) {
      expect(() => pathSegments(wrong), wrong).toThrow(RangeError);
    }
  });
});
