/** Changes to one field of a value, as the file will be changed and as the page shows them before it is. */

export type Step = string | number;

/** The value of a field, or null to take it away. */
export interface Change {
  readonly path: readonly Step[];
  readonly value: unknown;
}

/** The value with one field set, or taken away by null where there is one; nothing given is touched. */
export function withChange(of: unknown, change: Change): unknown {
  return change.value === null && !isThere(of, change.path) ? of : changed(of, change);
}

function isThere(of: unknown, path: readonly Step[]): boolean {
  let at: unknown = of;
  for (const step of path) {
    if (typeof at !== 'object' || at === null || !Object.hasOwn(at, step)) return false;
    at = (at as Record<Step, unknown>)[step];
  }
  return true;
}

function changed(of: unknown, { path, value }: Change): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (typeof step === 'number') {
    const list = Array.isArray(of) ? [...of] : [];
    if (rest.length === 0 && value === null) list.splice(step, 1);
    else list[step] = changed(list[step], { path: rest, value });
    return list;
  }
  const { [step]: before, ...others } = (of ?? {}) as Record<string, unknown>;
  if (rest.length === 0 && value === null) return others;
  return { ...(of as object), [step]: changed(before, { path: rest, value }) };
}
