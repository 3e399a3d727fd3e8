/** Timelines of the fixture day, as the tests of every format share them. */
import { type Counting, FRAME_RATES, type FrameRateName } from '../../pipeline/overlay/timecode.ts';
import type { TestResult } from '../../pipeline/result/result.ts';
import { runTimeline, type Timeline, testTimeline } from '../../pipeline/timeline/timeline.ts';
import { ATTEMPT, fixturePlan, HOUSE, TEST } from '../sequence/fixture.ts';

/** Every rate with every counting it has. */
export const COUNTINGS: readonly (readonly [FrameRateName, Counting])[] = [
  ...(Object.keys(FRAME_RATES) as FrameRateName[]).map(name => [name, 'non-drop'] as const),
  ['29.97', 'drop-frame'],
  ['59.94', 'drop-frame'],
];

/** One run with its plates over a named clip, as the frames command writes it. */
export function clipTimeline(rate: FrameRateName, counting: Counting, movesAtFrame = 100_000): Timeline {
  const plan = fixturePlan({ rate, movesAtFrame, leadS: 1 });
  const run = runTimeline(TEST, ATTEMPT, HOUSE, {
    startRule: plan.startRule,
    frameRate: plan.frameRate,
    movesAtFrame,
    leadFrames: movesAtFrame - plan.firstFrame,
    clip: 'card 1/C0042 über.MP4',
    splits: plan.splits,
    plates: {
      name: 'fixture-day a04',
      folder: 'frames/',
      namePrefix: 'a04-',
      nameSuffix: '.png',
      digits: 8,
      firstFrame: plan.firstFrame,
      lastFrame: plan.lastFrame,
    },
  });
  return {
    name: 'fixture-day a04',
    frameRate: plan.frameRate,
    counting,
    runs: run === undefined ? [] : [run],
  };
}

/** A whole day, clips not known. */
export const dayTimeline = (rate: FrameRateName, counting: Counting, test: TestResult = TEST): Timeline =>
  testTimeline(test, HOUSE, FRAME_RATES[rate], counting);

/** A day whose words hold what formats give a meaning of their own. */
export const AWKWARD: TestResult = {
  ...TEST,
  content: { ...TEST.content, title: 'Day & night --> <b>"größer"</b>\r\nTITLE: x' },
  car: { ...TEST.car, name: 'Sorrel & Söhne <52> --> "S"' },
};
