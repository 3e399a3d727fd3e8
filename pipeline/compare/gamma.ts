/** The gamma function, for the distributions of few repeats. */
import { log } from '../elementary.ts';

/** Natural logarithm of the gamma function for x > 0: recurrence up to 20, then Stirling's series. */
export function lnGamma(x: number): number {
  let shift = 0;
  let z = x;
  while (z < 20) {
    shift += log(z);
    z += 1;
  }
  const inverse = 1 / z;
  const square = inverse * inverse;
  const series =
    inverse * (1 / 12 - square * (1 / 360 - square * (1 / 1260 - square * (1 / 1680 - square / 1188))));
  return (z - 0.5) * log(z) - z + 0.5 * log(2 * Math.PI) + series - shift;
}
