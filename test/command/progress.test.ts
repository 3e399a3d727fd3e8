import { describe, expect, it } from 'vitest';
import { progressTo } from '../../pipeline/command/progress.ts';

function watched(isTerminal: boolean) {
  let now = 0;
  const said: string[] = [];
  const progress = progressTo({ stderr: text => void said.push(text), isTerminal }, () => now);
  return {
    said,
    progress,
    oneAfter(seconds: number) {
      now += seconds * 1000;
      progress.done();
    },
  };
}

describe('progress', () => {
  it('on a terminal is one line that moves, with what is left at the pace so far', () => {
    const { said, progress, oneAfter } = watched(true);
    progress.step('figures', 100);
    oneAfter(6);
    expect(said.at(-1)).toBe('\r\u001b[Kfigures 1 of 100');
    oneAfter(6);
    expect(said.at(-1)).toBe('\r\u001b[Kfigures 2 of 100, about 10 min left');
    for (let i = 2; i < 90; i += 1) oneAfter(6);
    expect(said.at(-1)).toBe('\r\u001b[Kfigures 90 of 100, about 1 min left');
    for (let i = 90; i < 99; i += 1) oneAfter(6);
    expect(said.at(-1)).toBe('\r\u001b[Kfigures 99 of 100, about 5 s left');
    oneAfter(6);
    expect(said.at(-1)).toBe('\r\u001b[Kfigures 100 of 100');
  });

  it('elsewhere is a line a step, and one a minute while it lasts', () => {
    const { said, progress, oneAfter } = watched(false);
    progress.step('pages', 1);
    progress.step('logs', 1000);
    for (let i = 0; i < 31; i += 1) oneAfter(4);
    progress.close();
    expect(said).toEqual([
      'pages\n',
      'logs (1000)\n',
      'logs 15 of 1000\n',
      'logs 30 of 1000, about 65 min left\n',
    ]);
  });
});
