/**
 * Shifts seen in the engine speed: while a gear is in and nothing slips, engine speed over speed of the car stands
 * still; an upshift lets it fall by a step to another level.
 */
import { medianOf } from '../trace/least-squares.ts';
import type { Trace } from '../trace/trace.ts';
import { kmhToMps } from '../units.ts';
import type { RunMeasurement } from './measurement.ts';
import type { Shift, Shifts } from './shifts.ts';
import { COVERAGE_FACTOR, rectangular } from './uncertainty.ts';

/** Below this speed a clutch or a converter slips, and the ratio says nothing. */
const RATIO_FROM_MPS = kmhToMps(15);
/** Readings of one gear lie within this share of each other: a whole-km/h log at 40 km/h steps by 2.5 %. */
const LEVEL_SHARE = 0.035;
/** A next gear's ratio is at most this share of the last one's, and at least the other (gearboxes of road cars). */
const STEP = { most: 0.92, least: 0.45 } as const;
/** Readings that make a level, and how long they last, s: a clutch that slips passes any ratio more quickly. */
const LEVEL_READINGS = 2;
const LEVEL_LASTS_S = 0.4;
/** Share of a run's readings that must carry an engine speed. */
const CARRIED_SHARE = 0.8;
/** A shift seen both ways has these instants no further apart, s, besides the readings' own interval. */
const SAME_SHIFT_S = 0.5;

interface Level {
  readonly ratio: number;
  readonly beginIndex: number;
  readonly endIndex: number;
}

/** Whether the log tells engine speed all through a run. */
export function carriesEngineSpeed(trace: Trace, { run }: RunMeasurement): boolean {
  const rpm = trace.channels.engineSpeedRpm;
  if (rpm === undefined) return false;
  let carried = 0;
  for (let k = run.beginIndex; k <= run.endIndex; k++) if (rpm[k]! > 0) carried++;
  return carried >= CARRIED_SHARE * (run.endIndex - run.beginIndex + 1);
}

/** Every step down between two levels; what it cost is taken from `seen` where that shows the same shift. */
export function shiftsFromEngineSpeed(trace: Trace, measurement: RunMeasurement, seen: Shifts): Shifts {
  const levels = levelsOf(trace, measurement);
  const shifts: Shift[] = [];
  for (const [k, after] of levels.entries()) {
    const before = levels[k - 1];
    if (before === undefined) continue;
    const ratioStep = after.ratio / before.ratio;
    if (ratioStep > STEP.most || ratioStep < STEP.least) continue;
    // Between the last reading in the old gear and the first in the new one; where, nobody knows.
    const fromS = trace.timeS[before.endIndex]!;
    const toS = trace.timeS[after.beginIndex]!;
    const near = SAME_SHIFT_S + 1 / trace.rateHz;
    const same = seen.shifts.find(({ atS }) => atS > fromS - near && atS < toS + near);
    if (same !== undefined) {
      shifts.push({ ...same, ratioStep });
      continue;
    }
    // A reading's engine speed and speed may be up to one refresh apart.
    const spreadS = rectangular(toS - fromS + (trace.heldS ?? 0));
    shifts.push({
      atS: (fromS + toS) / 2,
      atUncertaintyS: COVERAGE_FACTOR * spreadS,
      speedMps: (trace.speedMps[before.endIndex]! + trace.speedMps[after.beginIndex]!) / 2,
      ratioStep,
    });
  }
  return { shifts, from: 'engine-speed' };
}

/** Stretches in which the ratio stands still, in order of time. */
export function levelsOf(trace: Trace, { run }: RunMeasurement): Level[] {
  const rpm = trace.channels.engineSpeedRpm!;
  const last = run.braking?.beginIndex ?? run.endIndex;
  const levels: Level[] = [];
  let ratios: number[] = [];
  let beginIndex = -1;
  let endIndex = -1;
  const close = (): void => {
    const before = levels.at(-1);
    const lastsS = ratios.length === 0 ? 0 : trace.timeS[endIndex]! - trace.timeS[beginIndex]!;
    if (ratios.length >= LEVEL_READINGS && lastsS >= LEVEL_LASTS_S - 1e-9) {
      const ratio = medianOf(ratios);
      // The same gear again, after a reading that strayed.
      if (before !== undefined && Math.abs(ratio / before.ratio - 1) < LEVEL_SHARE) {
        levels[levels.length - 1] = { ...before, endIndex };
      } else levels.push({ ratio, beginIndex, endIndex });
    }
    ratios = [];
  };
  for (let k = run.beginIndex; k <= last; k++) {
    const speed = trace.speedMps[k]!;
    if (speed < RATIO_FROM_MPS || !(rpm[k]! > 0)) continue;
    const ratio = rpm[k]! / speed;
    if (ratios.length > 0 && Math.abs(ratio / medianOf(ratios) - 1) > LEVEL_SHARE) close();
    if (ratios.length === 0) beginIndex = k;
    ratios.push(ratio);
    endIndex = k;
  }
  close();
  return levels;
}
