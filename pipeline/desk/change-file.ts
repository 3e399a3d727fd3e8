/** Changes to fields of a file, as the page sends them. */
import { parseAs } from '../content/parse.ts';
import { carSchema, roadSchema, testSchema } from '../content/schema.ts';
import { type Problem, ProblemError } from '../problem.ts';
import { bodyUnreadable, notYaml } from '../problems/desk.ts';
import type { Change } from './change.ts';
import type { NewKind } from './new-content.ts';
import type { Store } from './store.ts';
import { changeYaml } from './yaml-edit.ts';

const SCHEMAS = { test: testSchema, car: carSchema, road: roadSchema } as const;
/** Changes that one request may carry. */
const MOST_CHANGES = 200;
/** Longest name of a field, and last place in a list, that a path may hold. */
const LONGEST_STEP = 60;
const LAST_PLACE = 2000;

/**
 * Writes changes that leave no field wrong that they touch; what is still missing of a test may stay missing, while a
 * car or a road, which other tests rely on, keeps what it cannot be without.
 * @throws ProblemError where they cannot be read or a field would be wrong; ChangedMeanwhile as the store does
 */
export async function changeFile(
  store: Store,
  kind: NewKind,
  file: string,
  { version, changes }: Readonly<Record<string, unknown>>,
  journal: string,
): Promise<void> {
  if (typeof version !== 'string' || !isChanges(changes))
    throw new ProblemError(bodyUnreadable('version and changes'));
  const edit = (text: string): string => {
    const edited = editedYaml(file, text, changes);
    const touched = (field: string): boolean =>
      changes.some(({ path }) => field === path.join('.') || field.startsWith(`${path.join('.')}.`));
    const wrong = faultsOf(kind, file, edited).filter(
      ({ where }) => where?.field !== undefined && touched(where.field),
    );
    const lost = kind === 'test' ? [] : missingNow(kind, file, text, edited);
    if (wrong.length > 0 || lost.length > 0) throw new ProblemError([...wrong, ...lost]);
    return edited;
  };
  await store.change(file, version, edit, journal);
}

function editedYaml(file: string, text: string, changes: readonly Change[]): string {
  try {
    return changeYaml(text, changes);
  } catch (error) {
    throw new ProblemError(notYaml(file, error instanceof Error ? error.message : String(error)));
  }
}

const MISSING = 'content-missing-key';

const errorsOf = (kind: NewKind, file: string, text: string): readonly Problem[] =>
  parseAs<unknown>(file, new TextEncoder().encode(text), SCHEMAS[kind]).problems.filter(
    ({ severity }) => severity === 'error',
  );

/** Errors of a file, what is missing aside. */
export const faultsOf = (kind: NewKind, file: string, text: string): readonly Problem[] =>
  errorsOf(kind, file, text).filter(({ id }) => id !== MISSING);

/** What the file can no longer do without. */
function missingNow(kind: NewKind, file: string, before: string, after: string): readonly Problem[] {
  const missing = (text: string) => errorsOf(kind, file, text).filter(({ id }) => id === MISSING);
  const already = new Set(missing(before).map(({ what }) => what));
  return missing(after).filter(({ what }) => !already.has(what));
}

const isChanges = (value: unknown): value is readonly Change[] =>
  Array.isArray(value) && value.length <= MOST_CHANGES && value.every(isChange);

function isChange(one: unknown): one is Change {
  if (typeof one !== 'object' || one === null || !('value' in one)) return false;
  const { path } = one as Partial<Change>;
  return Array.isArray(path) && path.length > 0 && path.every(isStep);
}

/** A field's name or a place in a list; nothing that means something to the language. */
const isStep = (step: unknown): boolean =>
  (typeof step === 'string' &&
    step.length <= LONGEST_STEP &&
    !['__proto__', 'constructor', 'prototype'].includes(step)) ||
  (typeof step === 'number' && Number.isInteger(step) && step >= 0 && step < LAST_PLACE);
