/** Problems in the order a person goes through files. */
import type { Problem } from '../problem.ts';

/** By file, line and column; those of one place keep their order, and the same problem is told once. */
export function sortProblems(problems: readonly Problem[]): Problem[] {
  const seen = new Set<string>();
  return problems
    .filter(problem => {
      const key = JSON.stringify(problem);
      return !seen.has(key) && seen.add(key);
    })
    .sort((a, b) => {
      const [p, q] = [a.where, b.where];
      const file = (p?.file ?? '') < (q?.file ?? '') ? -1 : (p?.file ?? '') > (q?.file ?? '') ? 1 : 0;
      return file || (p?.line ?? 0) - (q?.line ?? 0) || (p?.column ?? 0) - (q?.column ?? 0);
    });
}

/** Leaves out what only repeats that a line cannot be read: once its syntax is told, its value is no evidence. */
export function withoutEchoes(problems: readonly Problem[]): Problem[] {
  const lineOf = ({ where }: Problem): string => `${where?.line}:${where?.file}`;
  const unread = new Set(problems.filter(({ id }) => id === 'content-syntax').map(lineOf));
  return problems.filter(problem => problem.id === 'content-syntax' || !unread.has(lineOf(problem)));
}
