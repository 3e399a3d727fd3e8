/** The publication as the pages show it, loaded once for all of them. */
import { loadPublication } from '../pipeline/pipeline.ts';
import { ProblemError } from '../pipeline/problem.ts';
import type { Publication } from '../pipeline/result/result.ts';

let loading: Promise<Publication> | undefined;

/** @throws ProblemError where content has errors, so that no page is made from half of it. */
export function publication(): Promise<Publication> {
  loading ??= loadWhole();
  return loading;
}

async function loadWhole(): Promise<Publication> {
  const loaded = await loadPublication(process.cwd());
  const errors = loaded.problems.filter(problem => problem.severity === 'error');
  if (errors.length > 0) throw new ProblemError(errors);
  return loaded;
}
