/** Changes to a draft as the server will make them, so that the page shows them before it answers. */
import { type Change, type Step, withChange } from '../../pipeline/desk/change.ts';

/** The value at a path; undefined where there is none. */
export function valueAt(of: unknown, path: readonly Step[]): unknown {
  let at: unknown = of;
  for (const step of path) {
    if (typeof at !== 'object' || at === null) return undefined;
    at = (at as Record<Step, unknown>)[step];
  }
  return at;
}

/** All of them in their order. */
export const withChanges = <T>(of: T, changes: readonly Change[]): T =>
  changes.reduce<unknown>((value, change) => withChange(value, change), of) as T;

/** The last word on a field replaces the one before it, as long as no other field was touched between. */
export function joined(changes: readonly Change[], next: Change): readonly Change[] {
  const last = changes.at(-1);
  const same =
    last !== undefined &&
    last.value !== null &&
    typeof next.value !== 'object' &&
    last.path.length === next.path.length &&
    last.path.every((step, i) => step === next.path[i]);
  return same ? [...changes.slice(0, -1), next] : [...changes, next];
}
