/** What is uncertain about one crossing, as items of a budget in seconds. */
import type { Trace } from '../trace/trace.ts';
import type { Crossing } from './crossing.ts';
import { type BudgetItem, budget, rectangular } from './uncertainty.ts';

/** `receiverMps`: stated accuracy of the receiver, one standard deviation, taken as the same all through a run. */
export function crossingBudget(trace: Trace, crossing: Crossing, receiverMps = 0): BudgetItem[] {
  const share = crossing.stampShare ?? 0;
  return budget({
    noise: crossing.noiseS * Math.sqrt(1 - share * share),
    jitter: crossing.noiseS * share,
    interpolation: crossing.interpolationS,
    receiver: receiverMps / Math.max(0.01, Math.abs(crossing.slopeMps2)),
    'held-values': rectangular(trace.heldS ?? 0),
    gap: crossing.gapS,
  });
}
