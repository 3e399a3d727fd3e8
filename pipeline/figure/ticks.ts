/** Round ticks and the ends of an axis. */

/** Whole multiples of `step` from `from` to `to`. */
export function ticksEvery(step: number, from: number, to: number): readonly number[] {
  const first = Math.ceil(from / step - 1e-9);
  const last = Math.floor(to / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, nth) =>
    Number(((first + nth) * step).toPrecision(12)),
  );
}

const STEPS = [1, 2, 5] as const;

/** The smallest of 1, 2, 5 times a power of ten (20, 0.5 …) that gives at most `most` ticks over a span. */
export function roundStep(span: number, most: number): number {
  if (!(span > 0)) return 1;
  for (let power = Math.floor(Math.log10(span)) - 3; ; power += 1) {
    for (const step of STEPS) {
      const size = Number((step * 10 ** power).toPrecision(12));
      if (span / size <= most) return size;
    }
  }
}

/** The next multiple of a step at or above a value. */
export const upTo = (value: number, step: number): number =>
  Number((Math.ceil(value / step - 1e-9) * step).toPrecision(12));

/** The next multiple of a step at or below a value. */
export const downTo = (value: number, step: number): number =>
  Number((Math.floor(value / step + 1e-9) * step).toPrecision(12));

/** Decimals a step is written with: 0 for 2, 1 for 0.5. */
export const stepDecimals = (step: number): number => (String(step).split('.')[1] ?? '').length;
