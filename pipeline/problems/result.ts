/** What can be wrong in putting results side by side. */
import type { Problem } from '../problem.ts';

/** Two results that measure different things, or by different clocks, were to be compared. */
export function resultsNotComparable(first: string, second: string): Problem {
  return {
    id: 'result-not-comparable',
    severity: 'error',
    what: 'Two results that were not measured alike cannot be compared',
    expected: `another ${first}`,
    found: second,
    mend: 'Compare the same measure under the same start rule.',
  };
}
