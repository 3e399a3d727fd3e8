import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LogSeen, RunSeen } from '../../../site/desk/answers.ts';
import {
  logsToStrips,
  moved,
  runOnStrip,
  tracesToColumns,
  within,
  zoomed,
} from '../../../site/desk/strip-data.ts';

const log = (file: string, durationS: number, clockOfDayS?: number): LogSeen => ({
  file,
  durationS,
  beginsS: 0,
  ...(clockOfDayS === undefined ? {} : { clockOfDayS }),
});

describe('the strips of a day', () => {
  it('put logs that follow each other on one clock, in its order', () => {
    const strips = logsToStrips([log('b', 600, 36_000), log('a', 600, 34_000)]);
    expect(strips).toHaveLength(1);
    expect(strips[0]!.logs.map(({ log: { file } }) => file)).toEqual(['a', 'b']);
    expect([strips[0]!.fromS, strips[0]!.toS]).toEqual([34_000, 36_600]);
  });

  it('give a log that overlaps, and one without a clock, a strip of its own', () => {
    const strips = logsToStrips([log('a', 600, 34_000), log('b', 600, 34_300), log('c', 90)]);
    expect(strips.map(({ logs, onClock }) => [logs[0]!.log.file, onClock])).toEqual([
      ['a', true],
      ['b', true],
      ['c', false],
    ]);
  });

  it('place a run by its log’s clock', () => {
    const [strip] = logsToStrips([log('a', 600, 34_000)]);
    const run = { log: 'a', beginsS: 12, endsS: 40 } as RunSeen;
    expect(runOnStrip(strip!, run)).toEqual([34_012, 34_040]);
    expect(runOnStrip(strip!, { ...run, log: 'elsewhere' })).toBeUndefined();
  });

  it('draw in the order of time, with nothing joining two logs', () => {
    const trace = { timeS: [0, 1, 2], minKmh: [0, 1, 2], maxKmh: [0, 2, 3] };
    const [timeS, low, high] = tracesToColumns([
      { trace, offsetS: 100 },
      { trace, offsetS: 200 },
    ]);
    expect(timeS.every((time, i) => i === 0 || time > timeS[i - 1]!)).toBe(true);
    expect([low[3], high[3]]).toEqual([null, null]);
    expect(timeS).toHaveLength(7);
  });
});

describe('what is in sight', () => {
  const day = { fromS: 1000, toS: 5000 };
  const sight = fc
    .tuple(fc.double({ min: -1e5, max: 1e5, noNaN: true }), fc.double({ min: 0, max: 1e5, noNaN: true }))
    .map(([fromS, length]) => ({ fromS, toS: fromS + length }));

  it('stays inside the day and is never narrower than two seconds', () => {
    fc.assert(
      fc.property(sight, any => {
        const { fromS, toS } = within(any, day);
        expect(fromS).toBeGreaterThanOrEqual(day.fromS - 1e-6);
        expect(toS).toBeLessThanOrEqual(day.toS + 1e-6);
        expect(toS - fromS).toBeGreaterThanOrEqual(2 - 1e-6);
      }),
    );
  });

  it('comes back when moved or zoomed there and back', () => {
    const start = { fromS: 2000, toS: 3000 };
    const there = moved(moved(start, 0.2), -0.2);
    const back = zoomed(zoomed(start, 0.5, 2200), 2, 2200);
    for (const { fromS, toS } of [there, back]) {
      expect(fromS).toBeCloseTo(2000, 9);
      expect(toS).toBeCloseTo(3000, 9);
    }
  });

  it('keeps the place under the hand while it comes closer', () => {
    const { fromS, toS } = zoomed({ fromS: 2000, toS: 3000 }, 0.5, 2250);
    expect((2250 - fromS) / (toS - fromS)).toBeCloseTo(0.25, 12);
  });
});
