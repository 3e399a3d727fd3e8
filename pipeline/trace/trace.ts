/** A log made ready for measuring: fresh readings only, distance, noise, gaps. Nothing is filled in. */
import type { Channels, LogFormat, SpeedSource } from '../log/log.ts';

export interface Gap {
  readonly fromS: number;
  readonly toS: number;
  /** Index of the sample before the gap. */
  readonly index: number;
}

/** A reading no car could make from its neighbours; left out of the arithmetic and told. */
export interface Spike {
  readonly atS: number;
  readonly speedMps: number;
  readonly line: number;
}

export interface Trace {
  readonly file: string;
  readonly format: LogFormat;
  readonly speedSource: SpeedSource;
  /** Seconds on the log's own clock (first sample of the log = 0). */
  readonly timeS: Float64Array;
  readonly speedMps: Float64Array;
  /** Integral of speed since the first sample, m. */
  readonly distanceM: Float64Array;
  readonly line: Uint32Array;
  readonly channels: Channels;
  /** Median rate of fresh readings, 1/s. */
  readonly rateHz: number;
  /** Standard deviation of one speed reading while standing, m/s; includes the recorder's step. */
  readonly noiseMps: number;
  /** Whether `noiseMps` was seen in this log or assumed from its resolution. */
  readonly noiseFrom: 'standing' | 'moving' | 'assumed';
  readonly speedStepMps?: number;
  /** The recorder writes 0 for speeds below this, m/s; absent where it does not. */
  readonly hiddenMps?: number;
  /** Neighbouring readings are as alike as a first-order filter of this time constant makes them, s; absent if not. */
  readonly filterS?: number;
  /** The log stands too briefly to show a filter, so that there may be one. */
  readonly restTooBrief?: true;
  /** Standard deviation of a time stamp, s; absent where stamps are regular. */
  readonly stampS?: number;
  /** Rows repeat one reading this often, s; absent where every row is fresh. */
  readonly heldS?: number;
  readonly gaps: readonly Gap[];
  readonly spikes: readonly Spike[];
}
