import { describe, expect, it } from 'vitest';
import { parseFramesArguments } from '../../pipeline/command/frames-arguments.ts';
import { FRAME_RATES } from '../../pipeline/overlay/timecode.ts';
import { ProblemError } from '../../pipeline/problem.ts';

const idOf = (args: readonly string[]): string | undefined => {
  try {
    parseFramesArguments(args);
  } catch (error) {
    if (error instanceof ProblemError) return error.problems[0]?.id;
    throw error;
  }
  return undefined;
};

describe('evenground frames TEST ATTEMPT', () => {
  it('has 25 frames a second at 1920×1080 and a second before the start where nothing else is asked', () => {
    expect(parseFramesArguments(['day', 'a03'])).toEqual({
      test: 'day',
      attempt: 'a03',
      frameRate: FRAME_RATES['25'],
      size: { name: '1920x1080', widthPx: 1920, heightPx: 1080 },
      counting: 'non-drop',
      leadS: 1,
      holdS: 0,
      freezeS: 3,
      movies: [],
    });
  });

  it('takes the frame the car moves on as a number or as a timecode of the rate', () => {
    const at = (movesAt: string, rate: string) =>
      parseFramesArguments(['day', '3', '--rate', rate, '--moves-at', movesAt]);
    expect(at('1800', '29.97')).toMatchObject({ movesAtFrame: 1800, counting: 'non-drop' });
    expect(at('00:01:00:00', '29.97')).toMatchObject({ movesAtFrame: 1800, counting: 'non-drop' });
    // The first label of the second minute: SMPTE ST 12-1, as sshaw/Time-Timecode has it.
    expect(at('00:01:00;02', '29.97')).toMatchObject({ movesAtFrame: 1800, counting: 'drop-frame' });
    expect(at('10:00:00:00', '50')).toMatchObject({ movesAtFrame: 1_800_000 });
  });

  it.each([
    [['day'], 'usage-frames-names'],
    [['day', 'a01', 'a02'], 'usage-frames-names'],
    [['day', 'a01', '--speed', '3'], 'usage-frames-option'],
    [['day', 'a01', '--rate'], 'usage-frames-option'],
    [['day', 'a01', '--rate', '48'], 'usage-frames-value'],
    [['day', 'a01', '--size', '1920*1080'], 'usage-frames-value'],
    [['day', 'a01', '--size', '100x100'], 'usage-frames-value'],
    [['day', 'a01', '--start-rule', 'two-feet'], 'usage-frames-value'],
    [['day', 'a01', '--hold=-1'], 'usage-frames-value'],
    [['day', 'a01', '--lead', '601'], 'usage-frames-value'],
    [['day', 'a01', '--freeze', 'long'], 'usage-frames-value'],
    [['day', 'a01', '--movie', 'gif'], 'usage-frames-value'],
    [['day', 'a01', '--moves-at', '00:01:00;00', '--rate', '29.97'], 'overlay.timecode'],
    [['day', 'a01', '--moves-at', '00:00:00:25'], 'overlay.timecode'],
  ])('refuses %j with a message of its own', (args, id) => {
    expect(idOf(args)).toBe(id);
  });
});
