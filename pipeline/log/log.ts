/** What every reader gives: one sample a reading, SI, in the order of time, nothing repaired. */

export type LogFormat = 'csv' | 'nmea' | 'gpx';
export type SpeedSource = 'recorded' | 'derived-from-position';

/** Columns kept besides time and speed; NaN where a sample has no value. */
export interface Channels {
  readonly latitudeDeg?: Float64Array;
  readonly longitudeDeg?: Float64Array;
  readonly eastingM?: Float64Array;
  readonly northingM?: Float64Array;
  readonly altitudeM?: Float64Array;
  /** True course over ground, 0–360. */
  readonly headingDeg?: Float64Array;
  readonly satellites?: Float64Array;
  readonly hdop?: Float64Array;
  /** The receiver's own stated accuracy of speed, one standard deviation unless the log says otherwise. */
  readonly speedAccuracyMps?: Float64Array;
  readonly engineSpeedRpm?: Float64Array;
  readonly throttlePct?: Float64Array;
  readonly longitudinalMps2?: Float64Array;
}

/** Something uncertain in a log, told and not mended. */
export interface LogWarning {
  /** Permanent short name, such as `gap`, `bad-checksum`, `time-backwards`. */
  readonly code: string;
  readonly atS?: number;
  readonly line?: number;
  readonly text: string;
}

/** The wall clock at the log's first sample. */
export interface LogClock {
  /** `utc`: an instant is known. `time-of-day`: only hours of an unnamed day and zone. */
  readonly kind: 'utc' | 'time-of-day';
  /** Milliseconds since 1970-01-01T00:00Z (`utc`) or since midnight (`time-of-day`). */
  readonly startMs: number;
}

export interface Log {
  readonly file: string;
  readonly format: LogFormat;
  /** Seconds since the first sample, strictly increasing. */
  readonly timeS: Float64Array;
  /** Speed over ground, m/s, never negative. */
  readonly speedMps: Float64Array;
  readonly speedSource: SpeedSource;
  /** 1-based line of the file each sample came from. */
  readonly line: Uint32Array;
  /** Smallest step the recorder can write, m/s (for example 1 km/h, or 0.01 kn); absent if not evident. */
  readonly speedStepMps?: number;
  /** Absent where the log only has seconds since an unknown start. */
  readonly clock?: LogClock;
  readonly channels: Channels;
  readonly warnings: readonly LogWarning[];
}

/** `--column time=NAME:unit` and the same in a test.yaml: which column is what. */
export interface DeclaredColumn {
  readonly name: string;
  readonly unit?: string;
}
/** Keys are `time`, `speed` and the channel words of `csv.ts`. */
export type DeclaredColumns = Readonly<Record<string, DeclaredColumn>>;

export interface ReadOptions {
  /** Overrides recognition. */
  readonly format?: LogFormat;
  readonly columns?: DeclaredColumns;
}

/** One log format: a file of its own and one line in `readers.ts`. */
export interface LogReader {
  readonly format: LogFormat;
  /** For the methodology page and `--help`. */
  readonly describes: string;
  /** True where the bytes themselves say so; endings are never asked. */
  recognises(head: string): boolean;
  /** @throws ProblemError with one clear problem where nothing can be measured from it. */
  read(file: string, bytes: Uint8Array, options: ReadOptions): Log;
}
