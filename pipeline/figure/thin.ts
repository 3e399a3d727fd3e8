/** Fewer points for the same line, so that a drawing stays small. */

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** How far a dropped point may lie from the drawn line: fractions of the plotted width and height. */
export interface Tolerance {
  readonly x: number;
  readonly y: number;
}

/** Most points of one line. */
export const MOST_POINTS = 400;

/**
 * The points that matter (Ramer 1972; Douglas and Peucker 1973): first and last, and every one that lies
 * farther than the tolerance from the line drawn without it. No dropped point is farther off than that;
 * peaks stay. Where more than `most` points remain the tolerance is doubled until they fit.
 * `tolerance` is in the units of x and y, so that both count as they do on paper.
 */
export function thinLine(
  points: readonly Point[],
  tolerance: Tolerance,
  most: number = MOST_POINTS,
): readonly Point[] {
  let factor = 1;
  let kept = keepCorners(points, tolerance, factor);
  while (kept.length > most && kept.length > 2) {
    factor *= 2;
    kept = keepCorners(points, tolerance, factor);
  }
  return kept;
}

function keepCorners(points: readonly Point[], tolerance: Tolerance, factor: number): readonly Point[] {
  if (points.length <= 2) return points;
  const keep = new Uint8Array(points.length);
  keep[0] = 1;
  keep[points.length - 1] = 1;
  const open: (readonly [number, number])[] = [[0, points.length - 1]];
  while (open.length > 0) {
    const [from, to] = open.pop()!;
    let worst = factor;
    let worstIndex = -1;
    for (let index = from + 1; index < to; index += 1) {
      const away = distanceToSegment(points[index]!, points[from]!, points[to]!, tolerance);
      if (away > worst) {
        worst = away;
        worstIndex = index;
      }
    }
    if (worstIndex > 0) {
      keep[worstIndex] = 1;
      open.push([from, worstIndex], [worstIndex, to]);
    }
  }
  return points.filter((_, index) => keep[index] === 1);
}

/** Distance of a point from the line between two others, in tolerances. */
export function distanceToSegment(point: Point, from: Point, to: Point, tolerance: Tolerance): number {
  const along = { x: (to.x - from.x) / tolerance.x, y: (to.y - from.y) / tolerance.y };
  const off = { x: (point.x - from.x) / tolerance.x, y: (point.y - from.y) / tolerance.y };
  const length2 = along.x ** 2 + along.y ** 2;
  const share = length2 === 0 ? 0 : Math.min(1, Math.max(0, (off.x * along.x + off.y * along.y) / length2));
  return Math.hypot(off.x - share * along.x, off.y - share * along.y);
}
