/** What chance alone makes of a best: the more attempts, the better the best of them. */
import { exp } from '../elementary.ts';
import { lnGamma } from './gamma.ts';

/** Density of the standard normal distribution. */
const normalDensity = (z: number): number => exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);

/** Probability that a standard normal value stays below z; Marsaglia's series (J. Stat. Software 11(4), 2004). */
function normalBelow(z: number): number {
  if (z < -9) return 0;
  if (z > 9) return 1;
  let term = z;
  let sum = z;
  for (let k = 3; sum + term !== sum; k += 2) {
    term *= (z * z) / k;
    sum += term;
  }
  return 0.5 + sum * normalDensity(z);
}

/**
 * Expected smallest of n independent standard normal values: ∫ n z φ(z) (1 − Φ(z))ⁿ⁻¹ dz, by the trapezoidal
 * rule, which for a smooth integrand that dies away at both ends is exact to rounding. 0 for n = 1.
 * @throws RangeError unless n is a whole number from 1.
 */
export function expectedSmallest(n: number): number {
  if (!Number.isInteger(n) || n < 1) throw new RangeError(`No smallest of ${n} values`);
  const step = 1 / 64;
  let sum = 0;
  for (let i = -9 * 64; i <= 9 * 64; i++) {
    const z = i * step;
    sum += z * normalDensity(z) * normalBelow(-z) ** (n - 1);
  }
  return n * step * sum;
}

/**
 * Expected sample standard deviation of n normal values over the true one, c₄: √(2/(n−1)) Γ(n/2)/Γ((n−1)/2).
 * @throws RangeError for fewer than two values.
 */
export function c4(n: number): number {
  if (!(n >= 2)) throw new RangeError('A standard deviation needs two values');
  return Math.sqrt(2 / (n - 1)) * exp(lnGamma(n / 2) - lnGamma((n - 1) / 2));
}

/**
 * How far below the mean the smallest of `attempts` further attempts is to be expected, in the unit of `sd`,
 * where n attempts had a sample standard deviation `sd`. Takes attempts as normal and independent.
 */
export function expectedGainOfBest(attempts: number, sd: number, n: number): number {
  return (-expectedSmallest(attempts) * sd) / c4(n);
}
