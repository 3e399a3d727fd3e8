import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { START_RULES } from '../../pipeline/content/schema.ts';
import { FRAME_RATES, frameToSeconds } from '../../pipeline/overlay/timecode.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import { printResult } from '../../pipeline/result/words.ts';
import { cellsText } from '../../pipeline/sequence/content.ts';
import {
  firstFrameAt,
  frameValues,
  planSequence,
  type SequencePlan,
  secondsToFrames,
} from '../../pipeline/sequence/plan.ts';
import { splitsReached, splitsShown } from '../../pipeline/sequence/splits.ts';
import { mpsToKmh, ROLLOUT_M } from '../../pipeline/units.ts';
import { launchAt, timeToDistance, timeToSpeed } from '../result/fixture.ts';
import { ATTEMPT, fixturePlan, framesOf, HOUSE, LAUNCH, RATE_NAMES, TEST } from './fixture.ts';

/** A plan whose clock runs for longer than any test looks. */
const endless = (plan: SequencePlan): SequencePlan => ({
  ...plan,
  splits: [],
  clockDecimals: 2,
  stopsAtFrame: Number.MAX_SAFE_INTEGER,
  lastFrame: Number.MAX_SAFE_INTEGER,
});

describe('the clock', () => {
  it('shows the hundredths that have passed on every frame of an hour at every rate, by whole-number arithmetic', () => {
    for (const rate of RATE_NAMES) {
      const { frames, seconds } = FRAME_RATES[rate];
      const movesAtFrame = 1234;
      const values = frameValues(endless(fixturePlan({ rate, movesAtFrame })), 'en');
      const hour = Math.ceil((3600 * frames) / seconds);
      for (let k = 0; k <= hour; k++) {
        const exact = Number((BigInt(k) * BigInt(seconds) * 100n) / BigInt(frames));
        const shown = values(movesAtFrame + k).clockUnits;
        if (shown !== exact) expect.fail(`frame ${k} at ${rate}: ${shown}, exactly ${exact}`);
      }
    }
  });

  it('has not drifted after an hour of labels: 3600.00 s, and 3603.60 s at the rates a thousandth slower', () => {
    // An hour of non-drop labels at 30000/1001 lasts 3603.6 s: SMPTE ST 12-1's own reason for drop-frame counting.
    for (const rate of RATE_NAMES) {
      const plan = endless(fixturePlan({ rate, movesAtFrame: 0 }));
      const labels = Math.ceil(plan.frameRate.frames / plan.frameRate.seconds) * 3600;
      const slow = plan.frameRate.seconds === 1001;
      expect(frameValues(plan, 'en')(labels).clockUnits).toBe(slow ? 360_360 : 360_000);
    }
  });

  it('begins on the frame the car moves on, exactly, and stands at nothing before it', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...RATE_NAMES),
        fc.integer({ min: 0, max: 2_000_000 }),
        (rate, movesAtFrame) => {
          const plan = fixturePlan({ rate, movesAtFrame });
          const values = frameValues(plan, 'en');
          const nothing = {
            clockUnits: 0,
            speed: 0,
            distanceM: 0,
            splits: plan.splits.map(() => 'ahead'),
          };
          for (let frame = plan.firstFrame; frame <= movesAtFrame; frame++) {
            expect(values(frame)).toEqual(nothing);
          }
          const { frames, seconds } = plan.frameRate;
          expect(values(movesAtFrame + 1).clockUnits).toBe(Math.floor((100 * seconds) / frames));
          expect(plan.firstFrame).toBe(Math.max(0, movesAtFrame - secondsToFrames(1, plan.frameRate)));
        },
      ),
      { numRuns: 60 },
    );
  });

  it('after the one-foot rollout begins when the foot is covered, and reads that much less ever after', () => {
    const rolloutS = timeToDistance(LAUNCH, ROLLOUT_M);
    const plan = fixturePlan({ rate: '50', startRule: 'one-foot-rollout' });
    const values = frameValues(plan, 'en');
    for (const frame of framesOf(plan).filter(at => at < plan.stopsAtFrame)) {
      const since = frameToSeconds(frame - plan.movesAtFrame, plan.frameRate) - rolloutS;
      expect(values(frame).clockUnits).toBe(Math.max(0, Math.floor(since * 100)));
    }
    expect(values(plan.movesAtFrame + firstFrameAt(rolloutS, plan.frameRate) - 1).clockUnits).toBe(0);
  });

  it('stops at the published figure, under either rule and at every rate', () => {
    for (const startRule of START_RULES) {
      const published = printResult(
        pickResult(TEST, HOUSE, { measure: '0-100-kmh', attempt: ATTEMPT.id, startRule })!,
        HOUSE,
      );
      for (const rate of RATE_NAMES) {
        const reached = splitsReached(TEST, ATTEMPT, HOUSE, startRule);
        const last = reached.find(({ measure }) => measure === '0-100-kmh')!;
        const plan = planSequence(ATTEMPT, startRule, splitsShown(reached, last), {
          frameRate: FRAME_RATES[rate],
          movesAtFrame: 50,
          leadS: 1,
          holdS: 0,
          freezeS: 1,
        });
        const values = frameValues(plan, 'en');
        for (let frame = plan.stopsAtFrame; frame <= plan.lastFrame; frame++) {
          expect(cellsText('clock', '0.00', values(frame), plan)).toBe(published.value);
        }
        // Never more than the figure it stops at: what runs is cut, what is printed rounded.
        const before = values(plan.stopsAtFrame - 1);
        expect(Number(cellsText('clock', '0.00', before, plan))).toBeLessThanOrEqual(Number(published.value));
        expect(before.clockUnits).toBeDefined();
      }
    }
  });

  it('has the decimals of the figure it stops at, and the decimal sign of the house', () => {
    const rough = TEST.attempts[3]!;
    const coarse = {
      ...rough,
      measurement: {
        ...rough.measurement,
        speedSplits: rough.measurement.speedSplits.map(split => ({ ...split, uncertaintyS: 0.3 })),
        distanceSplits: [],
      },
    };
    const test = { ...TEST, attempts: [coarse] };
    const german = { ...HOUSE, language: 'de-DE' };
    const reached = splitsReached(test, coarse, german, 'first-movement');
    const plan = planSequence(coarse, 'first-movement', reached, {
      frameRate: FRAME_RATES['25'],
      movesAtFrame: 0,
      leadS: 0,
      holdS: 0,
      freezeS: 1,
    });
    expect(plan.clockDecimals).toBe(1);
    const final = reached.at(-1)!.printed.value;
    expect(final).toMatch(/^\d+,\d$/);
    expect(cellsText('clock', final.replace(/\d/g, '0'), frameValues(plan, 'en')(plan.lastFrame), plan)).toBe(
      final,
    );
  });
});

describe('speed and distance', () => {
  it('are the whole km/h and metres that the closed form has passed, to one of the last digit', () => {
    for (const rate of ['23.976', '25', '60'] as const) {
      for (const startRule of START_RULES) {
        const plan = fixturePlan({ rate, startRule });
        const values = frameValues(plan, 'en');
        const beforeM = startRule === 'one-foot-rollout' ? ROLLOUT_M : 0;
        for (let frame = plan.movesAtFrame; frame < plan.stopsAtFrame; frame++) {
          const truth = launchAt(LAUNCH, frameToSeconds(frame - plan.movesAtFrame, plan.frameRate));
          const { speed = Number.NaN, distanceM = Number.NaN } = values(frame);
          const atFrame = `frame ${frame} at ${rate}`;
          expect(Math.abs(speed - Math.floor(mpsToKmh(truth.speedMps))), atFrame).toBeLessThanOrEqual(1);
          const trueM = Math.floor(Math.max(0, truth.distanceM - beforeM));
          expect(Math.abs(distanceM - trueM), atFrame).toBeLessThanOrEqual(1);
        }
      }
    }
  });

  it('reach a split on the frame that split is filled in on, not one sooner or later', () => {
    const plan = fixturePlan({ rate: '60' });
    const values = frameValues(plan, 'en');
    for (const [index, split] of plan.splits.entries()) {
      const speed = /^0-(\d+)-kmh$/.exec(split.measure)?.[1];
      if (speed === undefined) continue;
      const firstShown = framesOf(plan).find(frame => (values(frame).speed ?? 0) >= Number(speed))!;
      const firstFilled = framesOf(plan).find(frame => values(frame).splits[index] !== 'ahead')!;
      expect(firstShown).toBe(firstFilled);
      const truth = plan.movesAtFrame + timeToSpeed(LAUNCH, Number(speed) / 3.6) * 60;
      expect(firstFilled).toBe(Math.ceil(truth));
    }
  });

  it('are not known while the log has no readings, and the clock goes on', () => {
    const { trace, measurement } = ATTEMPT;
    const movedS = measurement.start!.firstMovementS;
    const gap = {
      fromS: movedS + 2,
      toS: movedS + 3.2,
      index: trace.timeS.findIndex(at => at >= movedS + 2),
    };
    const plan = fixturePlan({ rate: '50' }, { ...ATTEMPT, trace: { ...trace, gaps: [gap] } });
    const values = frameValues(plan, 'en');
    for (const frame of framesOf(plan).filter(at => at < plan.stopsAtFrame)) {
      const since = (frame - plan.movesAtFrame) / 50;
      const here = values(frame);
      expect(here.clockUnits).toBeDefined();
      expect(here.speed === undefined, `frame ${frame}`).toBe(since > 2 && since < 3.2);
      expect(cellsText('distance', '000', here, plan).endsWith('–')).toBe(since > 2 && since < 3.2);
    }
  });

  it('never run backwards in a run that never slows', () => {
    const plan = fixturePlan({ rate: '59.94' });
    const values = frameValues(plan, 'en');
    let before = values(plan.firstFrame);
    for (const frame of framesOf(plan)) {
      const here = values(frame);
      expect(here.speed).toBeGreaterThanOrEqual(before.speed ?? Number.NaN);
      expect(here.distanceM).toBeGreaterThanOrEqual(before.distanceM ?? Number.NaN);
      before = here;
    }
  });
});

describe('a split', () => {
  it('is set off for the time asked, or until the next, while the clock goes on', () => {
    const plan = fixturePlan({ rate: '50', holdS: 1.5 });
    expect(plan.holdFrames).toBe(75);
    const values = frameValues(plan, 'en');
    for (const index of plan.splits.keys()) {
      const held = framesOf(plan).filter(frame => values(frame).splits[index] === 'held');
      const at = plan.movesAtFrame + firstFrameAt(plan.splits[index]!.afterMovementS, plan.frameRate);
      const next = plan.splits[index + 1];
      const untilNext =
        next === undefined
          ? Number.POSITIVE_INFINITY
          : plan.movesAtFrame + firstFrameAt(next.afterMovementS, plan.frameRate) - at;
      expect(held[0]).toBe(at);
      expect(held).toHaveLength(Math.min(75, untilNext));
      if (at + 1 < plan.stopsAtFrame) {
        expect(values(at + 1).clockUnits).toBe((values(at).clockUnits ?? Number.NaN) + 2);
      }
    }
    for (const frame of framesOf(plan)) {
      expect(values(frame).splits.filter(state => state === 'held').length).toBeLessThanOrEqual(1);
    }
  });

  it('is never set off where no hold is asked for, and stays once it is reached', () => {
    const plan = fixturePlan({ holdS: 0 });
    const values = frameValues(plan, 'en');
    for (const frame of framesOf(plan)) expect(values(frame).splits).not.toContain('held');
    expect(values(plan.lastFrame).splits).toEqual(plan.splits.map(() => 'reached'));
  });
});

describe('the end', () => {
  it('stands still for exactly the time asked', () => {
    for (const rate of RATE_NAMES) {
      const plan = fixturePlan({ rate, freezeS: 2 });
      const values = frameValues(plan, 'en');
      const still = framesOf(plan).filter(frame => frame >= plan.stopsAtFrame);
      expect(still).toHaveLength(Math.ceil((2 * plan.frameRate.frames) / plan.frameRate.seconds));
      for (const frame of still) expect(values(frame)).toEqual(values(plan.lastFrame));
      expect(values(plan.lastFrame)).not.toHaveProperty('clockUnits');
    }
  });

  it('keeps the lead-in within the clip, and has one still frame at least', () => {
    const plan = fixturePlan({ movesAtFrame: 3, leadS: 5, freezeS: 0 });
    expect(plan.firstFrame).toBe(0);
    expect(plan.lastFrame).toBe(plan.stopsAtFrame);
  });

  it('is refused without a split to stop at', () => {
    const times = { frameRate: FRAME_RATES['25'], movesAtFrame: 0, leadS: 0, holdS: 0, freezeS: 0 };
    expect(() => planSequence(ATTEMPT, 'first-movement', [], times)).toThrow(RangeError);
  });
});

describe('the splits shown', () => {
  it('are four at most, rising in time, the last of them the one that stops the clock', () => {
    const reached = splitsReached(TEST, ATTEMPT, HOUSE, 'first-movement');
    for (const last of reached) {
      const shown = splitsShown(reached, last);
      expect(shown.length).toBeLessThanOrEqual(4);
      expect(shown.at(-1)).toBe(last);
      expect([...shown].sort((a, b) => a.afterMovementS - b.afterMovementS)).toEqual(shown);
    }
  });
});
