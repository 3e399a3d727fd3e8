/**
 * Upshifts of a run, and what each of them cost.
 *
 * A shift is seen in the speed alone, as a dip of acceleration between two stretches of pull, or in the engine speed,
 * whose ratio to the speed of the car falls by a step. Nothing else is taken for one: a car that pulls on without a
 * dip has made no shift that anyone could measure. A driver who lifts for as long as a shift takes looks the same, and
 * so do tyres that lose two fifths of the pull above 20 km/h: that is said, not guessed away. Engine speed tells them
 * apart, and so does knowing that the car has one gear.
 *
 * Time lost (our own definition): the time the shift really took, from the old pull to the new one, less what the
 * same change would have taken had it needed no time, the old pull lasting up to the speed at which the shift began
 * and the new one beginning at that speed. It is the distance in time between the two pulls at that speed.
 */
import { onceOf } from '../once-of.ts';
import type { Run } from '../run/run.ts';
import type { Trace } from '../trace/trace.ts';
import type { RunMeasurement } from './measurement.ts';
import { shiftsFromAcceleration } from './shifts-acceleration.ts';
import { carriesEngineSpeed, shiftsFromEngineSpeed } from './shifts-engine-speed.ts';

export interface Shift {
  /** When the pull ends and the shift begins, on the log's own clock, s; expanded uncertainty, k = 2. */
  readonly atS: number;
  readonly atUncertaintyS: number;
  /** Speed of the car then, m/s. */
  readonly speedMps: number;
  /** From the end of the old pull to the beginning of the new one, at half the depth of the dip, s. */
  readonly durationS?: number;
  readonly durationUncertaintyS?: number;
  /** As defined above; expanded uncertainty, k = 2. Absent where only the engine speed shows the shift. */
  readonly lostS?: number;
  readonly lostUncertaintyS?: number;
  /** Engine speed over speed of the car after the shift as a share of that before; only from engine speed. */
  readonly ratioStep?: number;
}

/** Why no shifts can be looked for, or why finding none says little. */
export type NoShiftsReason =
  | 'one-gear'
  | 'rate-too-low'
  | 'held-values'
  | 'speed-from-position'
  | 'noise-hides-them'
  | 'gap'
  | 'too-short';

export interface Shifts {
  /** In order of time. */
  readonly shifts: readonly Shift[];
  readonly from: 'acceleration' | 'engine-speed';
  /** Present where the log could not show shifts, or not all; then an empty list is no finding. */
  readonly notFound?: NoShiftsReason;
  /** A shift that costs less than this may have gone unseen, s; only from acceleration. */
  readonly smallestLostS?: number;
}

export interface ShiftOptions {
  /** A car known to have one gear, or to be stepless, makes no shifts: a dip of its pull is something else. */
  readonly oneGear?: boolean;
}

/**
 * Upshifts of a standing start or a rolling run. Engine speed decides where the log carries it; the time lost still
 * comes from the acceleration where that shows the same shift.
 */
export function shiftsOf(trace: Trace, measurement: RunMeasurement, options: ShiftOptions = {}): Shifts {
  if (options.oneGear === true) return { shifts: [], from: 'acceleration', notFound: 'one-gear' };
  return onceOf(foundOf(trace), measurement.run, () => lookForShifts(trace, measurement));
}

/** Has `shiftsOf` answer with what it came to before, for a trace that is made again. */
export function knowShifts(trace: Trace, { run }: RunMeasurement, shifts: Shifts): void {
  foundOf(trace).set(run, shifts);
}

/** Figures, tables and the care of a clutch all ask for them, of measurements that got more flags meanwhile. */
const found = new WeakMap<Trace, WeakMap<Run, Shifts>>();
const foundOf = (trace: Trace) => onceOf(found, trace, () => new WeakMap<Run, Shifts>());

function lookForShifts(trace: Trace, measurement: RunMeasurement): Shifts {
  const seen = shiftsFromAcceleration(trace, measurement);
  if (!carriesEngineSpeed(trace, measurement)) return seen;
  return shiftsFromEngineSpeed(trace, measurement, seen);
}

/** How many shifts a run had made when it first reached a speed. */
export interface ShiftCount {
  readonly shifts: number;
  /** Only where engine speed shows the shifts and the run began from rest: its gear there is taken for the first. */
  readonly gear?: number;
  /** Slight shifts may have gone unseen. */
  readonly atLeast?: true;
}

/** Where shifts that cost this much may go unseen, those that are seen are a least number, s (our own limit). */
export const COUNT_FIRM_S = 0.1;

/** Undefined where the run never reached the speed, or where its shifts could not all be seen. */
export function shiftsTo(
  trace: Trace,
  measurement: RunMeasurement,
  found: Shifts,
  speedMps: number,
): ShiftCount | undefined {
  if (found.notFound !== undefined) return undefined;
  const { run } = measurement;
  const last = run.braking?.beginIndex ?? run.endIndex;
  let index = run.beginIndex;
  while (index <= last && trace.speedMps[index]! < speedMps) index++;
  if (index > last) return undefined;
  const shifts = found.shifts.filter(({ atS }) => atS < trace.timeS[index]!).length;
  return found.from === 'engine-speed' && run.kind === 'standing-start'
    ? { shifts, gear: shifts + 1 }
    : found.smallestLostS !== undefined && found.smallestLostS > COUNT_FIRM_S
      ? { shifts, atLeast: true }
      : { shifts };
}

const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];
const ORDINALS = ['', 'first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth'];

/** “in second gear” where the gear is known, otherwise “after one shift”. */
export function shiftCountInWords({ shifts, gear, atLeast }: ShiftCount): string {
  if (gear !== undefined) return `in ${ORDINALS[gear] ?? `${gear}th`} gear`;
  if (shifts === 0) return atLeast ? 'without a shift that could be seen' : 'without a shift';
  return `after ${atLeast ? 'at least ' : ''}${COUNTS[shifts] ?? shifts} ${shifts === 1 ? 'shift' : 'shifts'}`;
}
