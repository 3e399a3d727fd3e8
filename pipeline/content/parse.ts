/** One YAML file held to its schema: the value where it is whole, what can be used of it where it is not. */
import type { z } from 'zod';
import type { Place, Problem } from '../problem.ts';
import { missingKey } from '../problems/content.ts';
import { issueToProblems } from './issues.ts';
import { withoutEchoes } from './sort-problems.ts';
import { bytesToYaml, type Path, type YamlFile } from './yaml.ts';

/** A value with anything that may be missing, all the way down; entries of lists keep their place. */
export type Partly<T> = T extends readonly (infer E)[]
  ? readonly (Partly<E> | undefined)[]
  : T extends object
    ? { readonly [K in keyof T]?: Partly<T[K]> | undefined }
    : T;

export interface Parsed<T> {
  readonly file: string;
  /** Present where the file fits its schema in full. */
  readonly value?: T;
  /** What fits, for checking further while something else does not; empty where nothing does. */
  readonly partly: Partly<T>;
  readonly problems: readonly Problem[];
  place(path: Path): Place;
}

/** `parseAs`, or what answers as it does. */
export type ParseFile = <T>(file: string, bytes: Uint8Array, schema: z.ZodType<T>) => Parsed<T>;

/** Parses and checks a file; every fault becomes a problem, none is thrown. */
export function parseAs<T>(file: string, bytes: Uint8Array, schema: z.ZodType<T>): Parsed<T> {
  const yaml = bytesToYaml(file, bytes);
  const place = (path: Path) => yaml.place(path);
  const empty = {} as Partly<T>;
  if (yaml.value === undefined) return { file, partly: empty, problems: yaml.problems, place };
  if (yaml.value === null) {
    const nothing = missingKey({ file, line: 1, column: 1 }, 'The whole content', undefined);
    return { file, partly: empty, problems: [...yaml.problems, nothing], place };
  }
  const checked = schema.safeParse(yaml.value);
  if (checked.success) {
    const broken = yaml.problems.some(problem => problem.severity === 'error');
    return {
      file,
      ...(broken ? {} : { value: checked.data }),
      partly: checked.data as Partly<T>,
      problems: yaml.problems,
      place,
    };
  }
  // A value of the wrong kind is held against the limits of the right one as well; the first fault says it all.
  const told = new Set<string>();
  const issues = checked.error.issues.filter(({ code, path }) => {
    const key = JSON.stringify(path);
    return code === 'unrecognized_keys' || (!told.has(key) && told.add(key));
  });
  const found = issues.flatMap(issue => issueToProblems(issue, yaml, schema));
  return {
    file,
    partly: withoutFaults(yaml, checked.error.issues) as Partly<T>,
    problems: withoutEchoes([...yaml.problems, ...found]),
    place,
  };
}

/** A copy of the value with everything left out that an issue points at. */
function withoutFaults(yaml: YamlFile, issues: readonly z.core.$ZodIssue[]): unknown {
  let value: unknown = structuredClone(yaml.value);
  for (const issue of issues) {
    if (issue.code === 'unrecognized_keys') continue;
    const path = [...issue.path];
    const last = path.pop();
    let owner: unknown = value;
    for (const step of path) owner = (owner as Record<PropertyKey, unknown> | undefined)?.[step];
    if (last === undefined) value = undefined;
    else if (typeof owner === 'object' && owner !== null && Object.hasOwn(owner, last)) {
      (owner as Record<PropertyKey, unknown>)[last] = undefined;
    }
  }
  return typeof value === 'object' && value !== null && !Array.isArray(value) ? value : {};
}
