/** Measured runs as the JSON that other programs rely on. A missing figure is absent, never 0 and never null. */
import {
  type RestatedFigure,
  type RestatedRun,
  restatedDistance,
  restatedSpeed,
} from '../conditions/restate.ts';
import type { Log } from '../log/log.ts';
import type { MeasuredLog } from '../measurement/measure.ts';
import type { BrakingFigure, DistanceSplit, RunMeasurement, SpeedSplit } from '../measurement/measurement.ts';
import { mphToMps, mpsToKmh } from '../units.ts';
import type { RestatedLog } from './measured-restated.ts';

/** Number of the contract; it changes only when a name or a meaning does. */
export const CONTRACT = 1;

/** km/h as people write them: the conversion's last bits are noise, 100 must not read 100.00000000000001. */
const nominalKmh = (speedMps: number): number => Number(mpsToKmh(speedMps).toPrecision(12));

/** The whole answer; `undefined` and non-finite members are dropped on writing. */
export function measuredToJson(
  logs: readonly { readonly log: Log; readonly measured: MeasuredLog; readonly restated?: RestatedLog }[],
): string {
  const answer = {
    contract: CONTRACT,
    logs: logs.map(({ log, measured, restated }) => ({
      file: log.file,
      format: log.format,
      samples: log.timeS.length,
      duration_s: log.timeS[log.timeS.length - 1],
      rate_hz: measured.trace.rateHz,
      speed_source: log.speedSource,
      warnings: measured.warnings.map(({ code, atS, line, text }) => ({ code, at_s: atS, line, text })),
      air: restated?.air && {
        density_kgm3: restated.air.densityKgm3,
        density_altitude_m: restated.air.densityAltitudeM,
      },
      runs: measured.measurements.map(run => runToJson(run, restated?.byRun.get(run.run.number))),
    })),
  };
  const known = (_: string, value: unknown): unknown =>
    typeof value === 'number' && !Number.isFinite(value) ? undefined : value;
  return `${JSON.stringify(answer, known, 2)}\n`;
}

function runToJson(measurement: RunMeasurement, restated: RestatedRun | undefined) {
  const { run, start } = measurement;
  return {
    number: run.number,
    kind: run.kind,
    status: run.status,
    begins_s: measurement.beginsS,
    ends_s: measurement.endsS,
    start: start && {
      first_movement_s: start.firstMovementS,
      rollout_s: start.rolloutS,
      uncertainty_s: start.uncertaintyS,
    },
    speed_splits: measurement.speedSplits
      .filter(({ fromMps, toMps }) => isNamed(fromMps) && isNamed(toMps))
      .map(split => ({
        ...speedSplitToJson(split),
        restated: restated && restatedToJson(restatedSpeed(restated, split)),
      })),
    distance_splits: measurement.distanceSplits.map(split => ({
      ...distanceSplitToJson(split),
      restated: restated && restatedToJson(restatedDistance(restated, split)),
    })),
    braking: measurement.braking.filter(({ fromMps }) => isNamed(fromMps)).map(brakingToJson),
    peak_mps2: measurement.peakMps2 > 0 ? measurement.peakMps2 : undefined,
    top_kmh: measurement.topMps > 0 ? mpsToKmh(measurement.topMps) : undefined,
    flags: measurement.flags.map(({ code, text }) => ({ code, text })),
  };
}

/** Speeds that the interface names: whole km/h, and 60 mph. The publication has more of its own. */
const isNamed = (speedMps: number): boolean =>
  Number.isInteger(nominalKmh(speedMps)) || Math.abs(speedMps - mphToMps(60)) < 1e-9;

const speedSplitToJson = (split: SpeedSplit) => ({
  from_kmh: nominalKmh(split.fromMps),
  to_kmh: nominalKmh(split.toMps),
  start_rule: split.startRule,
  time_s: split.timeS,
  uncertainty_s: split.uncertaintyS,
  distance_m: split.distanceM,
});

const distanceSplitToJson = (split: DistanceSplit) => ({
  to_m: split.toM,
  start_rule: split.startRule,
  time_s: split.timeS,
  uncertainty_s: split.uncertaintyS,
  speed_kmh: mpsToKmh(split.speedMps),
});

const restatedToJson = (figure: RestatedFigure | undefined) =>
  figure && { time_s: figure.timeS, uncertainty_s: figure.uncertaintyS, changes_s: figure.changesS };

const brakingToJson = (figure: BrakingFigure) => ({
  from_kmh: nominalKmh(figure.fromMps),
  to_kmh: 0,
  distance_m: figure.distanceM,
  uncertainty_m: figure.uncertaintyM,
  mfdd_mps2: figure.mfddMps2,
  time_s: figure.timeS,
});
