/** One run of the fixture day as a sequence: every speed, distance and time of it is known in closed form. */
import { FRAME_RATES, type FrameRateName } from '../../pipeline/overlay/timecode.ts';
import type { Attempt, House, TestResult } from '../../pipeline/result/result.ts';
import type { StartRule } from '../../pipeline/run/run.ts';
import { planSequence, type SequencePlan } from '../../pipeline/sequence/plan.ts';
import { lastSplit, splitsReached, splitsShown } from '../../pipeline/sequence/splits.ts';
import { FIXTURE_PLAN, houseFixture, type Launch, testFixture } from '../result/fixture.ts';

export const HOUSE: House = houseFixture();
export const TEST: TestResult = testFixture();
export const ATTEMPT: Attempt = TEST.attempts[3]!;
export const LAUNCH: Launch = FIXTURE_PLAN.attempts[3]!.launch;
export const RATE_NAMES = Object.keys(FRAME_RATES) as FrameRateName[];

export interface FixtureTimes {
  readonly rate?: FrameRateName;
  readonly startRule?: StartRule;
  readonly movesAtFrame?: number;
  readonly leadS?: number;
  readonly holdS?: number;
  readonly freezeS?: number;
}

export function fixturePlan(times: FixtureTimes = {}, attempt = ATTEMPT, house = HOUSE): SequencePlan {
  const { rate = '25', startRule = 'first-movement' } = times;
  const reached = splitsReached(TEST, attempt, house, startRule);
  return planSequence(attempt, startRule, splitsShown(reached, lastSplit(reached)!), {
    frameRate: FRAME_RATES[rate],
    movesAtFrame: times.movesAtFrame ?? 100,
    leadS: times.leadS ?? 1,
    holdS: times.holdS ?? 0,
    freezeS: times.freezeS ?? 2,
  });
}

/** Every frame of a plan. */
export const framesOf = ({ firstFrame, lastFrame }: SequencePlan): readonly number[] =>
  Array.from({ length: lastFrame - firstFrame + 1 }, (_, k) => firstFrame + k);
