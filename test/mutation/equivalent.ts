/**
 * Mutants that no test can find, since what they change makes no difference to anything the code gives. Each has its
 * reason; a test holds that the places still read so.
 */
import type { Mutant } from './mutate.ts';

export interface Equivalent {
  readonly file: string;
  /** The line it begins on, without its indent. */
  readonly text: string;
  /** What stands there and what it becomes. */
  readonly changes: readonly (readonly [from: string, to: string])[];
  readonly why: string;
}

export const EQUIVALENT: readonly Equivalent[] = [];

const keyOf = (file: string, text: string, from: string, to: string): string =>
  JSON.stringify([file, text, from, to]);
const KEYS = new Set(
  EQUIVALENT.flatMap(({ file, text, changes }) => changes.map(([from, to]) => keyOf(file, text, from, to))),
);

export function isEquivalent({ file, text, from, to }: Mutant): boolean {
  return KEYS.has(keyOf(file, text, from, to));
}
