/** Quantiles of Student's t, for intervals from few repeats. */
import { exp, log, log1p } from '../elementary.ts';
import { lnGamma } from './gamma.ts';

/** Continued fraction of the incomplete beta function, DLMF 8.17.22, evaluated by Lentz's method. */
function betaFraction(x: number, a: number, b: number): number {
  const tiny = 1e-300;
  const away = (value: number): number => (Math.abs(value) < tiny ? tiny : value);
  let d = 1 / away(1 - ((a + b) * x) / (a + 1));
  let c = 1;
  let fraction = d;
  for (let m = 1; m <= 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / away(1 + even * d);
    c = away(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / away(1 + odd * d);
    c = away(1 + odd / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return fraction;
}

/** Regularised incomplete beta function I_x(a, b) as one of x alone, 0 ≤ x ≤ 1 (DLMF 8.17). */
function incompleteBetaOf(a: number, b: number): (x: number) => number {
  const scale = lnGamma(a + b) - lnGamma(a) - lnGamma(b);
  return x => {
    if (x <= 0) return 0;
    if (x >= 1) return 1;
    const front = exp(scale + a * log(x) + b * log1p(-x));
    return x < (a + 1) / (a + b + 2)
      ? (front * betaFraction(x, a, b)) / a
      : 1 - (front * betaFraction(1 - x, b, a)) / b;
  };
}

/** Probability that |T| exceeds t, for t ≥ 0: I with x = ν/(ν + t²), parameters ν/2 and 1/2. */
function bothTailsOf(degreesOfFreedom: number): (t: number) => number {
  const beta = incompleteBetaOf(degreesOfFreedom / 2, 0.5);
  return t => beta(degreesOfFreedom / (degreesOfFreedom + t * t));
}

/**
 * The t that a Student's t variable stays below with probability `p`.
 * Degrees of freedom are any number above 0, as the Welch–Satterthwaite formula gives them.
 * @throws RangeError where p is not between 0 and 1 or there are no degrees of freedom.
 */
export function studentTQuantile(p: number, degreesOfFreedom: number): number {
  if (!(p > 0 && p < 1)) throw new RangeError(`A probability is between 0 and 1, not ${p}`);
  if (!(degreesOfFreedom > 0)) throw new RangeError(`No t with ${degreesOfFreedom} degrees of freedom`);
  if (p === 0.5) return 0;
  const tails = 2 * Math.min(p, 1 - p);
  const bothTails = bothTailsOf(degreesOfFreedom);
  let low = 0;
  let high = 1;
  while (bothTails(high) > tails && high < 1e150) high *= 2;
  while (true) {
    const middle = (low + high) / 2;
    if (middle <= low || middle >= high) break;
    if (bothTails(middle) > tails) low = middle;
    else high = middle;
  }
  return p < 0.5 ? -high : high;
}

/** The factor of a two-sided interval that covers `coverage`, such as 0.95: t of (1 + coverage)/2. */
export function studentTFactor(coverage: number, degreesOfFreedom: number): number {
  return studentTQuantile((1 + coverage) / 2, degreesOfFreedom);
}
