/** The runs of a log restated for the reference road, and what could not be, flagged. */
import type { RunCircumstances } from '../conditions/circumstances.ts';
import { notRestatedFlag, type RestatedRun, restateRun } from '../conditions/restate.ts';
import { airOf } from '../content/conditions-file.ts';
import type { MeasuredLog } from '../measurement/measure.ts';
import type { RunMeasurement } from '../measurement/measurement.ts';

export interface RestatedLog {
  /** The same measurements; those not restated carry a flag that names the reason. */
  readonly measured: MeasuredLog;
  readonly air?: { readonly densityKgm3: number; readonly densityAltitudeM: number };
  /** Of standing starts, by number of the run. */
  readonly byRun: ReadonlyMap<number, RestatedRun>;
}

/** Every standing start under the same circumstances; rolling runs and braking stay as they are. */
export function restateLog(measured: MeasuredLog, circumstances: RunCircumstances): RestatedLog {
  const byRun = new Map<number, RestatedRun>();
  const measurements = measured.measurements.map((measurement): RunMeasurement => {
    const { run, speedSplits, distanceSplits } = measurement;
    if (run.kind !== 'standing-start' || speedSplits.length + distanceSplits.length === 0) return measurement;
    const restated = restateRun(measured.trace, measurement, circumstances);
    byRun.set(run.number, restated);
    const flag = notRestatedFlag(restated) ?? partlyFlag(measurement, restated);
    return flag === undefined ? measurement : { ...measurement, flags: [...measurement.flags, flag] };
  });
  const air = airOf(circumstances);
  return { measured: { ...measured, measurements }, ...(air === undefined ? {} : { air }), byRun };
}

function partlyFlag({ speedSplits, distanceSplits }: RunMeasurement, restated: RestatedRun) {
  const absent =
    speedSplits.length + distanceSplits.length - restated.speedSplits.length - restated.distanceSplits.length;
  return absent === 0
    ? undefined
    : {
        code: 'not-restated',
        text: `${absent} ${absent === 1 ? 'split' : 'splits'}: the car does not reach that speed in still air on a level road`,
      };
}
