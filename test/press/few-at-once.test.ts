import { setTimeout as wait } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { fewAtOnce } from '../../pipeline/press/few-at-once.ts';

describe('fewAtOnce', () => {
  it('gives the results in the order of the items, with at most four under way', async () => {
    let underWay = 0;
    let most = 0;
    const results = await fewAtOnce([30, 1, 20, 5, 10, 1, 1], async ms => {
      underWay += 1;
      most = Math.max(most, underWay);
      await wait(ms);
      underWay -= 1;
      return ms * 2;
    });
    expect(results).toEqual([60, 2, 40, 10, 20, 2, 2]);
    expect(most).toBe(4);
  });

  it('fails with the first failure and begins nothing after it', async () => {
    const begun: number[] = [];
    const failing = fewAtOnce([0, 1, 2, 3, 4, 5, 6, 7], async item => {
      begun.push(item);
      await wait(1);
      if (item === 0) throw new Error('disk full');
    });
    await expect(failing).rejects.toThrow('disk full');
    await wait(20);
    expect(begun.length).toBeLessThan(8);
  });
});
