/** Uncertainty after JCGM 100: items as standard deviations, added in quadrature, expanded with k = 2. */

/** Coverage factor of every printed uncertainty (JCGM 100, 6.2): about 95 %. */
export const COVERAGE_FACTOR = 2;

export type BudgetSource =
  | 'start'
  | 'rollout'
  | 'noise'
  | 'interpolation'
  | 'sampling'
  | 'stop'
  | 'receiver'
  | 'lag'
  | 'position'
  | 'jitter'
  | 'held-values'
  | 'gap';

/** One line of a budget. */
export interface BudgetItem {
  readonly source: BudgetSource;
  /** Standard uncertainty in the unit of the figure it belongs to. */
  readonly standard: number;
}

/** Items that contribute nothing are left out. */
export function budget(items: Partial<Record<BudgetSource, number>>): BudgetItem[] {
  return (Object.entries(items) as [BudgetSource, number][])
    .filter(([, standard]) => standard > 0)
    .map(([source, standard]) => ({ source, standard }));
}

/** Combined standard uncertainty of independent items (JCGM 100, 5.1.2). */
export function combined(items: readonly BudgetItem[]): number {
  return Math.hypot(...items.map(item => item.standard));
}

/** Expanded uncertainty, k = 2. */
export function expanded(items: readonly BudgetItem[]): number {
  return COVERAGE_FACTOR * combined(items);
}

/** Standard uncertainty of something known only to lie within a width (JCGM 100, 4.3.7). */
export function rectangular(width: number): number {
  return width / Math.sqrt(12);
}
