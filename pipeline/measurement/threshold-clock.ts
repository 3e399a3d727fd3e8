/**
 * What a clock would have printed that starts at the first reading at or over 1 km/h. Nothing here is published as a
 * time: it stands beside the times that are, so that a reader sees what a threshold leaves out.
 */
import type { Trace } from '../trace/trace.ts';
import { kmhToMps } from '../units.ts';
import type { RunMeasurement, SpeedSplit } from './measurement.ts';

export const CLOCK_THRESHOLD_MPS: number = kmhToMps(1);

/** Instant of the first reading of a standing start at or over the threshold, s of the log. */
export function thresholdStartS(trace: Trace, { run }: Pick<RunMeasurement, 'run'>): number | undefined {
  for (let i = run.beginIndex; i <= run.endIndex; i++) {
    if (trace.speedMps[i]! >= CLOCK_THRESHOLD_MPS) return trace.timeS[i]!;
  }
  return undefined;
}

/**
 * Time to the speed of a split from that instant, s. The end is the split's own, so that the two times differ by
 * their start alone. Undefined for anything but a split from first movement of a standing start.
 */
export function thresholdTimeS(
  trace: Trace,
  measurement: Pick<RunMeasurement, 'run' | 'start'>,
  split: Pick<SpeedSplit, 'startRule' | 'timeS'>,
): number | undefined {
  const startS = thresholdStartS(trace, measurement);
  const { start } = measurement;
  if (startS === undefined || start === undefined || split.startRule !== 'first-movement') return undefined;
  return start.firstMovementS + split.timeS - startS;
}
