import { describe, expect, it } from 'vitest';
import { frameProgress, progressLine, secondsLeft } from '../../pipeline/command/frames-progress.ts';

describe('progress of frames', () => {
  it('estimates the rest from the pace so far', () => {
    expect(secondsLeft(0, 100, 5)).toBeUndefined();
    expect(secondsLeft(25, 100, 5)).toBe(15);
    expect(progressLine(25, 100, 5)).toBe('25 of 100 frames, about 15 s left');
    expect(progressLine(1, 1000, 1)).toBe('1 of 1000 frames, about 17 min left');
    expect(progressLine(100, 100, 20)).toBe('100 of 100 frames');
  });

  it('is a moving line on a terminal and a line every five seconds elsewhere', () => {
    const said = (isTerminal: boolean): string => {
      let text = '';
      let clock = 0;
      const io = {
        isTerminal,
        stderr: (more: string) => {
          text += more;
        },
      };
      const progress = frameProgress(io, 30, () => clock);
      for (let frame = 0; frame < 12; frame++) {
        clock += 1000;
        progress.done();
      }
      progress.close();
      return text;
    };
    expect(said(false)).toBe('5 of 30 frames, about 25 s left\n10 of 30 frames, about 20 s left\n');
    expect(said(true).split('\r\u001b[K')).toHaveLength(14);
  });
});
