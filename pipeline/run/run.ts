/** One attempt as found in a trace: where it begins and ends, and what kind it is. */

export type RunKind = 'standing-start' | 'rolling' | 'braking';
export const START_RULES = ['first-movement', 'one-foot-rollout'] as const;
export type StartRule = (typeof START_RULES)[number];
/** Splits of rolling runs need no start rule; `rolling` says so. */
export type ClockRule = StartRule | 'rolling';

export interface Run {
  /** 1, 2, 3 … in the order of time within one log. */
  readonly number: number;
  readonly kind: RunKind;
  readonly status: 'complete' | 'aborted';
  /** Sample indices into the trace, inclusive. */
  readonly beginIndex: number;
  readonly endIndex: number;
  /** Sample range of the braking that ends this run, where there is one. */
  readonly braking?: { readonly beginIndex: number; readonly endIndex: number };
}
