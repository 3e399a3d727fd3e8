/** Throws damaged inputs at a target; inputs that lead to something new are damaged further. */
import { randomFromSeed } from '../simulate/random.ts';
import { LOGS } from './logs.ts';
import { mutate } from './mutate.ts';
import { QUIET } from './quiet.ts';
import type { FuzzTarget } from './target.ts';
import { ARTICLES, CONTENT } from './written.ts';

export const TARGETS: readonly FuzzTarget[] = [LOGS, QUIET, CONTENT, ARTICLES];

/** Longer than this over one small input is a hang, ms. */
const HANG_MS = 5000;
/** Inputs kept for further damage, and how large they may grow. */
const MOST_SEEDS = 2000;
const MOST_BYTES = 60_000;

export interface Fault {
  readonly target: string;
  readonly what: string;
  readonly input: Uint8Array;
}

export interface Fuzzed {
  readonly runs: number;
  readonly outcomes: number;
  readonly slowestMs: number;
  readonly faults: readonly Fault[];
}

/** @param told called after every input, with how many were done */
export function fuzz(
  target: FuzzTarget,
  runs: number,
  seed: number,
  told: (done: number) => void = () => {},
): Fuzzed {
  const random = randomFromSeed(seed);
  const seeds = [...target.seeds];
  const outcomes = new Set<string>();
  const faults = new Map<string, Fault>();
  let slowestMs = 0;
  for (let done = 0; done < runs; done++) {
    const input = mutate(random.pick(seeds), target.tokens, random);
    const began = performance.now();
    try {
      const outcome = target.run(input);
      if (!outcomes.has(outcome)) {
        outcomes.add(outcome);
        if (seeds.length < MOST_SEEDS && input.length < MOST_BYTES) seeds.push(input);
      }
    } catch (error) {
      const what = error instanceof Error ? (error.stack ?? error.message) : String(error);
      // One of each kind: the same fault with other numbers in it tells nothing more.
      const kind = what
        .split('\n', 2)
        .join(' ')
        .replace(/[\d.]+/g, '#')
        .slice(0, 200);
      if (!faults.has(kind)) faults.set(kind, { target: target.name, what, input });
    }
    const tookMs = performance.now() - began;
    if (tookMs > HANG_MS)
      faults.set(`hang ${done}`, { target: target.name, what: `took ${tookMs.toFixed(0)} ms`, input });
    slowestMs = Math.max(slowestMs, tookMs);
    told(done + 1);
  }
  return { runs, outcomes: outcomes.size, slowestMs, faults: [...faults.values()] };
}
