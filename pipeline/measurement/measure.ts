/** From a log to measured runs: the whole computation, without files, clock or settings of its own. */
import type { Log, LogWarning } from '../log/log.ts';
import { findRuns } from '../run/find.ts';
import type { Run } from '../run/run.ts';
import { logToTrace } from '../trace/build.ts';
import type { Trace } from '../trace/trace.ts';
import { measureBraking } from './braking.ts';
import { measureDistanceSplits } from './distance-splits.ts';
import { flagsOf, flagsOfStart } from './flags.ts';
import type { RunMeasurement } from './measurement.ts';
import { measurePeak } from './peak-acceleration.ts';
import { measureRollingSplits } from './rolling-splits.ts';
import { measureSpeedSplits } from './speed-splits.ts';
import { fitStart, startFigure } from './start.ts';
import { fitStop } from './stop.ts';
import { layTape } from './tape.ts';
import { measureTop } from './top-speed.ts';

export interface MeasureOptions {
  /** Receiver's stated accuracy of speed, one standard deviation, m/s; taken as the same all through a run. */
  readonly receiverMps?: number;
  /** Time constant of the receiver's filter where its maker states one, s; otherwise it is looked for in the log. */
  readonly lagS?: number;
  /** Runs recorded slower than this are flagged, 1/s. */
  readonly lowRateHz?: number;
}

export interface MeasuredLog {
  readonly trace: Trace;
  readonly measurements: readonly RunMeasurement[];
  /** The reader's warnings, then those of the trace. */
  readonly warnings: readonly LogWarning[];
}

/** Every run of a log, measured. A log without runs gives none; it never throws. */
export function measureLog(log: Log, options: MeasureOptions = {}): MeasuredLog {
  const { trace: found, warnings } = logToTrace(log);
  const trace = options.lagS === undefined ? found : { ...found, filterS: options.lagS };
  const measurements = findRuns(trace).map(run => measureRun(trace, run, options));
  return { trace, measurements, warnings: [...log.warnings, ...warnings] };
}

/** The figures of one run. */
export function measureRun(trace: Trace, run: Run, options: MeasureOptions = {}): RunMeasurement {
  const receiverMps = options.receiverMps ?? 0;
  const { beginIndex, endIndex } = run;
  const pullEnd = run.braking?.beginIndex ?? endIndex;
  const start = run.kind === 'standing-start' ? fitStart(trace, run) : undefined;
  const tape = start && layTape(trace, start.rolloutAtS, start.rolloutMps, receiverMps);
  const standing =
    start && tape
      ? {
          start: startFigure(start),
          speedSplits: measureSpeedSplits(trace, beginIndex, pullEnd, start, tape, receiverMps),
          distanceSplits: measureDistanceSplits(trace, pullEnd, start, tape, receiverMps),
        }
      : undefined;
  const rollingSplits =
    run.kind === 'rolling' ? measureRollingSplits(trace, beginIndex, pullEnd, receiverMps) : [];
  const stop = run.braking && fitStop(trace, run.braking.endIndex);
  return {
    run,
    beginsS: start?.firstMovementS ?? trace.timeS[beginIndex]!,
    endsS: stop?.atS ?? trace.timeS[endIndex]!,
    speedSplits: rollingSplits,
    distanceSplits: [],
    ...standing,
    braking: measureBraking(trace, run, stop, receiverMps),
    ...measurePeak(trace, beginIndex, pullEnd),
    ...measureTop(trace, beginIndex, endIndex, receiverMps),
    flags: [
      ...flagsOf(trace, beginIndex, endIndex, options.lowRateHz),
      ...(start === undefined ? [] : flagsOfStart(trace, run)),
    ],
    fits: { ...(start === undefined ? {} : { start }), ...(stop === undefined ? {} : { stop }) },
  };
}
