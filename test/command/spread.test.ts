import { setTimeout as wait } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import { atOnce, chunks } from '../../pipeline/command/spread.ts';

describe('work on many items', () => {
  it('takes each once, in their order, and no more at a time than asked', async () => {
    const items = Array.from({ length: 11 }, (_, index) => `item ${index}`);
    const begun: string[] = [];
    let running = 0;
    let most = 0;
    await atOnce(3, items, async (item, index) => {
      expect(items[index]).toBe(item);
      begun.push(item);
      running += 1;
      most = Math.max(most, running);
      await wait(index % 4);
      running -= 1;
    });
    expect(begun).toEqual(items);
    expect(most).toBe(3);
  });

  it('fails with the first that fails, and begins no other after it', async () => {
    const begun: number[] = [];
    const failing = atOnce(2, [1, 2, 3, 4], async item => {
      begun.push(item);
      if (item === 2) throw new Error('the second');
      await wait(5);
    });
    await expect(failing).rejects.toThrow('the second');
    await wait(20);
    expect(begun).toEqual([1, 2]);
  });
});

describe('items in lists', () => {
  it('keep their order, and no list weighs more than asked but one of a single item', () => {
    expect(chunks([1, 2, 3, 4, 5], 2)).toEqual([[1, 2], [3, 4], [5]]);
    expect(chunks([], 2)).toEqual([]);
    expect(chunks([3, 1, 2, 9, 1, 1], 4, weight => weight)).toEqual([[3, 1], [2], [9], [1, 1]]);
  });
});
