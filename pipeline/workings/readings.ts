/** Readings of a log as a reader finds them again: by line, with the distance where a tape runs. */
import type { Trace } from '../trace/trace.ts';

export interface Reading {
  /** 1-based line of the log. */
  readonly line: number;
  /** On the log's own clock. */
  readonly timeS: number;
  readonly speedMps: number;
  /** Along the tape of the figure; absent where none runs. */
  readonly distanceM?: number;
}

/** One reading of a trace. */
export const readingAt = (trace: Trace, index: number, distanceAt?: (timeS: number) => number): Reading => ({
  line: trace.line[index]!,
  timeS: trace.timeS[index]!,
  speedMps: trace.speedMps[index]!,
  ...(distanceAt === undefined ? {} : { distanceM: distanceAt(trace.timeS[index]!) }),
});

/** The readings `first` … `last`, as far as the trace has them. */
export function readingsBetween(
  trace: Trace,
  first: number,
  last: number,
  distanceAt?: (timeS: number) => number,
): readonly Reading[] {
  const begin = Math.max(0, first);
  const end = Math.min(trace.timeS.length - 1, last);
  return Array.from({ length: Math.max(0, end - begin + 1) }, (_, k) =>
    readingAt(trace, begin + k, distanceAt),
  );
}
