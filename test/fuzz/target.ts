/** What the random damage is thrown at. */

export interface FuzzTarget {
  readonly name: string;
  /** Sound inputs that the damage starts from. */
  readonly seeds: readonly Uint8Array[];
  /** Words of the format. */
  readonly tokens: readonly string[];
  /**
   * Takes one input, and throws where it meets what must never be: a crash, a number that is none, a wrong number
   * that nobody is told of.
   * @returns in a few words what came of it; inputs with new outcomes become seeds
   */
  run(bytes: Uint8Array): string;
}

/** Throws unless it holds. */
export function must(holds: boolean, what: string): asserts holds {
  if (!holds) throw new Error(what);
}

/** Throws where a message holds what no person should read. */
export function mustBeReadable(line: string): void {
  must(!/\p{Cc}|\p{Zl}|\p{Zp}/u.test(line), `control character in ${JSON.stringify(line)}`);
  must(
    !/undefined|\[object |TypeError|RangeError/.test(line.replace(/“[^”]*”/g, '')),
    `no message for people: ${line}`,
  );
  must(line.length < 2000, `a message of ${line.length} characters`);
}
