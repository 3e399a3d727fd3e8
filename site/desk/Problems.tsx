/** What is wrong, where, what was expected, and what to do: the same for every message. */
import type { Problem } from '../../pipeline/problem.ts';
import { placeToText } from '../../pipeline/problem.ts';

export function Problems({ problems }: { readonly problems: readonly Problem[] }) {
  return (
    <ul class="problems">
      {problems.map((problem, i) => (
        <li key={`${problem.id} ${i}`}>
          <strong>{problem.what}.</strong>{' '}
          {problem.expected !== undefined && <>Expected {problem.expected}. </>}
          {problem.found !== undefined && <>Found {problem.found}. </>}
          {problem.mend}
          {problem.where !== undefined && <span class="place">{placeToText(problem.where)}</span>}
        </li>
      ))}
    </ul>
  );
}
