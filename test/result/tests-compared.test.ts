import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { RestatedRun } from '../../pipeline/conditions/restate.ts';
import { compareResults } from '../../pipeline/result/compare.ts';
import type { AttemptConditions, TestResult } from '../../pipeline/result/result.ts';
import {
  commonLaunch,
  compareTests,
  restatedValue,
  type TestsCompared,
  testNames,
} from '../../pipeline/result/tests-compared.ts';
import { testsInWords, testsVerdictInWords, unlikeInWords } from '../../pipeline/result/tests-words.ts';
import { type PlainAttempt, testOf } from './attempts.ts';
import { houseFixture } from './fixture.ts';

const house = houseFixture();
const asked = { measure: '0-100-kmh', startRule: 'first-movement' } as const;
const of = (times: readonly number[], more: Partial<PlainAttempt> = {}): PlainAttempt[] =>
  times.map(timeS => ({ timeS, launchId: 'plain', uncertaintyS: 0.02, ...more }));
const QUICK = [6.1, 6.12, 6.08, 6.15, 6.11, 6.09];
const SLOW = QUICK.map(time => time + 0.8);

interface Difference {
  readonly car?: string;
  readonly date?: string;
  readonly massKg?: number;
  readonly conditions?: Partial<AttemptConditions>;
  /** Restated time less measured. */
  readonly restatedBy?: number;
}

/** A test that differs from another only as told. */
function day(attempts: readonly PlainAttempt[], id: string, differs: Difference = {}): TestResult {
  const plain = testOf(attempts);
  const { car = id, date = '2026-05-12', massKg, conditions, restatedBy } = differs;
  return {
    ...plain,
    id,
    content: {
      ...plain.content,
      date,
      ...(massKg === undefined ? {} : { as_tested: { ...plain.content.as_tested, mass_kg: massKg } }),
    },
    car: { ...plain.car, id: car, short_name: car },
    attempts: plain.attempts.map(attempt => ({
      ...attempt,
      conditions: { ...attempt.conditions, ...conditions },
      ...(restatedBy === undefined ? {} : { restated: restatedRun(attempt.measurement, restatedBy) }),
    })),
  };
}

function restatedRun(
  { speedSplits }: TestResult['attempts'][number]['measurement'],
  by: number,
): RestatedRun {
  const changesS = {} as RestatedRun['speedSplits'][number]['changesS'];
  return {
    speedSplits: speedSplits.map(({ fromMps, toMps, startRule, timeS, uncertaintyS }) => ({
      fromMps,
      toMps,
      startRule,
      timeS: timeS + by,
      uncertaintyS,
      changesS,
      budget: [],
    })),
    distanceSplits: [],
  };
}

const compare = (a: TestResult, b: TestResult): TestsCompared => compareTests([a, b], house, asked)!;
const words = (compared: TestsCompared): string => testsInWords(compared, house).replaceAll('\u00a0', ' ');

describe('two tests under the same conditions', () => {
  it('are ranked by their medians, with the scatter of both days', () => {
    const compared = compare(day(of(QUICK), 'Sorrel'), day(of(SLOW), 'Teasel'));
    expect(compared.verdict).toBe('first');
    expect(compared.against).toEqual([]);
    expect(compared.measured).toEqual(
      compareResults(compared.first.figures.median, compared.second.figures.median),
    );
    expect(words(compared)).toMatch(
      /^Sorrel is quicker by 0\.80 s ± 0\.0\d s: 6\.1\d+ s against 6\.9\d+ s\.$/,
    );
    expect(compare(day(of(SLOW), 'Teasel'), day(of(QUICK), 'Sorrel')).verdict).toBe('second');
  });

  it('are too close to call where the difference is less than its uncertainty', () => {
    const compared = compare(day(of(QUICK), 'Sorrel'), day(of(QUICK.map(time => time + 0.02)), 'Teasel'));
    expect(compared.verdict).toBe('too-close');
    expect(testsVerdictInWords(compared, 'en')).toBe('too close to call');
  });

  it('are not ranked by a single attempt, which shows no scatter', () => {
    const compared = compare(day(of([6]), 'Sorrel'), day(of([9]), 'Teasel'));
    expect(compared.verdict).toBe('not-known');
    expect(testsVerdictInWords(compared, 'en')).toBe('not ranked: tried once only');
  });

  it('cannot be compared where one did not reach the figure', () => {
    expect(compareTests([day(of(QUICK), 'a'), day([], 'b')], house, asked)).toBeUndefined();
  });
});

describe('conditions that are not alike', () => {
  it('keep a dry and a wet road from being ranked, whatever the difference', () => {
    const compared = compare(
      day(of(QUICK), 'Sorrel', { restatedBy: 0 }),
      day(of(SLOW), 'Teasel', { conditions: { surface: 'wet' }, restatedBy: 0 }),
    );
    expect(compared.verdict).toBe('not-alike');
    expect(testsVerdictInWords(compared, 'en')).toBe('not alike: surface');
    expect(unlikeInWords(compared).join(' ')).toContain('Surface not alike: dry against wet.');
    expect(words(compared)).not.toMatch(/quicker|ahead/);
  });

  it('keep tests apart where the state of one road was not noted', () => {
    const unnoted = day(of(SLOW), 'Teasel');
    const attempts = unnoted.attempts.map(attempt => {
      const { surface: _, ...conditions } = attempt.conditions;
      return { ...attempt, conditions };
    });
    const compared = compare(day(of(QUICK), 'Sorrel'), { ...unnoted, attempts });
    expect(compared.verdict).toBe('not-known');
    expect(testsVerdictInWords(compared, 'en')).toBe('not ranked: surface not known');
  });

  it('let wind through only where both are restated and keep their order', () => {
    const windy = { conditions: { windMps: 7 } };
    const against = (a: number | undefined, b: number | undefined): TestsCompared =>
      compare(
        day(of(QUICK), 'Sorrel', a === undefined ? {} : { restatedBy: a }),
        day(of(SLOW), 'Teasel', b === undefined ? windy : { ...windy, restatedBy: b }),
      );
    expect(against(undefined, undefined).verdict).toBe('not-alike');
    expect(against(0, undefined).verdict).toBe('not-alike');
    const kept = against(0.05, -0.1);
    expect(kept.verdict).toBe('first');
    expect(kept.restated!.difference).toBeCloseTo(kept.measured.difference + 0.15, 9);
    // Restated, the order turns, or nothing is left of it.
    expect(against(0, -2).verdict).toBe('not-alike');
    expect(against(0, -0.8).verdict).toBe('not-alike');
  });

  it('weigh load by the most it can have made of the difference', () => {
    const light = day(of(QUICK), 'Sorrel', { massKg: 1600 });
    const heavy = (by: number) => day(of(QUICK.map(time => time + by)), 'Teasel', { massKg: 1800 });
    // 200 kg of 1600 kg are an eighth of the time: 0.81 s of 6.5 s.
    expect(compare(light, heavy(0.4)).verdict).toBe('not-alike');
    expect(compare(light, heavy(2)).verdict).toBe('first');
    // More aboard and yet ahead: the load makes it no less.
    expect(compare(light, heavy(-0.4)).verdict).toBe('second');
  });
});

describe('restated figures', () => {
  it('stand beside the measured ones and never in their place', () => {
    const compared = compare(
      day(of(QUICK), 'Sorrel', { restatedBy: 0.1 }),
      day(of(SLOW), 'Teasel', { restatedBy: 0.2 }),
    );
    expect(compared.first.figures.median.value).toBeCloseTo(6.105, 9);
    expect(compared.first.restated!.value).toBeCloseTo(6.205, 9);
    expect(compared.measured.difference).toBeCloseTo(-0.8, 9);
    expect(compared.restated!.difference).toBeCloseTo(-0.9, 9);
  });

  it('are absent where one of the attempts was not restated', () => {
    const sorrel = day(of(QUICK), 'Sorrel', { restatedBy: 0.1 });
    const attempts = sorrel.attempts.map((attempt, i) =>
      i === 0
        ? {
            ...attempt,
            restated: {
              speedSplits: [],
              distanceSplits: [],
              notRestated: { missing: [], reason: { why: 'few-readings' as const }, text: 'few readings' },
            },
          }
        : attempt,
    );
    expect(compare({ ...sorrel, attempts }, day(of(SLOW), 'Teasel')).first.restated).toBeUndefined();
  });

  it('are times only: a speed at a line is not restated', () => {
    const [attempt] = day(of(QUICK), 'Sorrel', { restatedBy: 0.1 }).attempts;
    expect(restatedValue(attempt!, asked)!.value).toBeCloseTo(6.2, 9);
    expect(restatedValue(attempt!, { measure: 'top-speed' })).toBeUndefined();
  });
});

describe('what is set beside what', () => {
  it('is one launch method where both tried it twice or more', () => {
    const a = day([...of(QUICK), ...of([5, 5.1], { launchId: 'brake' })], 'a');
    const b = day([...of(SLOW.slice(0, 2)), ...of([5, 5.1, 5.2, 5.3], { launchId: 'sport' })], 'b');
    expect(commonLaunch('0-100-kmh', [a, b], house)?.id).toBe('plain');
    expect(compare(a, b).launch?.id).toBe('plain');
    expect(compare(a, b).second.figures.n).toBe(2);
    expect(compareTests([a, b], house, { ...asked, launch: null })!.second.figures.n).toBe(6);
    expect(compare(day(of(QUICK), 'a'), day(of(QUICK, { launchId: 'sport' }), 'b')).launch).toBeUndefined();
  });

  it('is named by car, by date where a car comes twice, and by its id where that does not tell', () => {
    const names = (...days: TestResult[]) => testNames(days, house);
    const sorrel = (id: string, date: string) => day(of(QUICK), id, { car: 'Sorrel', date });
    expect(names(sorrel('a', '2026-05-12'), day(of(SLOW), 'Teasel'))).toEqual(['Sorrel', 'Teasel']);
    expect(names(sorrel('a', '2026-05-12'), sorrel('b', '2026-10-06'))).toEqual([
      'Sorrel on 12 May 2026',
      'Sorrel on 6 October 2026',
    ]);
    expect(new Set(names(sorrel('a', '2026-05-12'), sorrel('b', '2026-05-12'))).size).toBe(2);
  });
});

describe('properties of tests compared', () => {
  const times = fc.array(fc.double({ min: 5, max: 8, noNaN: true }), { minLength: 2, maxLength: 9 });

  it('turn with the sides, move with a constant, and rank no test against itself', () => {
    fc.assert(
      fc.property(times, times, fc.integer({ min: -2, max: 9 }), (a, b, by) => {
        const [first, second] = [day(of(a), 'a'), day(of(b), 'b')];
        const one = compare(first, second);
        const turned = compare(second, first);
        const other = { first: 'second', second: 'first' } as const;
        expect(turned.verdict).toBe(
          one.verdict === 'first' || one.verdict === 'second' ? other[one.verdict] : one.verdict,
        );
        const moved = compare(day(of(a.map(time => time + by)), 'a'), day(of(b.map(time => time + by)), 'b'));
        expect(moved.measured.difference).toBeCloseTo(one.measured.difference, 9);
        expect(compare(first, day(of([...a].reverse()), 'b')).verdict).toBe('too-close');
      }),
      { numRuns: 60 },
    );
  });
});
