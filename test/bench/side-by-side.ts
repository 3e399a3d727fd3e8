/** Ways of doing one thing, timed in turns in one process, so that their ratio holds whatever else the machine does. */

export interface Way {
  readonly name: string;
  /** Does the thing once; what it returns is thrown away. */
  run(): unknown;
}

export interface Timing {
  readonly name: string;
  /** Median of the rounds, ms. */
  readonly ms: number;
  /** Wall time of this way over that of the first. */
  readonly ratioToFirst: number;
}

/** Each way once unmeasured, then all in turns for `rounds` rounds. */
export async function sideBySide(ways: readonly Way[], rounds: number): Promise<readonly Timing[]> {
  for (const { run } of ways) await run();
  const times: number[][] = ways.map(() => []);
  for (let round = 0; round < rounds; round++) {
    for (const [i, { run }] of ways.entries()) {
      const began = performance.now();
      await run();
      times[i]!.push(performance.now() - began);
    }
  }
  const medians = times.map(values => values.sort((a, b) => a - b)[Math.floor(values.length / 2)]!);
  return ways.map(({ name }, i) => ({ name, ms: medians[i]!, ratioToFirst: medians[i]! / medians[0]! }));
}
