import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { settling } from '../../pipeline/desk/settling.ts';

const TIMES = { pauseMs: 350, mostMs: 2000 };
beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

describe('settling', () => {
  it('acts once, a pause after the last of several things', () => {
    const act = vi.fn();
    const { later } = settling(act, TIMES);
    for (let i = 0; i < 3; i++) {
      later();
      vi.advanceTimersByTime(300);
    }
    expect(act).not.toHaveBeenCalled();
    vi.advanceTimersByTime(50);
    expect(act).toHaveBeenCalledTimes(1);
    vi.advanceTimersByTime(10_000);
    expect(act).toHaveBeenCalledTimes(1);
  });

  it('acts at the bound for who never pauses, and again at the next', () => {
    const acted: number[] = [];
    const begun = performance.now();
    const { later } = settling(() => acted.push(performance.now() - begun), TIMES);
    for (let ms = 0; ms < 7000; ms += 100) {
      later();
      vi.advanceTimersByTime(100);
    }
    expect(acted.slice(0, 3)).toEqual([2000, 4000, 6000]);
  });

  it('never lets anything wait longer than the bound, however it comes', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 900 }), { minLength: 1, maxLength: 60 }), gapsMs => {
        const waiting: number[] = [];
        const { later } = settling(() => {
          for (const since of waiting.splice(0))
            expect(performance.now() - since).toBeLessThanOrEqual(TIMES.mostMs);
        }, TIMES);
        for (const gapMs of gapsMs) {
          waiting.push(performance.now());
          later();
          vi.advanceTimersByTime(gapMs);
        }
        vi.advanceTimersByTime(TIMES.mostMs);
        expect(waiting).toEqual([]);
      }),
      { numRuns: 50 },
    );
  });

  it('acts at once where no pause is asked for, and not at all after it was told to forget', () => {
    const act = vi.fn();
    const { later, cancel } = settling(act, TIMES);
    later(0);
    vi.advanceTimersByTime(0);
    expect(act).toHaveBeenCalledTimes(1);
    later();
    cancel();
    vi.advanceTimersByTime(10_000);
    expect(act).toHaveBeenCalledTimes(1);
  });
});
