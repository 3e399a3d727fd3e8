/** What the strip of the day draws: the traces of several logs on one clock, and which stretch of it is in sight. */
import type { LogSeen, RunSeen, TraceSeen } from './answers.ts';

export interface StripLog {
  readonly log: LogSeen;
  /** Added to the log's own seconds to place it on the strip. */
  readonly offsetS: number;
}

export interface DayStrip {
  readonly logs: readonly StripLog[];
  /** Whether its axis is the clock at the road, or a log's own seconds. */
  readonly onClock: boolean;
  readonly fromS: number;
  readonly toS: number;
}

/** Logs with a clock share one strip unless they overlap; each of the others has its own. */
export function logsToStrips(logs: readonly LogSeen[]): readonly DayStrip[] {
  const seen = logs.filter(log => log.durationS !== undefined);
  const clocked = seen
    .filter(log => log.clockOfDayS !== undefined)
    .sort((a, b) => a.clockOfDayS! - b.clockOfDayS!)
    .map(log => toStrip(log, log.clockOfDayS! - (log.beginsS ?? 0), true));
  const shared: DayStrip[] = [];
  for (const strip of clocked) {
    const before = shared.findIndex(({ toS }) => toS <= strip.fromS);
    if (before < 0) shared.push(strip);
    else {
      const { logs: earlier, fromS } = shared[before]!;
      shared[before] = { ...strip, logs: [...earlier, ...strip.logs], fromS };
    }
  }
  const alone = seen.filter(log => log.clockOfDayS === undefined);
  return [...shared, ...alone.map(log => toStrip(log, 0, false))];
}

const toStrip = (log: LogSeen, offsetS: number, onClock: boolean): DayStrip => {
  const fromS = offsetS + (log.beginsS ?? 0);
  return { logs: [{ log, offsetS }], onClock, fromS, toS: fromS + log.durationS! };
};

/** Seconds of the strip at which a run begins and ends; undefined where it is on another strip. */
export function runOnStrip(strip: DayStrip, run: RunSeen): readonly [number, number] | undefined {
  const placed = strip.logs.find(({ log }) => log.file === run.log);
  return placed && [placed.offsetS + run.beginsS, placed.offsetS + run.endsS];
}

export type Columns = readonly [number[], (number | null)[], (number | null)[]];

/** Traces one after another, with an empty place between two logs so that no line joins them. */
export function tracesToColumns(
  traces: readonly { readonly trace: TraceSeen; readonly offsetS: number }[],
): Columns {
  const timeS: number[] = [];
  const low: (number | null)[] = [];
  const high: (number | null)[] = [];
  for (const { trace, offsetS } of traces) {
    const last = timeS.at(-1);
    if (last !== undefined) {
      timeS.push(last + 1e-3);
      low.push(null);
      high.push(null);
    }
    for (let i = 0; i < trace.timeS.length; i++) {
      timeS.push(trace.timeS[i]! + offsetS);
      low.push(trace.minKmh[i]!);
      high.push(trace.maxKmh[i]!);
    }
  }
  return [timeS, low, high];
}

export interface Sight {
  readonly fromS: number;
  readonly toS: number;
}

/** Shortest stretch that may be looked at. */
const CLOSEST_S = 2;

/** Sight kept inside the day and not narrower than makes sense. */
export function within({ fromS, toS }: Sight, day: Sight): Sight {
  const longest = day.toS - day.fromS;
  const length = Math.min(longest, Math.max(CLOSEST_S, toS - fromS));
  const middle = (fromS + toS) / 2;
  const from = Math.min(Math.max(middle - length / 2, day.fromS), day.toS - length);
  return { fromS: from, toS: from + length };
}

/** Closer by a factor below 1, wider above, around a place that stays where it is. */
export const zoomed = ({ fromS, toS }: Sight, factor: number, aroundS = (fromS + toS) / 2): Sight => ({
  fromS: aroundS - (aroundS - fromS) * factor,
  toS: aroundS + (toS - aroundS) * factor,
});

/** Earlier or later by a part of what is in sight. */
export const moved = ({ fromS, toS }: Sight, part: number): Sight => ({
  fromS: fromS + (toS - fromS) * part,
  toS: toS + (toS - fromS) * part,
});
