/**
 * What every frame of a sequence shows, in whole frames: the picture's clock is the ratio of the frame rate,
 * so that nothing drifts, and every value is worked out from its frame alone.
 *
 * The instant of first movement is the beginning of the frame named by `movesAtFrame`; a picture cannot tell it
 * more finely than one frame. A running value is one that has been passed: hundredths, km/h or mph, and metres are cut,
 * not rounded. The value the clock ends at is the published one, rounded as everywhere.
 */

import { layTape } from '../measurement/tape.ts';
import { type FrameRate, frameToSeconds } from '../overlay/timecode.ts';
import type { Attempt } from '../result/result.ts';
import type { StartRule } from '../run/run.ts';
import { type ForReaders, speedScale } from '../speed-unit.ts';
import { ROLLOUT_M } from '../units.ts';
import { speedAt } from './speed-at.ts';
import { clockBeginsS, type RunSplit } from './splits.ts';

/** Frames are those of the clip the picture belongs to, counted from 0. */
export interface SequencePlan {
  readonly attempt: Attempt;
  readonly startRule: StartRule;
  readonly frameRate: FrameRate;
  readonly movesAtFrame: number;
  readonly firstFrame: number;
  /** Inclusive. */
  readonly lastFrame: number;
  /** First frame at which the clock has stopped. */
  readonly stopsAtFrame: number;
  /** Shown on the plate, in the order they are reached; the last of them stops the clock. */
  readonly splits: readonly RunSplit[];
  /** Frames a split is set off for after it is reached; 0: not at all. */
  readonly holdFrames: number;
  /** Decimals of the clock: those of the figure it ends at. */
  readonly clockDecimals: number;
}

export interface PlanTimes {
  readonly frameRate: FrameRate;
  readonly movesAtFrame: number;
  /** Whole seconds or parts of them; a lead-in that would begin before frame 0 is cut there. */
  readonly leadS: number;
  readonly holdS: number;
  readonly freezeS: number;
}

/** What one frame shows. */
export interface FrameValues {
  /** Clock in units of its last decimal; absent once it has stopped. */
  readonly clockUnits?: number;
  /** Both absent while the log has no readings: nothing is filled in. */
  /** Whole numbers of the unit of those it is drawn for. */
  readonly speed?: number;
  readonly distanceM?: number;
  /** One for each split of the plan. */
  readonly splits: readonly SplitState[];
}

export type SplitState = 'ahead' | 'held' | 'reached';

/** Frames that last at least this long: `ceil`, in whole numbers where the time is a whole number of ms. */
export function secondsToFrames(timeS: number, { frames, seconds }: FrameRate): number {
  const milliseconds = Math.round(timeS * 1000);
  return Math.ceil((milliseconds * frames) / (seconds * 1000));
}

/** First frame after first movement, counted from it, that begins at or after an instant. */
export function firstFrameAt(afterMovementS: number, frameRate: FrameRate): number {
  const near = Math.round((afterMovementS * frameRate.frames) / frameRate.seconds);
  return frameToSeconds(near, frameRate) >= afterMovementS ? near : near + 1;
}

/** @throws RangeError without splits: there would be nothing to stop the clock. */
export function planSequence(
  attempt: Attempt,
  startRule: StartRule,
  splits: readonly RunSplit[],
  { frameRate, movesAtFrame, leadS, holdS, freezeS }: PlanTimes,
): SequencePlan {
  const last = splits.at(-1);
  if (last === undefined) throw new RangeError('A sequence needs a split to end at');
  const stopsAtFrame = movesAtFrame + firstFrameAt(last.afterMovementS, frameRate);
  return {
    attempt,
    startRule,
    frameRate,
    movesAtFrame,
    firstFrame: Math.max(0, movesAtFrame - secondsToFrames(leadS, frameRate)),
    lastFrame: stopsAtFrame + Math.max(1, secondsToFrames(freezeS, frameRate)) - 1,
    stopsAtFrame,
    splits,
    holdFrames: secondsToFrames(holdS, frameRate),
    clockDecimals: /\D(\d+)$/.exec(last.printed.value)?.[1]?.length ?? 0,
  };
}

/** A function from frame to what it shows; a frame outside the plan shows what the nearest one in it does. */
export function frameValues(plan: SequencePlan, readers: ForReaders): (frame: number) => FrameValues {
  const { attempt, startRule, frameRate, movesAtFrame, stopsAtFrame, splits, holdFrames } = plan;
  const beginsS = clockBeginsS(attempt, startRule);
  const unitsPerS = 10 ** plan.clockDecimals;
  const reachedAt = splits.map(split => movesAtFrame + firstFrameAt(split.afterMovementS, frameRate));
  const stopsS = splits.at(-1)?.afterMovementS ?? 0;
  const { fromMps } = speedScale(readers);
  const read = runReadings(attempt, startRule);

  return frame => {
    const sinceMovement = frame - movesAtFrame;
    const stopped = frame >= stopsAtFrame;
    const reading = read(stopped ? stopsS : frameToSeconds(sinceMovement, frameRate));
    // One division of whole numbers: exact wherever the clock begins with the movement.
    const units = Math.floor(
      (sinceMovement * frameRate.seconds * unitsPerS) / frameRate.frames - beginsS * unitsPerS,
    );
    return {
      ...(stopped ? {} : { clockUnits: Math.max(0, units) }),
      ...(reading === undefined
        ? {}
        : { speed: passed(fromMps(reading.speedMps)), distanceM: passed(reading.distanceM) }),
      splits: reachedAt.map((at, index) => {
        if (frame < at) return 'ahead';
        // The next split takes the place of one that is still set off.
        return frame < Math.min(at + holdFrames, reachedAt[index + 1] ?? at + holdFrames)
          ? 'held'
          : 'reached';
      }),
    };
  };
}

/** Whole units that have been passed; twelve digits are kept, so that 27.7̄ m/s is 100 km/h. */
const passed = (value: number): number => Math.max(0, Math.floor(Number(value.toPrecision(12))));

/** How long after a split the line through the readings may still lie below it, s. */
const JUST_PAST_S = 0.2;

interface Reading {
  readonly speedMps: number;
  readonly distanceM: number;
}

/**
 * Speed and distance a time after first movement, on the start rule's tape. They agree with the measured figures:
 * a speed or distance is shown as passed from the instant of its split on, and not before. Undefined within a gap.
 */
function runReadings(
  attempt: Attempt,
  startRule: StartRule,
): (afterMovementS: number) => Reading | undefined {
  const { trace, measurement } = attempt;
  const movedS = measurement.start?.firstMovementS ?? measurement.beginsS;
  const rolloutS = measurement.start?.rolloutS ?? 0;
  const clockS = clockBeginsS(attempt, startRule);
  const tape = layTape(trace, movedS + rolloutS, speedAt(trace, movedS + rolloutS, movedS));
  const beforeM = startRule === 'first-movement' ? ROLLOUT_M : 0;
  const speeds = measurement.speedSplits
    .filter(split => split.startRule === startRule)
    .map(({ timeS, toMps }) => ({ atS: timeS + clockS, value: toMps }));
  const distances = measurement.distanceSplits
    .filter(split => split.startRule === startRule)
    .map(({ timeS, toM }) => ({ atS: timeS + clockS, value: toM }));

  return afterS => {
    if (afterS <= 0) return { speedMps: 0, distanceM: 0 };
    const atS = movedS + afterS;
    if (trace.gaps.some(gap => atS > gap.fromS && atS < gap.toS)) return undefined;
    const rawM = afterS < rolloutS ? 0 : tape.at(atS) + beforeM;
    const raw = speedAt(trace, atS, movedS);
    return {
      // A gear change may take the car below a speed it has passed, so only what is just past a split is lifted.
      speedMps: agreeing(raw, afterS, speeds, JUST_PAST_S),
      distanceM: Math.max(0, agreeing(rawM, afterS, distances, Number.POSITIVE_INFINITY)),
    };
  };
}

/** Just below a split's value until it is reached, at least that value for `forS` from then on. */
function agreeing(
  value: number,
  atS: number,
  splits: readonly { readonly atS: number; readonly value: number }[],
  forS: number,
): number {
  let agreed = value;
  for (const split of splits) {
    if (atS < split.atS) agreed = Math.min(agreed, split.value - 1e-6);
    else if (atS < split.atS + forS) agreed = Math.max(agreed, split.value);
  }
  return agreed;
}
