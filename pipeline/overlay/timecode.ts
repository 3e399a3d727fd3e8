/**
 * Frames, seconds and timecode labels, in whole numbers only.
 *
 * A frame rate is a ratio of whole numbers, so that an hour of 30000/1001 frames per second drifts by
 * nothing. Frames count from 0. Labels count as SMPTE ST 12-1 says: `hh:mm:ss:ff`, and with drop-frame
 * counting `hh:mm:ss;ff`, where the first labels of every minute but each tenth are left out.
 */
import { ProblemError } from '../problem.ts';
import { timecodeWrong } from '../problems/overlay.ts';

/** `frames` frames last `seconds` seconds, both whole numbers. */
export interface FrameRate {
  /** As editors write it, such as `29.97`. */
  readonly name: string;
  readonly frames: number;
  readonly seconds: number;
}

export type FrameRateName = '23.976' | '24' | '25' | '29.97' | '30' | '50' | '59.94' | '60';
export type Counting = 'non-drop' | 'drop-frame';

const rate = (name: FrameRateName, frames: number, seconds: number): FrameRate => ({ name, frames, seconds });

/** The rates video is edited at (SMPTE ST 12-1, ST 12-3). */
export const FRAME_RATES: Readonly<Record<FrameRateName, FrameRate>> = {
  '23.976': rate('23.976', 24_000, 1001),
  '24': rate('24', 24, 1),
  '25': rate('25', 25, 1),
  '29.97': rate('29.97', 30_000, 1001),
  '30': rate('30', 30, 1),
  '50': rate('50', 50, 1),
  '59.94': rate('59.94', 60_000, 1001),
  '60': rate('60', 60, 1),
};

/** Labels per second: the rate rounded up to a whole number. */
export const labelsPerSecond = ({ frames, seconds }: FrameRate): number => Math.ceil(frames / seconds);

/** Labels left out at the start of a minute: 2 at 29.97, 4 at 59.94, none at rates without drop-frame counting. */
export function droppedPerMinute(frameRate: FrameRate): number {
  const perSecond = labelsPerSecond(frameRate);
  return frameRate.seconds === 1001 && perSecond % 30 === 0 ? perSecond / 15 : 0;
}

/** Frames that a day of labels holds. */
export function framesPerDay(frameRate: FrameRate, counting: Counting): number {
  const dropped = counting === 'drop-frame' ? requireDropFrame(frameRate) : 0;
  return labelsPerSecond(frameRate) * 86_400 - dropped * (1440 - 144);
}

/** Labels dropped per minute. @throws RangeError at a rate that drop-frame counting is not defined for. */
function requireDropFrame(frameRate: FrameRate): number {
  const dropped = droppedPerMinute(frameRate);
  if (dropped === 0)
    throw new RangeError(`Drop-frame counting is for 29.97 and 59.94, not ${frameRate.name}`);
  return dropped;
}

const two = (value: number): string => String(value).padStart(2, '0');

/**
 * Label of a frame counted from 0.
 * @throws RangeError where the frame is not a whole number within one day of labels, or the rate has no drop-frame.
 */
export function frameToTimecode(frame: number, frameRate: FrameRate, counting: Counting): string {
  const day = framesPerDay(frameRate, counting);
  if (!Number.isInteger(frame) || frame < 0 || frame >= day) {
    throw new RangeError(`A frame is a whole number from 0 to ${day - 1}, not ${frame}`);
  }
  const perSecond = labelsPerSecond(frameRate);
  const label = counting === 'drop-frame' ? frame + labelsLeftOut(frame, frameRate) : frame;
  const seconds = Math.floor(label / perSecond);
  const clock = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60].map(two).join(':');
  return `${clock}${counting === 'drop-frame' ? ';' : ':'}${two(label % perSecond)}`;
}

/** Labels that drop-frame counting has left out before this frame. */
function labelsLeftOut(frame: number, frameRate: FrameRate): number {
  const dropped = requireDropFrame(frameRate);
  const perMinute = labelsPerSecond(frameRate) * 60 - dropped;
  const perTenMinutes = perMinute * 10 + dropped;
  const tens = Math.floor(frame / perTenMinutes);
  const within = frame % perTenMinutes;
  // The first minute of each ten keeps all its labels, so it is longer by `dropped`.
  const minutes = within < dropped ? 0 : Math.floor((within - dropped) / perMinute);
  return dropped * (9 * tens + minutes);
}

/**
 * Frame of a label, counted from 0; a semicolon before the frames says drop-frame counting.
 * @throws ProblemError where the label is not readable, out of range, or one that drop-frame counting leaves out.
 */
export function timecodeToFrame(label: string, frameRate: FrameRate): number {
  const perSecond = labelsPerSecond(frameRate);
  const shape = /^(\d{2}):([0-5]\d):([0-5]\d)([:;])(\d{2})$/.exec(label);
  const [hours = 0, minutes = 0, seconds = 0, , frames = 0] = shape?.slice(1).map(Number) ?? [];
  if (!shape || hours > 23 || frames >= perSecond) {
    throw new ProblemError(
      timecodeWrong(
        label,
        `hours:minutes:seconds:frames with frames 00 to ${two(perSecond - 1)}`,
        'Copy the timecode as the editing program shows it at this rate.',
      ),
    );
  }
  const count = ((hours * 60 + minutes) * 60 + seconds) * perSecond + frames;
  if (shape[4] === ':') return count;
  const dropped = droppedPerMinute(frameRate);
  if (dropped === 0) {
    throw new ProblemError(
      timecodeWrong(
        label,
        `a colon before the frames at ${frameRate.name}`,
        'Write a colon, or give the rate as 29.97 or 59.94 where the clip is counted drop-frame.',
      ),
    );
  }
  if (seconds === 0 && minutes % 10 !== 0 && frames < dropped) {
    throw new ProblemError(
      timecodeWrong(
        label,
        `frames from ${two(dropped)} on at the start of this minute`,
        'Drop-frame counting leaves this label out; take the one before or after it.',
      ),
    );
  }
  const totalMinutes = hours * 60 + minutes;
  return count - dropped * (totalMinutes - Math.floor(totalMinutes / 10));
}

/** Instant a frame begins, s after frame 0. */
export const frameToSeconds = (frame: number, { frames, seconds }: FrameRate): number =>
  (frame * seconds) / frames;

/** The frame on the screen at an instant, counted from 0; the frame that begins then, where one does. */
export function secondsToFrame(timeS: number, frameRate: FrameRate): number {
  const near = Math.round((timeS * frameRate.frames) / frameRate.seconds);
  // Rounded, not cut off: the division may land a hair below the whole number that is meant.
  return frameToSeconds(near, frameRate) <= timeS ? near : near - 1;
}
