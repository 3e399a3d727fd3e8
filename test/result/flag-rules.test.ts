import { describe, expect, it } from 'vitest';
import type { Flag } from '../../pipeline/measurement/measurement.ts';
import { SHORT_ROAD_SHARE, withDayFlags } from '../../pipeline/result/day-flags.ts';
import {
  FLAG_RULES,
  flaggedAmong,
  flagReasons,
  flagRules,
  flagsInWords,
} from '../../pipeline/result/flag-rules.ts';
import type { Attempt } from '../../pipeline/result/result.ts';
import { FLAG_RULES_DE } from '../../pipeline/result/words/flag-rules-de.ts';
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
    expect(attempts.map(attempt => flagsInWords(attempt, 'en-GB'))).toEqual([
      '',
      'Gap: no reading for 2.20 s after 786.40 s',
      'Wind: mean of 6.0 m/s; Gap: no reading for 2.20 s after 786.40 s',
    ]);
  });

  it('say once why each kind matters', () => {
    expect(flagReasons(attempts, 'en-GB')).toEqual([
      `Flag “Gap”: ${FLAG_RULES.gap!.why}`,
      `Flag “Wind”: ${FLAG_RULES.wind!.why}`,
    ]);
    expect(flagReasons(attempts.slice(0, 1), 'en-GB')).toEqual([]);
  });

  it('list flagged attempts, and say nothing where none is', () => {
    expect(flaggedAmong(attempts, 'en-GB')).toEqual(['Flagged: attempt 2 (gap), attempt 3 (wind, gap).']);
    expect(flaggedAmong(attempts.slice(0, 1), 'en-GB')).toEqual([]);
  });

  it('says them in German as well', () => {
    expect(flaggedAmong(attempts, 'de-DE')).toEqual([
      'Gekennzeichnet: Versuch 2 (Lücke), Versuch 3 (Wind, Lücke).',
    ]);
    expect(flagReasons(attempts, 'de-DE')[0]).toContain(
      'Kennzeichen „Lücke“: In der Fahrt fehlen Messwerte.',
    );
  });
});

describe('in German', () => {
  it('every rule has its name, its reason and a word for each of its limits', () => {
    for (const [code, rule] of Object.entries(FLAG_RULES)) {
      const german = flagRules('de-DE')[code]!;
      expect(german.why, code).not.toBe(rule.why);
      const limits = { wind_mps: 3, slope_pct: 0.5, rate_hz: 10 };
      const [ours, theirs] = [rule, german].map(each => each.limits({ limits }));
      expect(
        theirs!.map(({ values }) => values),
        code,
      ).toEqual(ours!.map(({ values }) => values));
      for (const [i, { what }] of theirs!.entries()) expect(what, code).not.toBe(ours![i]!.what);
      expect(FLAG_RULES_DE[code as keyof typeof FLAG_RULES_DE].limits, code).toHaveLength(ours!.length);
    }
  });
});
