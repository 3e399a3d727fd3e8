/** Readings gathered row by row, put in the order of time, and closed into a log. */
import { ProblemError } from '../problem.ts';
import { logTimeRestarts, timeBackwards, timeRepeated } from '../problems/log.ts';
import type { Channels, LogWarning } from './log.ts';
import { Tally } from './tally.ts';

export type ChannelName = keyof Channels;

/**
 * Rows in a row that may be out of order before it is taken for a restart of the recorder.
 * Common practice, no source: a buffer written twice is a few rows, a restart is the rest of the file.
 */
export const MAX_ROWS_OUT_OF_ORDER = 10;

/** Rows a column has room for before it first grows, where nobody knows better. */
const USUAL_ROOM = 4096;

/** A column of numbers that grows. */
export class Column {
  private values: Float64Array;
  length = 0;

  /** @param room rows it is expected to hold */
  constructor(room = USUAL_ROOM) {
    this.values = new Float64Array(Math.max(1, room));
  }

  push(value: number): void {
    if (this.length === this.values.length) {
      const larger = new Float64Array(this.length * 2);
      larger.set(this.values);
      this.values = larger;
    }
    this.values[this.length++] = value;
  }

  /** Other values for the same rows. */
  replace(values: Float64Array): void {
    this.values = values;
    this.length = values.length;
  }

  /** The column's own values where they fill it, which is then pushed to no more. */
  toArray(): Float64Array {
    return this.length === this.values.length ? this.values : this.values.slice(0, this.length);
  }
}

/** Columns of readings as they stand in the file; times in seconds on any clock. */
export class Samples {
  readonly time: Column;
  readonly speed: Column;
  readonly line: Column;
  readonly channels = new Map<ChannelName, Column>();

  /** @param room rows they are expected to hold: columns that grow by copying take a third more memory */
  constructor(names: Iterable<ChannelName>, room?: number) {
    this.time = new Column(room);
    this.speed = new Column(room);
    this.line = new Column(room);
    for (const name of names) this.channels.set(name, new Column(room));
  }
}

export interface OrderedSamples {
  /** First kept time on the file's own clock, s; NaN if there is none. */
  readonly startS: number;
  readonly timeS: Float64Array;
  readonly speedMps: Float64Array;
  readonly line: Uint32Array;
  readonly channels: Channels;
  readonly warnings: readonly LogWarning[];
}

/**
 * Samples in strictly increasing time, seconds since the first. Rows whose speed is NaN are none.
 *
 * Where a time repeats, its first row is used. A row earlier than the one before it is left out, or the one
 * before it if that alone had run ahead. Both are told. Longer stretches are a restart, and refused: which
 * of two times of one clock is meant cannot be known, and any joining would invent a time.
 * Channels without a single value are dropped.
 * @throws ProblemError where time goes back and stays back for more than {@link MAX_ROWS_OUT_OF_ORDER} rows.
 */
export function inOrder(file: string, samples: Samples): OrderedSamples {
  const time = samples.time.toArray();
  const speed = samples.speed.toArray();
  const line = samples.line.toArray();
  const kept = new Uint32Array(time.length);
  let count = 0;
  const repeated = new Tally();
  const backwards = new Tally();
  let late = 0;
  for (let i = 0; i < time.length; i++) {
    if (Number.isNaN(speed[i])) continue;
    const last = count === 0 ? undefined : kept[count - 1]!;
    const now = time[i]!;
    if (last === undefined || now > time[last]!) {
      late = 0;
      kept[count++] = i;
    } else if (now === time[last]!) {
      repeated.add(line[i]!);
    } else if (late === 0 && ranAhead(time, kept, count, i)) {
      backwards.add(line[last]!);
      kept[count - 1] = i;
    } else {
      late++;
      backwards.add(line[i]!);
      if (late > MAX_ROWS_OUT_OF_ORDER) {
        const first = i - late + 1;
        const text = (index: number) => String(Number((time[index]! - time[0]!).toFixed(3)));
        throw new ProblemError(logTimeRestarts(file, line[first]!, text(last), text(first)));
      }
    }
  }
  const pick = (values: Float64Array) => {
    if (count === values.length) return values;
    // By index: `Float64Array.from` costs several times as much on large logs.
    const picked = new Float64Array(count);
    for (let k = 0; k < count; k++) picked[k] = values[kept[k]!]!;
    return picked;
  };
  const startS = count > 0 ? time[kept[0]!]! : Number.NaN;
  const channels: Partial<Record<ChannelName, Float64Array>> = {};
  for (const [name, column] of samples.channels) {
    const values = pick(column.toArray());
    if (values.some(Number.isFinite)) channels[name] = values;
  }
  return {
    startS,
    timeS: pick(time).map(seconds => seconds - startS),
    speedMps: pick(speed),
    line: new Uint32Array(pick(line)),
    channels,
    warnings: [
      ...(repeated.count > 0 ? [timeRepeated(repeated)] : []),
      ...(backwards.count > 0 ? [timeBackwards(backwards)] : []),
    ],
  };
}

/** True where only the last kept row is out of place: this row and the next follow the one before it. */
function ranAhead(time: Float64Array, kept: Uint32Array, count: number, i: number): boolean {
  const last = count < 1 ? undefined : kept[count - 1];
  const before = count < 2 ? undefined : kept[count - 2];
  const now = time[i]!;
  const next = time[i + 1];
  if (last === undefined || next === undefined) return false;
  const follows = before === undefined ? i === 1 : now > time[before]!;
  return follows && next > now && next <= time[last]!;
}

/** Warnings with the time of the sample nearest after their line, where there is one. */
export function placeInTime(
  warnings: readonly LogWarning[],
  ordered: Pick<OrderedSamples, 'timeS' | 'line'>,
): LogWarning[] {
  return warnings.map(warning => {
    if (warning.line === undefined || warning.atS !== undefined) return warning;
    let low = 0;
    let high = ordered.line.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (ordered.line[middle]! < warning.line) low = middle + 1;
      else high = middle;
    }
    const atS = ordered.timeS[Math.min(low, ordered.timeS.length - 1)];
    return atS === undefined ? warning : { ...warning, atS };
  });
}
