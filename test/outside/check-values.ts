/**
 * Published and recomputed values to hold the pipeline to: `../shared/check-values.json` beside a checkout.
 *
 * Every entry names its source and how near one must come. Where the file is absent its tests are skipped, and
 * say so.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { sharedPath } from './shared-data.ts';

export interface Tolerance {
  readonly abs?: number;
  readonly rel?: number;
  readonly exact?: boolean;
  /** Absolute tolerances of single fields, by name. */
  readonly fields?: Readonly<Record<string, number>>;
}

export interface CheckValue {
  readonly id: string;
  readonly quantity: string;
  // Entries hold numbers, texts, lists and records; each test knows which its own is.
  // biome-ignore lint/suspicious/noExplicitAny: the shape differs from entry to entry
  readonly inputs: any;
  // biome-ignore lint/suspicious/noExplicitAny: the shape differs from entry to entry
  readonly expected: any;
  readonly tolerance: Tolerance;
  readonly source: string;
  readonly kind: string;
}

const path = sharedPath('check-values.json');
const entries: ReadonlyMap<string, CheckValue> | undefined =
  path === undefined
    ? undefined
    : new Map((JSON.parse(readFileSync(path, 'utf8')) as CheckValue[]).map(entry => [entry.id, entry]));

/** Whether the file of check values is there. */
export const hasCheckValues = entries !== undefined;

/** Every id, in the file's order; none where it is absent. */
export const checkValueIds = (): readonly string[] => [...(entries?.keys() ?? [])];

/** One entry. @throws Error where the file is absent or knows no such id. */
export function checkValue(id: string): CheckValue {
  const entry = entries?.get(id);
  if (entry === undefined) throw new Error(`check-values.json has no ${id}`);
  return entry;
}

/** The first statement of a source, short enough for a test's title. */
export function shortSource({ source }: CheckValue): string {
  const text = source.replace(/\s+/g, ' ');
  return text.length <= 90 ? text : `${text.slice(0, 87)}…`;
}

const slack = (expected: number, { abs, rel, exact }: Tolerance): number =>
  exact ? 0 : Math.max(abs ?? 0, (rel ?? 0) * Math.abs(expected));

/**
 * Holds a number, a text, or a record or list of them to what an entry expects, within its tolerance. Of a record
 * only the fields given are checked, so that a test may take what the pipeline has; it must give at least one.
 * `atMost` replaces the tolerance where a method cannot reach it; the test says why.
 */
export function expectWithin(actual: unknown, entry: CheckValue, atMost?: Tolerance): void {
  const tolerance = atMost ?? entry.tolerance;
  const compare = (found: unknown, expected: unknown, at: string): void => {
    if (typeof expected === 'number') {
      expect(typeof found, `${at} is a number`).toBe('number');
      const field = tolerance.fields?.[at.slice(entry.id.length + 1)];
      const allowed = field ?? slack(expected, tolerance);
      const away = Math.abs((found as number) - expected);
      expect(away, `${at}: ${found} for ${expected}`).toBeLessThanOrEqual(allowed);
      return;
    }
    if (typeof expected === 'object' && expected !== null) {
      const keys = Object.keys(found as object);
      expect(keys.length, `${at} gives something to check`).toBeGreaterThan(0);
      if (Array.isArray(expected)) expect(keys.length, at).toBe(expected.length);
      for (const key of keys) {
        expect(Object.hasOwn(expected, key), `${at} has ${key}`).toBe(true);
        compare(
          (found as Record<string, unknown>)[key],
          (expected as Record<string, unknown>)[key],
          `${at}.${key}`,
        );
      }
      return;
    }
    expect(found, at).toEqual(expected);
  };
  compare(actual, entry.expected, entry.id);
}

/** The entry, and whether what it expects has been looked at since. */
function watched(entry: CheckValue): { readonly entry: CheckValue; readonly wasCompared: () => boolean } {
  let compared = false;
  const handler: ProxyHandler<CheckValue> = {
    get(target, name) {
      if (name === 'expected') compared = true;
      return Reflect.get(target, name);
    },
  };
  return { entry: new Proxy(entry, handler), wasCompared: () => compared };
}

/**
 * Runs one check, and fails where it asserts nothing or never looks at the published value.
 * @throws Error for the latter.
 */
export function runCheck(entry: CheckValue, test: (entry: CheckValue) => void): void {
  expect.hasAssertions();
  const { entry: seen, wasCompared } = watched(entry);
  test(seen);
  if (!wasCompared()) throw new Error(`The test of ${entry.id} never looks at the published value`);
}

/**
 * Tests of one subject, each named by an entry's id and source. Skipped with a line that says so where the file is
 * absent.
 */
export function describeCheckValues(
  subject: string,
  tests: Readonly<Record<string, (entry: CheckValue) => void>>,
): void {
  if (!hasCheckValues) {
    process.stderr.write(`Skipped, ../shared/check-values.json is absent: ${subject}\n`);
    describe.skip(`${subject} (skipped: ../shared/check-values.json is absent)`, () => {});
    return;
  }
  describe(subject, () => {
    for (const [id, test] of Object.entries(tests)) {
      const entry = checkValue(id);
      it(`${id}: ${entry.quantity} [${shortSource(entry)}]`, () => runCheck(entry, test));
    }
  });
}
