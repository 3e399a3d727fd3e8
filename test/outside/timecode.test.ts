/**
 * Timecode against SMPTE ST 12-1's drop-frame rule, as published conversions show it
 * (1800 is 00:01:00;02: sshaw/Time-Timecode, t/03conversions.t), and by the rule itself, label after label.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Counting,
  FRAME_RATES,
  type FrameRateName,
  framesPerDay,
  frameToSeconds,
  frameToTimecode,
  labelsPerSecond,
  secondsToFrame,
  timecodeToFrame,
} from '../../pipeline/overlay/timecode.ts';
import { ProblemError } from '../../pipeline/problem.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

const RATE_NAMES = Object.keys(FRAME_RATES) as FrameRateName[];
const COUNTINGS: readonly (readonly [FrameRateName, Counting])[] = [
  ...RATE_NAMES.map(name => [name, 'non-drop'] as const),
  ['29.97', 'drop-frame'],
  ['59.94', 'drop-frame'],
];

const labelAt =
  (name: FrameRateName) =>
  (entry: CheckValue): void => {
    const frameRate = FRAME_RATES[name];
    expectWithin(frameToTimecode(entry.inputs.n, frameRate, 'drop-frame'), entry);
    expect(timecodeToFrame(entry.expected, frameRate)).toBe(entry.inputs.n);
  };

const DF30 = [1799, 1800, 3597, 3598, 17_981, 17_982, 19_782, 107_892, 2_589_407];
const DF60 = [3599, 3600, 35_964, 215_784];

describeCheckValues('timecode', {
  ...Object.fromEntries(DF30.map(frame => [`df30.${frame}`, labelAt('29.97')])),
  ...Object.fromEntries(DF60.map(frame => [`df60.${frame}`, labelAt('59.94')])),
  'df.error': entry => {
    const frameRate = FRAME_RATES['29.97'];
    expectWithin(
      {
        df_1h: frameToSeconds(timecodeToFrame('01:00:00;00', frameRate), frameRate),
        ndf_1h: frameToSeconds(timecodeToFrame('01:00:00:00', frameRate), frameRate),
        err_24h: 86_400 - frameToSeconds(framesPerDay(frameRate, 'drop-frame'), frameRate),
      },
      entry,
    );
  },
  fps: entry =>
    expectWithin(
      Object.fromEntries(
        (Object.keys(entry.expected) as FrameRateName[]).map(name => [
          name,
          FRAME_RATES[name].frames / FRAME_RATES[name].seconds,
        ]),
      ),
      entry,
    ),
});

describe('drop-frame counting', () => {
  it('gives every label of two hours at 29.97 and 59.94, in order, leaving out only what the rule says', () => {
    for (const name of ['29.97', '59.94'] as const) {
      const frameRate = FRAME_RATES[name];
      const perSecond = labelsPerSecond(frameRate);
      const dropped = name === '29.97' ? 2 : 4;
      let frame = 0;
      // Two hours label by label, the rule spelled out: nothing here is shared with the arithmetic under test.
      for (let minute = 0; minute < 120; minute++) {
        for (let second = 0; second < 60; second++) {
          for (let label = 0; label < perSecond; label++) {
            if (second === 0 && minute % 10 !== 0 && label < dropped) continue;
            const hour = Math.floor(minute / 60);
            const text = `${[hour, minute % 60, second].map(part => String(part).padStart(2, '0')).join(':')};${String(label).padStart(2, '0')}`;
            const given = frameToTimecode(frame, frameRate, 'drop-frame');
            if (given !== text) expect.fail(`frame ${frame} at ${name}: ${given}, by the rule ${text}`);
            frame++;
          }
        }
      }
      expect(frame).toBe(name === '29.97' ? 215_784 : 431_568);
    }
  });

  it('stays within 0.09 s of real time after a day', () => {
    const frameRate = FRAME_RATES['29.97'];
    const errorS = 86_400 - frameToSeconds(framesPerDay(frameRate, 'drop-frame'), frameRate);
    expect(errorS).toBeCloseTo(0.0864, 9);
  });

  it('is refused at rates it is not defined for', () => {
    for (const name of ['23.976', '24', '25', '30', '50', '60'] as const) {
      expect(() => frameToTimecode(0, FRAME_RATES[name], 'drop-frame')).toThrow(RangeError);
      expect(() => timecodeToFrame('00:00:00;00', FRAME_RATES[name])).toThrow(ProblemError);
    }
  });

  it('has no frame for the labels it leaves out', () => {
    for (const label of ['00:01:00;00', '00:01:00;01', '10:59:00;00']) {
      expect(() => timecodeToFrame(label, FRAME_RATES['29.97'])).toThrow(ProblemError);
    }
    expect(timecodeToFrame('00:10:00;00', FRAME_RATES['29.97'])).toBe(17_982);
    expect(() => timecodeToFrame('00:01:00;03', FRAME_RATES['59.94'])).toThrow(ProblemError);
  });
});

describe('labels and frames', () => {
  it('lead back to each other over the whole day at every rate', () => {
    for (const [name, counting] of COUNTINGS) {
      const frameRate = FRAME_RATES[name];
      const day = framesPerDay(frameRate, counting);
      const back = (frame: number) => timecodeToFrame(frameToTimecode(frame, frameRate, counting), frameRate);
      fc.assert(
        fc.property(fc.integer({ min: 0, max: day - 1 }), frame => {
          expect(back(frame)).toBe(frame);
        }),
      );
      expect(back(day - 1)).toBe(day - 1);
      expect(() => frameToTimecode(day, frameRate, counting)).toThrow(RangeError);
    }
  });

  it('of nonsense are refused with the frames the rate has', () => {
    for (const label of [
      '',
      '1:2:3:4',
      '00:00:00:25',
      '24:00:00:00',
      '00:60:00:00',
      '00:00:00.00',
      'ab:cd:ef:gh',
    ]) {
      expect(() => timecodeToFrame(label, FRAME_RATES['25'])).toThrow(/frames 00 to 24/);
    }
    for (const frame of [-1, 0.5, Number.NaN]) {
      expect(() => frameToTimecode(frame, FRAME_RATES['25'], 'non-drop')).toThrow(RangeError);
    }
  });
});

describe('seconds', () => {
  it('name the frame on the screen: begun, and the next one not yet', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...RATE_NAMES),
        fc.double({ min: 0, max: 86_400, noNaN: true }),
        (name, timeS) => {
          const frameRate = FRAME_RATES[name];
          const frame = secondsToFrame(timeS, frameRate);
          expect(frameToSeconds(frame, frameRate)).toBeLessThanOrEqual(timeS);
          expect(frameToSeconds(frame + 1, frameRate)).toBeGreaterThan(timeS);
        },
      ),
    );
  });

  it('of the begin of a frame lead back to that frame', () => {
    fc.assert(
      fc.property(fc.constantFrom(...RATE_NAMES), fc.integer({ min: 0, max: 5_000_000 }), (name, frame) => {
        expect(secondsToFrame(frameToSeconds(frame, FRAME_RATES[name]), FRAME_RATES[name])).toBe(frame);
      }),
    );
  });
});
