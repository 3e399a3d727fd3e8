/** Uncertainty by the law of propagation: JCGM 100:2008, the few formulas that are used. */
import { standardDeviation } from './repeats.ts';

/** Standard uncertainty of the mean of repeats, type A: s/√n (4.2.3). */
export function standardUncertaintyOfMean(values: readonly number[]): number {
  return standardDeviation(values) / Math.sqrt(values.length);
}

/** Standard uncertainty of a value known only to lie within ± `halfWidth`, all places alike: a/√3 (4.3.7). */
export function rectangular(halfWidth: number): number {
  return halfWidth / Math.sqrt(3);
}

/** Standard uncertainty of a value within ± `halfWidth`, likelier in the middle, triangular: a/√6 (4.3.9). */
export function triangular(halfWidth: number): number {
  return halfWidth / Math.sqrt(6);
}

/** Combined standard uncertainty of independent contributions, in the result's unit: root sum of squares (5.1.2). */
export function combine(contributions: readonly number[]): number {
  return Math.hypot(...contributions);
}

/** Contribution to a budget with the degrees of freedom it is known by; infinite where it is stated. */
export interface Contribution {
  readonly uncertainty: number;
  readonly degreesOfFreedom: number;
}

/** Effective degrees of freedom of a combined uncertainty, Welch–Satterthwaite (G.4.1). */
export function effectiveDegreesOfFreedom(contributions: readonly Contribution[]): number {
  const total = combine(contributions.map(({ uncertainty }) => uncertainty)) ** 4;
  const shares = contributions.map(
    ({ uncertainty, degreesOfFreedom }) => uncertainty ** 4 / degreesOfFreedom,
  );
  return total / shares.reduce((sum, share) => sum + share, 0);
}

/**
 * Standard uncertainty of a function of several inputs, correlations included: √(cᵀ V c), V being the inputs'
 * covariances (5.2.2). Sensitivities c are central differences over one standard uncertainty either way (5.1.4),
 * so a curved function is taken as straight: where that matters, use `propagate` of `monte-carlo.ts`.
 */
export function firstOrderUncertainty(
  model: (inputs: readonly number[]) => number,
  estimates: readonly number[],
  covariances: readonly (readonly number[])[],
): number {
  const sensitivities = estimates.map((_, i) => {
    const u = Math.sqrt(covariances[i]?.[i] ?? 0);
    if (u === 0) return 0;
    const moved = (by: number): number => model(estimates.map((x, j) => (j === i ? x + by : x)));
    return (moved(u) - moved(-u)) / (2 * u);
  });
  let variance = 0;
  sensitivities.forEach((ci, i) => {
    sensitivities.forEach((cj, j) => {
      variance += ci * cj * (covariances[i]?.[j] ?? 0);
    });
  });
  return Math.sqrt(Math.max(0, variance));
}
