/**
 * Runs as an editing program places them: where the car moves, where each split is reached, where it stops,
 * in whole frames. The same marks stand in every file this folder writes.
 */

import { nameWithin } from '../language.ts';
import { type Counting, type FrameRate, framesPerDay, labelsPerSecond } from '../overlay/timecode.ts';
import type { Attempt, House, TestResult } from '../result/result.ts';
import { startRuleInWords } from '../result/words.ts';
import type { StartRule } from '../run/run.ts';
import { firstFrameAt } from '../sequence/plan.ts';
import { clockBeginsS, lastSplit, type RunSplit, splitsReached, splitsShown } from '../sequence/splits.ts';
import { markWords } from './words/marks.ts';

export interface TimelineMark {
  readonly kind: 'movement' | 'clock' | 'split' | 'stop';
  /** Short, such as `0–100 km/h`. */
  readonly name: string;
  /** A sentence, with the start rule where a time is in it. */
  readonly comment: string;
  /** The first frame on which it has happened, counted from the frame of first movement. */
  readonly frame: number;
}

/** One run; all frames count from the frame of first movement, and may be negative before it. */
export interface RunTimeline {
  /** Such as `Attempt 5, held on the brake`. */
  readonly name: string;
  readonly title: string;
  /** Eight letters and digits at most, for lists that know no more. */
  readonly reel: string;
  readonly startRule: StartRule;
  /** Such as `clock from first movement`. */
  readonly ruleInWords: string;
  readonly fromFrame: number;
  /** The first frame no longer in the run. */
  readonly toFrame: number;
  /** Frame of first movement in the clip the picture comes from. */
  readonly movesAtFrame: number;
  readonly marks: readonly TimelineMark[];
  /** File of the clip, where it is known. */
  readonly clip?: string;
  /** The pictures laid over it, where they were drawn. */
  readonly plates?: PlateSequence;
}

/** Numbered pictures; their numbers are frames of the clip. */
export interface PlateSequence {
  readonly name: string;
  /** Folder with a slash at its end, relative to the timeline's file. */
  readonly folder: string;
  readonly namePrefix: string;
  readonly nameSuffix: string;
  readonly digits: number;
  readonly firstFrame: number;
  /** Inclusive. */
  readonly lastFrame: number;
}

/** Runs one after another. */
export interface Timeline {
  readonly name: string;
  readonly frameRate: FrameRate;
  readonly counting: Counting;
  readonly runs: readonly RunTimeline[];
}

export interface RunPlace {
  readonly startRule: StartRule;
  readonly frameRate: FrameRate;
  /** Frame of first movement in the clip; 0 where the clip's own frames are not known. */
  readonly movesAtFrame?: number;
  /** Frames shown before first movement and after the stop. */
  readonly leadFrames?: number;
  /** The splits marked; those of a running plate unless told. */
  readonly splits?: readonly RunSplit[];
  readonly clip?: string;
  readonly plates?: PlateSequence;
}

const REEL_LENGTH = 8;

/** Marks of one run; undefined where the attempt has no measured start. */
export function runTimeline(
  test: TestResult,
  attempt: Attempt,
  house: House,
  place: RunPlace,
): RunTimeline | undefined {
  const { start, endsS, run } = attempt.measurement;
  if (start === undefined) return undefined;
  const { startRule, frameRate, movesAtFrame = 0, leadFrames = 0, clip, plates } = place;
  const splits = place.splits ?? usualSplits(test, attempt, house, startRule);
  const words = markWords(house);
  const rule = startRuleInWords(startRule, house);
  const beginsS = clockBeginsS(attempt, startRule);
  const stopped = run.braking !== undefined && run.status === 'complete';
  const stopFrame = firstFrameAt(endsS - start.firstMovementS, frameRate);
  const marks: readonly TimelineMark[] = [
    {
      kind: 'movement',
      name: words.firstMovement,
      comment: beginsS === 0 ? `${words.carMoves}; ${rule}` : words.carMoves,
      frame: 0,
    },
    ...(beginsS === 0
      ? []
      : [
          {
            kind: 'clock' as const,
            name: words.clockStarts,
            comment: `${words.oneFoot}; ${rule}`,
            frame: firstFrameAt(beginsS, frameRate),
          },
        ]),
    ...splits.map(({ label, printed, afterMovementS }) => ({
      kind: 'split' as const,
      name: label,
      comment: `${words.reached(label, [printed.text, printed.uncertainty].filter(Boolean).join(' '))}, ${rule}`,
      frame: firstFrameAt(afterMovementS, frameRate),
    })),
    {
      kind: 'stop',
      name: stopped ? words.carStopped : words.runEnds,
      comment: stopped ? words.standsAgain : words.measuredRunEnds,
      frame: stopFrame,
    },
  ];
  return {
    name: [words.attempt(attempt.number), attempt.launchName && nameWithin(attempt.launchName, house)]
      .filter(Boolean)
      .join(', '),
    title: test.car.name,
    reel: reelName(clip ?? attempt.id),
    startRule,
    ruleInWords: rule,
    fromFrame: 0 - Math.min(leadFrames, movesAtFrame),
    toFrame: Math.max(
      stopFrame + 1 + leadFrames,
      plates === undefined ? 0 : plates.lastFrame + 1 - movesAtFrame,
    ),
    movesAtFrame,
    marks,
    ...(clip === undefined ? {} : { clip }),
    ...(plates === undefined ? {} : { plates }),
  };
}

function usualSplits(
  test: TestResult,
  attempt: Attempt,
  house: House,
  startRule: StartRule,
): readonly RunSplit[] {
  const reached = splitsReached(test, attempt, house, startRule);
  const last = lastSplit(reached);
  return last === undefined ? [] : splitsShown(reached, last);
}

/** The kept attempts from rest of a test after each other, each from its own first movement, clips not known. */
export function testTimeline(
  test: TestResult,
  house: House,
  frameRate: FrameRate,
  counting: Counting = 'non-drop',
): Timeline {
  const place: RunPlace = { startRule: house.headline_start_rule, frameRate };
  const runs = test.attempts
    .filter(({ setAside }) => setAside === undefined)
    .flatMap(attempt => runTimeline(test, attempt, house, place) ?? []);
  return { name: test.content.title, frameRate, counting, runs };
}

export interface PlacedRun {
  readonly run: RunTimeline;
  /** Frames from the timeline's beginning. */
  readonly atFrame: number;
}

/** Each run with its place on the timeline. */
export function placeRuns({ runs }: Timeline): readonly PlacedRun[] {
  let atFrame = 0;
  return runs.map(run => {
    const placed = { run, atFrame };
    atFrame += run.toFrame - run.fromFrame;
    return placed;
  });
}

/** Frame whose label is 01:00:00:00, where a programme begins (common practice, no source). */
export function programmeBegins({ frameRate, counting }: Timeline): number {
  return counting === 'drop-frame'
    ? framesPerDay(frameRate, counting) / 24
    : labelsPerSecond(frameRate) * 3600;
}

/** Letters and digits of a file's name without its ending, in capitals, the last eight where there are more. */
function reelName(file: string): string {
  const stem = (file.split(/[/\\]/).at(-1) ?? file).replace(/\.[^.]*$/, '');
  const letters = stem
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9]/g, '')
    .toUpperCase();
  return letters.slice(-REEL_LENGTH) || 'AX';
}
