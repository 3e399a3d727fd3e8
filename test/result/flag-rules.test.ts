import { describe, expect, it } from 'vitest';
import type { Flag } from '../../pipeline/measurement/measurement.ts';
import { SHORT_ROAD_SHARE, withDayFlags } from '../../pipeline/result/day-flags.ts';
import { FLAG_RULES, flaggedAmong, flagReasons, flagsInWords } from '../../pipeline/result/flag-rules.ts';
import type { Attempt } from '../../pipeline/result/result.ts';
import { testFixture } from '../result/fixture.ts';

const day = testFixture();
const gap: Flag = { code: 'gap', text: 'no reading for 2.20 s after 786.40 s' };
const flagged = (attempt: Attempt, ...flags: Flag[]): Attempt => ({
  ...attempt,
  measurement: { ...attempt.measurement, flags },
});

describe('flags of a day', () => {
  const usedM = ({ trace, measurement: { run } }: Attempt): number =>
    trace.distanceM[run.endIndex]! - trace.distanceM[run.beginIndex]!;
  const longest = Math.max(...day.attempts.map(usedM));

  it('tell a run that used the road up, and only that', () => {
    const road = { ...day.road, length_m: (longest + 1) / SHORT_ROAD_SHARE };
    const short = { ...day.road, length_m: (longest - 1) / SHORT_ROAD_SHARE };
    const codes = (length: typeof road): string[] =>
      withDayFlags({ ...day, road: length }).flatMap(({ measurement }) =>
        measurement.flags.filter(({ code }) => code === 'short-road').map(({ text }) => text),
      );
    expect(codes(road)).toEqual([]);
    expect(codes(short)).toHaveLength(1);
    expect(codes(short)[0]).toMatch(/^the run took \d+ m of a road of \d+ m$/);
  });

  it('tell a launch that came soon after another by its place in the day', () => {
    const warm = withDayFlags(day).flatMap(({ number, measurement }) =>
      measurement.flags
        .filter(({ code }) => code === 'warm-driveline')
        .map(({ text }) => [number, text.slice(0, 19)]),
    );
    // Every attempt of the fixture starts from rest less than two minutes after the one before.
    expect(warm).toEqual(
      day.attempts.slice(1).map(({ number }) => [number, `launch ${number} of the day`.slice(0, 19)]),
    );
  });

  it('leave the run’s own flags, its figures and its place alone', () => {
    const before = { ...day, attempts: day.attempts.map(attempt => flagged(attempt, gap)) };
    for (const [index, attempt] of withDayFlags(before).entries()) {
      expect(attempt.measurement.flags[0]).toEqual(gap);
      const { flags: _, ...rest } = attempt.measurement;
      const { flags: __, ...was } = before.attempts[index]!.measurement;
      expect(rest).toEqual(was);
    }
  });
});

describe('flags in words', () => {
  const attempts = [
    flagged(day.attempts[0]!),
    flagged(day.attempts[1]!, gap),
    flagged(day.attempts[2]!, { code: 'wind', text: 'mean of 6.0 m/s' }, gap),
  ];

  it('name the flag before what was found', () => {
    expect(attempts.map(flagsInWords)).toEqual([
      '',
      'Gap: no reading for 2.20 s after 786.40 s',
      'Wind: mean of 6.0 m/s; Gap: no reading for 2.20 s after 786.40 s',
    ]);
  });

  it('say once why each kind matters', () => {
    expect(flagReasons(attempts)).toEqual([
      `Flag “Gap”: ${FLAG_RULES.gap!.why}`,
      `Flag “Wind”: ${FLAG_RULES.wind!.why}`,
    ]);
    expect(flagReasons(attempts.slice(0, 1))).toEqual([]);
  });

  it('list flagged attempts, and say nothing where none is', () => {
    expect(flaggedAmong(attempts)).toEqual(['Flagged: attempt 2 (gap), attempt 3 (wind, gap).']);
    expect(flaggedAmong(attempts.slice(0, 1))).toEqual([]);
  });
});
