/** Which tests are run against a mutant, and in which order: those that reach its place, the cheapest first. */
import type { CaseReach, FileReach, Part } from './worker.ts';

/** A file this cheap is run whole, so that what one test leaves for the next in memory cannot hide a mutant, ms. */
const WHOLE_UNDER_MS = 1000;
/** Turns of loops before one counts as endless: so many times those without a mutant, and so many more. */
const TURNS_TIMES = 50;
const TURNS_MORE = 1e6;
const mostTurns = (turns: number): number => turns * TURNS_TIMES + TURNS_MORE;

/** @param place number of the mutant's place @param budgetMs tests beyond this sum are left out */
export function planFor(place: number, files: readonly Indexed[], budgetMs: number): readonly Part[] {
  const parts = files.flatMap(({ reach, shared, byCase, wholeMs }): Part[] => {
    const reached = reach.cases
      .map((one, index) => ({ one, index }))
      .filter(({ index }) => byCase[index]!.has(place));
    const everywhere = shared.has(place);
    if (!everywhere && reached.length === 0) return [];
    const chosen =
      everywhere || wholeMs < WHOLE_UNDER_MS ? reach.cases.map((one, index) => ({ one, index })) : reached;
    return [
      {
        file: reach.file,
        cases: chosen.map(({ index }) => index),
        mostTurns: [mostTurns(reach.sharedTurns), chosen.map(({ one }) => mostTurns(one.turns))],
        sharedMs: reach.sharedMs,
        expectedMs: reach.sharedMs + sumMs(chosen.map(({ one }) => one)),
      },
    ];
  });
  parts.sort((a, b) => firstMs(a) - firstMs(b) || (a.file < b.file ? -1 : 1));
  let spentMs = 0;
  return parts.filter(({ expectedMs }) => {
    spentMs += expectedMs;
    return spentMs <= budgetMs;
  });
}

/** When its first test has ended, about: a mutant that is found is mostly found by the first tests of a file. */
export const firstMs = ({ sharedMs, expectedMs, cases }: Part): number =>
  sharedMs + (expectedMs - sharedMs) / Math.max(1, cases.length);

/** What a test file reaches, to be asked for a place. */
export interface Indexed {
  readonly reach: FileReach;
  readonly shared: ReadonlySet<number>;
  readonly byCase: readonly ReadonlySet<number>[];
  readonly wholeMs: number;
}

export function indexed(reach: FileReach): Indexed {
  return {
    reach,
    shared: new Set(reach.shared),
    byCase: reach.cases.map(one => new Set(one.reached)),
    wholeMs: reach.sharedMs + sumMs(reach.cases),
  };
}

function sumMs(cases: readonly CaseReach[]): number {
  return cases.reduce((sum, { ms }) => sum + ms, 0);
}
