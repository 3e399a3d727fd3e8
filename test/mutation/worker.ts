/**
 * The process that tests run in, told by messages what to do: once to see which places each test reaches, then again and
 * again with one mutant each. It is ended from outside where it hangs, and nothing is lost with it.
 */
import { readFileSync, rmSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import * as vitest from 'vitest';
import { CACHE_VARIABLE } from '../../pipeline/cache/folder.ts';
import { type Mutant, mutated } from './mutate.ts';
import { Program } from './program.ts';
import { collect, type Suite } from './suite.ts';

/** What one test file reaches; places by number, times in ms on the processor. */
export interface FileReach {
  readonly file: string;
  /** On loading and in what comes before the tests of a group: every test may depend on it. */
  readonly shared: readonly number[];
  readonly sharedMs: number;
  readonly sharedTurns: number;
  readonly cases: readonly CaseReach[];
  /** What went wrong without any mutant; such a file finds nothing. */
  readonly failed?: string;
}
export interface CaseReach {
  readonly name: string;
  readonly ms: number;
  readonly reached: readonly number[];
  readonly turns: number;
}

/** Which tests of one file are run, by index. */
export interface Part {
  readonly file: string;
  readonly cases: readonly number[];
  /** Turns of loops after which a loop counts as endless: on loading, and of each of those tests. */
  readonly mostTurns: readonly [shared: number, cases: readonly number[]];
  /** Of loading and what comes before the tests, and of everything. */
  readonly sharedMs: number;
  readonly expectedMs: number;
}

export type Order =
  | {
      readonly kind: 'reach';
      readonly files: readonly string[];
      readonly sites: readonly (readonly [string, readonly string[]])[];
    }
  | { readonly kind: 'try'; readonly mutant: Mutant; readonly parts: readonly Part[] };

export type Answer =
  | { readonly kind: 'reach'; readonly reach: FileReach }
  | { readonly kind: 'reached' }
  | { readonly kind: 'begins'; readonly part: Part }
  | { readonly kind: 'found'; readonly by: string; readonly how: string }
  | { readonly kind: 'survived' };

const ROOT = resolve(import.meta.dirname, '../..');
// What is kept under the key of the sound code would hide a mutant, and what a mutant makes must not be kept for it.
const cache = resolve(ROOT, `.evenground/mutants/cache-${process.pid}`);
process.env[CACHE_VARIABLE] = cache;
const forget = (): void => rmSync(cache, { recursive: true, force: true });
process.once('exit', forget);
// One seed for all, so that the same mutants are found every time; the first counterexample is enough.
fc.configureGlobal({ seed: 1, endOnFailure: true });
const provided = {
  'fast-check': { __esModule: true, ...fc, default: fc } as unknown as Record<string, unknown>,
};
const suiteOf = (
  load: (path: string) => unknown,
  file: string,
  hand: (given: Record<string, unknown>) => void,
): Suite =>
  collect(
    given => {
      hand(given);
      load(resolve(ROOT, file));
    },
    vitest as unknown as Record<string, unknown>,
  );
/** Time of this process on the processor, ms: the same on a busy machine. */
const busyMs = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};
const firstLine = (error: unknown): string =>
  String(error instanceof Error ? error.message : error).split('\n')[0]!;
const say = (answer: Answer): void => void process.send?.(answer);

async function reach(order: Order & { kind: 'reach' }): Promise<void> {
  let count = 0;
  const sites = new Map(
    order.sites.map(([file, keys]) => [resolve(ROOT, file), new Map(keys.map(key => [key, count++]))]),
  );
  const reached = new Uint8Array(count);
  const table: Record<string, Record<string, unknown>> = { ...provided };
  const program = new Program(table, sites, reached);
  const take = (): number[] => {
    const list: number[] = [];
    for (const [index, one] of reached.entries()) if (one === 1) list.push(index);
    reached.fill(0);
    return list;
  };
  for (const file of order.files) {
    forget();
    take();
    program.turns.count = 0;
    const shared = new Set<number>();
    const cases: CaseReach[] = [];
    let [sharedMs, sharedTurns] = [0, 0];
    try {
      let began = busyMs();
      const suite = suiteOf(program.instance(), file, given => {
        table.vitest = given;
      });
      for (const place of take()) shared.add(place);
      sharedMs += busyMs() - began;
      sharedTurns += program.turns.count;
      for (const one of suite.cases) {
        program.turns.count = 0;
        began = busyMs();
        await one.prepare();
        for (const place of take()) shared.add(place);
        sharedMs += busyMs() - began;
        sharedTurns += program.turns.count;
        program.turns.count = 0;
        began = busyMs();
        await one.run();
        cases.push({
          name: one.name,
          ms: busyMs() - began,
          reached: take(),
          turns: program.turns.count,
        });
      }
      await suite.end();
      say({ kind: 'reach', reach: { file, shared: [...shared], sharedMs, sharedTurns, cases } });
    } catch (error) {
      say({
        kind: 'reach',
        reach: { file, shared: [], sharedMs, sharedTurns, cases: [], failed: firstLine(error) },
      });
    }
  }
  say({ kind: 'reached' });
}

const table: Record<string, Record<string, unknown>> = { ...provided };
const program = new Program(table);

async function attempt({ mutant, parts }: Order & { kind: 'try' }): Promise<void> {
  forget();
  const path = resolve(ROOT, mutant.file);
  const load = program.instance({ path, source: mutated(readFileSync(path, 'utf8'), mutant) });
  for (const part of parts) {
    say({ kind: 'begins', part });
    let at = 'loading';
    try {
      program.turns.count = 0;
      program.turns.most = part.mostTurns[0];
      const suite = suiteOf(load, part.file, given => {
        table.vitest = given;
      });
      for (const [order, index] of part.cases.entries()) {
        const one = suite.cases[index];
        // Tests are made from tables of the code now and then: with one fewer, they are not the same tests.
        if (one === undefined) throw new Error('A test is missing');
        at = one.name;
        program.turns.most = part.mostTurns[0];
        program.turns.count = 0;
        await one.prepare();
        program.turns.most = part.mostTurns[1][order]!;
        program.turns.count = 0;
        await one.run();
      }
      at = 'the end';
      await suite.end();
    } catch (error) {
      say({ kind: 'found', by: `${part.file}: ${at}`, how: firstLine(error) });
      return;
    }
  }
  say({ kind: 'survived' });
}

process.on('message', (order: Order) => {
  void (order.kind === 'reach' ? reach(order) : attempt(order));
});
process.on('disconnect', () => process.exit(0));
