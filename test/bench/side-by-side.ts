/** Ways of doing one thing, timed in turns in one process, so that their ratio holds whatever else the machine does. */

export interface Way {
  readonly name: string;
  /** What each run needs and is not measured. */
  before?(): unknown;
  /** Does the thing once; what it returns is thrown away. */
  run(): unknown;
}

export interface Timing {
  readonly name: string;
  /** Median of the rounds, ms. */
  readonly ms: number;
  /** Wall time of this way over that of the first: the median of what the rounds say, each of them taken at one time. */
  readonly ratioToFirst: number;
}

/**
 * All ways in turns, every other round backwards, as often unmeasured as `warmUp` says, then for `rounds` rounds. Where
 * the process can be told to (`--expose-gc`), memory is cleared before each run, so that no way pays for what another
 * left behind.
 */
export async function sideBySide(
  ways: readonly Way[],
  rounds: number,
  warmUp = 1,
): Promise<readonly Timing[]> {
  const times: number[][] = ways.map(() => []);
  for (let round = -warmUp; round < rounds; round++) {
    const turns = [...ways.entries()];
    for (const [i, { before, run }] of round % 2 === 0 ? turns : turns.reverse()) {
      await before?.();
      globalThis.gc?.();
      const began = performance.now();
      await run();
      if (round >= 0) times[i]!.push(performance.now() - began);
    }
  }
  return ways.map(({ name }, i) => ({
    name,
    ms: median(times[i]!),
    ratioToFirst: median(times[i]!.map((ms, round) => ms / times[0]![round]!)),
  }));
}

export const median = (values: readonly number[]): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
