import { describe, expect, it } from 'vitest';
import { FRAME_RATES, frameToSeconds } from '../../pipeline/overlay/timecode.ts';
import { frameValues } from '../../pipeline/sequence/plan.ts';
import { ascii, timelineToEdl } from '../../pipeline/timeline/edl.ts';
import { placeRuns, programmeBegins, runTimeline } from '../../pipeline/timeline/timeline.ts';
import { ROLLOUT_M } from '../../pipeline/units.ts';
import { timeToDistance } from '../result/fixture.ts';
import { ATTEMPT, fixturePlan, framesOf, HOUSE, LAUNCH, TEST } from '../sequence/fixture.ts';
import { COUNTINGS, clipTimeline, dayTimeline } from './fixture.ts';

describe('the marks of a run', () => {
  it('stand on the frames on which the plates show what they say', () => {
    for (const [rate, counting] of COUNTINGS) {
      const plan = fixturePlan({ rate, movesAtFrame: 100_000 });
      const values = frameValues(plan, 'en');
      const [run] = clipTimeline(rate, counting).runs;
      const splits = run!.marks.filter(({ kind }) => kind === 'split');
      expect(splits.map(({ name }) => name)).toEqual(plan.splits.map(({ label }) => label));
      for (const [index, mark] of splits.entries()) {
        const filled = framesOf(plan).find(frame => values(frame).splits[index] !== 'ahead');
        expect(run!.movesAtFrame + mark.frame).toBe(filled);
      }
      expect(run!.marks[0]).toMatchObject({ kind: 'movement', frame: 0 });
    }
  });

  it('say where the clock starts, if that is not where the car moves', () => {
    const frameRate = FRAME_RATES['60'];
    const run = runTimeline(TEST, ATTEMPT, HOUSE, { startRule: 'one-foot-rollout', frameRate })!;
    const clock = run.marks.find(({ kind }) => kind === 'clock')!;
    const rolloutS = timeToDistance(LAUNCH, ROLLOUT_M);
    expect(frameToSeconds(clock.frame, frameRate)).toBeGreaterThanOrEqual(rolloutS);
    expect(frameToSeconds(clock.frame - 1, frameRate)).toBeLessThan(rolloutS);
    expect(clock.comment).toContain('one-foot rollout');
  });

  it('name the start rule beside every time', () => {
    for (const startRule of ['first-movement', 'one-foot-rollout'] as const) {
      const run = runTimeline(TEST, ATTEMPT, HOUSE, { startRule, frameRate: FRAME_RATES['25'] })!;
      for (const mark of run.marks.filter(({ kind }) => kind === 'split')) {
        expect(mark.comment).toMatch(
          startRule === 'first-movement' ? /first movement$/ : /after the one-foot rollout$/,
        );
      }
    }
  });

  it('end where the car stands again', () => {
    const [run] = clipTimeline('50', 'non-drop').runs;
    const { measurement } = ATTEMPT;
    const stop = run!.marks.at(-1)!;
    const stopsS = measurement.endsS - measurement.start!.firstMovementS;
    expect(stop).toMatchObject({ kind: 'stop', name: 'Car stopped', frame: Math.ceil(stopsS * 50) });
  });

  it('are absent where the start was not measured', () => {
    const { start: _, ...measurement } = ATTEMPT.measurement;
    const place = { startRule: 'first-movement', frameRate: FRAME_RATES['25'] } as const;
    expect(runTimeline(TEST, { ...ATTEMPT, measurement }, HOUSE, place)).toBeUndefined();
  });
});

describe('a day on one timeline', () => {
  it('holds every kept run from rest, each from its own first movement, without gap or overlap', () => {
    const timeline = dayTimeline('25', 'non-drop');
    const kept = TEST.attempts.filter(({ setAside }) => setAside === undefined);
    expect(timeline.runs).toHaveLength(kept.length);
    let end = 0;
    for (const { run, atFrame } of placeRuns(timeline)) {
      expect([run.fromFrame, run.movesAtFrame]).toEqual([0, 0]);
      expect(atFrame).toBe(end);
      end = atFrame + run.toFrame - run.fromFrame;
    }
  });

  it('begins at the label 01:00:00:00 however labels are counted', () => {
    for (const [rate, counting] of COUNTINGS) {
      const timeline = dayTimeline(rate, counting);
      const first = /^001 .* (\d{2}:\d{2}:\d{2}[:;]\d{2}) \S+$/m.exec(
        timelineToEdl(timeline).replaceAll('\r', ''),
      );
      expect(first?.[1]).toMatch(/^01:00:00[:;]00$/);
    }
    // 107892: SMPTE ST 12-1's drop-frame rule over an hour, 108000 labels less 2 in 54 of 60 minutes.
    expect(programmeBegins(dayTimeline('29.97', 'drop-frame'))).toBe(107_892);
  });
});

describe('words for lists that know only ASCII', () => {
  it('keep their sense', () => {
    expect(ascii('0–100 km/h in 7.57\u00a0s ±\u00a00.06\u00a0s, −1 °C')).toBe(
      '0-100 km/h in 7.57 s +/- 0.06 s, -1 ?C',
    );
    expect(ascii('Söhne\r\nfilé')).toBe('Sohne file');
  });
});
