/** Changes to a draft as the server will make them, so that the page shows them before it answers. */
import type { Change } from './answers.ts';

type Step = string | number;

/** The value at a path; undefined where there is none. */
export function valueAt(of: unknown, path: readonly Step[]): unknown {
  let at: unknown = of;
  for (const step of path) {
    if (typeof at !== 'object' || at === null) return undefined;
    at = (at as Record<Step, unknown>)[step];
  }
  return at;
}

/** The same with one value set, or taken away by null; nothing given is touched. */
export function withChange(of: unknown, { path, value }: Change): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (typeof step === 'number') {
    const list = Array.isArray(of) ? [...of] : [];
    if (rest.length === 0 && value === null) list.splice(step, 1);
    else list[step] = withChange(list[step], { path: rest, value });
    return list;
  }
  const { [step]: before, ...others } = (of ?? {}) as Record<string, unknown>;
  if (rest.length === 0 && value === null) return others;
  // The order of fields is kept where the field was there already.
  return { ...(of as object), [step]: withChange(before, { path: rest, value }) };
}

/** All of them in their order. */
export const withChanges = <T>(of: T, changes: readonly Change[]): T =>
  changes.reduce<unknown>(withChange, of) as T;

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
