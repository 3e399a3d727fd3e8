/** The tests of one file, collected and run one by one in this process, as far as the project's tests ask for it. */

type Work = (...values: never[]) => unknown;

export interface Case {
  readonly name: string;
  /** Does what must come before the first test of its group, once. @throws what that throws */
  prepare(): Promise<void>;
  /** @throws what the test throws */
  run(): Promise<void>;
}

export interface Suite {
  readonly cases: readonly Case[];
  /** Clears up after the last test. */
  end(): Promise<void>;
}

interface Group {
  readonly name: string;
  readonly outer: Group | undefined;
  readonly skipped: boolean;
  readonly before: Work[];
  readonly after: Work[];
  readonly beforeEach: Work[];
  readonly afterEach: Work[];
  begun: Promise<void> | undefined;
}

const SKIPPED = Symbol('skipped');

/** @param load runs the file, handed what `vitest` is to stand for @param real the assertions themselves */
export function collect(
  load: (vitest: Record<string, unknown>) => void,
  real: Record<string, unknown>,
): Suite {
  const cases: Case[] = [];
  const groupIn = (outer: Group | undefined, name: string, skipped: boolean): Group => ({
    name,
    outer,
    skipped: skipped || outer?.skipped === true,
    before: [],
    after: [],
    beforeEach: [],
    afterEach: [],
    begun: undefined,
  });
  const groups = [groupIn(undefined, '', false)];
  let current = groups[0]!;

  const describe = (name: string, work: Work, skipped = false): void => {
    const outer = current;
    current = groupIn(outer, name, skipped);
    groups.push(current);
    (work as () => void)();
    current = outer;
  };
  const it = (name: string, work: Work, skipped = false, fails = false): void => {
    const group = current;
    if (skipped || group.skipped) return;
    cases.push({
      name: [...namesOf(group), name].join(' > '),
      prepare: () => begin(group),
      run: () => runOne(group, work, fails),
    });
  };
  const api = {
    describe: withVariants(describe),
    it: withVariants(it),
    test: withVariants(it),
    beforeAll: (work: Work) => void current.before.push(work),
    afterAll: (work: Work) => void current.after.push(work),
    beforeEach: (work: Work) => void current.beforeEach.push(work),
    afterEach: (work: Work) => void current.afterEach.push(work),
  };
  load({ ...real, ...api, __esModule: true });
  return {
    cases,
    end: async () => {
      for (const group of groups.toReversed()) {
        if (group.begun) for (const work of group.after) await (work as () => unknown)();
      }
    },
  };
}

function namesOf(group: Group): string[] {
  return group.outer === undefined ? [] : [...namesOf(group.outer), group.name];
}

/** From the outermost inwards. */
function upward(group: Group): Group[] {
  return group.outer === undefined ? [group] : [...upward(group.outer), group];
}

async function begin(group: Group): Promise<void> {
  for (const one of upward(group)) {
    one.begun ??= (async () => {
      for (const before of one.before) await (before as () => unknown)();
    })();
    await one.begun;
  }
}

async function runOne(group: Group, work: Work, fails: boolean): Promise<void> {
  await begin(group);
  const around = upward(group);
  for (const one of around) for (const before of one.beforeEach) await (before as () => unknown)();
  const context = {
    skip: () => {
      throw SKIPPED;
    },
  };
  try {
    await (work as (given: object) => unknown)(context);
  } catch (error) {
    if (error === SKIPPED || fails) return;
    throw error;
  } finally {
    for (const one of around.toReversed())
      for (const after of one.afterEach) await (after as () => unknown)();
  }
  if (fails) throw new Error('A test that was to fail did not');
}

/** `it(name, work)`, `it(name, options, work)`, `it.each(rows)(name, work)`, `it.skipIf(yes)(name, work)` and their like. */
function withVariants(
  define: (name: string, work: Work, skipped?: boolean, fails?: boolean) => void,
): Record<string, unknown> {
  const given = (rest: readonly unknown[]): Work =>
    rest.find((one): one is Work => typeof one === 'function') ?? (() => undefined);
  const plain = (skipped: boolean, fails = false): ((name: string, ...rest: unknown[]) => void) =>
    Object.assign((name: string, ...rest: unknown[]) => define(name, given(rest), skipped, fails), {
      each:
        (rows: readonly unknown[]) =>
        (name: string, ...rest: unknown[]): void => {
          for (const [index, row] of rows.entries()) {
            const values = (Array.isArray(row) ? row : [row]) as never[];
            define(`${name} [${index}]`, () => given(rest)(...values), skipped, fails);
          }
        },
    });
  return Object.assign(plain(false), {
    skip: plain(true),
    todo: plain(true),
    fails: plain(false, true),
    skipIf: (yes: unknown) => plain(Boolean(yes)),
    runIf: (yes: unknown) => plain(!yes),
  }) as unknown as Record<string, unknown>;
}
