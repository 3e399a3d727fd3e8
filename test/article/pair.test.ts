import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  havePage,
  MOST_DAYS_APART,
  nearestTests,
  pairLead,
  pairOf,
  pairsOf,
  testsBeside,
  testsBesideEach,
} from '../../pipeline/article/pair.ts';
import { MEASURES, measureLabel, measuresOf } from '../../pipeline/result/measures.ts';
import type { TestResult } from '../../pipeline/result/result.ts';
import { demoPublication } from '../demo.ts';
import { testFixture } from '../result/fixture.ts';

const DAY_MS = 86_400_000;
const FIXTURE = testFixture();
/** A test of a car on the so-manieth day. */
function driven(id: string, day: number, car = id): TestResult {
  const test = FIXTURE;
  const date = new Date(Date.UTC(2020, 0, 1) + day * DAY_MS).toISOString().slice(0, 10);
  return { ...test, id, car: { ...test.car, id: car }, content: { ...test.content, date } };
}

describe('pages of two tests', () => {
  it('are there for the same car whatever the time between, and for others up to the limit', () => {
    const first = driven('a', 0);
    expect(havePage(first, driven('b', MOST_DAYS_APART))).toBe(true);
    expect(havePage(driven('b', MOST_DAYS_APART), first)).toBe(true);
    expect(havePage(first, driven('b', MOST_DAYS_APART + 1))).toBe(false);
    expect(havePage(first, driven('b', 5000, 'a'))).toBe(true);
    expect(havePage(first, first)).toBe(false);
  });

  it('stay where they are whatever is published besides', () => {
    const days = fc.array(fc.integer({ min: 0, max: 3000 }), { maxLength: 12 });
    fc.assert(
      fc.property(days, days, (before, added) => {
        const old = before.map((day, index) => driven(`a${index}`, day));
        const all = [...old, ...added.map((day, index) => driven(`b${index}`, day))];
        const names = (tests: readonly TestResult[]) =>
          pairsOf(tests).map(pair => pair.map(({ id }) => id).join(' '));
        expect(names(all)).toEqual(expect.arrayContaining(names(old)));
        expect(new Set(names(all)).size).toBe(names(all).length);
      }),
      { numRuns: 60 },
    );
  });

  it('grow with the number of tests, not with its square: a test a week for ten years', () => {
    const weekly = Array.from({ length: 520 }, (_, week) =>
      driven(`t${String(week).padStart(3, '0')}`, week * 7),
    );
    const aYear = Math.floor(MOST_DAYS_APART / 7);
    expect(pairsOf(weekly).length).toBeLessThanOrEqual(520 * aYear);
    expect(pairsOf(weekly).length).toBe(520 * aYear - (aYear * (aYear + 1)) / 2);
  });
});

describe('what two tests come to', () => {
  it('says of every number what it is: figure, launch method where it is narrowed to one, clock, how many', async () => {
    const { tests, house } = await demoPublication();
    const found = pairsOf(tests).flatMap(pair => pairOf(pair, house).answers);
    expect(found.length).toBeGreaterThan(10);
    for (const { of, text } of found) {
      expect(text).toMatch(/\d/);
      const measure = measuresOf(house).find(each => of.startsWith(measureLabel(each, house)))!;
      expect(of).toMatch(/; medians of \d+ and \d+$/);
      expect(of.includes('; clock from '), of).toBe(MEASURES[measure].fromRest);
    }
    // Two days of one car with two launch methods each: only what both did is set side by side.
    const dry = tests.find(({ id }) => id === 'quillet-sorrel-dry')!;
    const wet = tests.find(({ id }) => id === 'quillet-sorrel-wet')!;
    expect(pairOf([dry, wet], house).answers[0]!.of).toBe(
      '0–100 km/h, straight from rest; clock from first movement; medians of 6 and 4',
    );
  });
});

describe('the first figure of what two tests come to', () => {
  it('is the same asked for alone', async () => {
    const { tests, house } = await demoPublication();
    const pairs = pairsOf(tests);
    expect(pairs.length).toBeGreaterThan(4);
    for (const pair of pairs) {
      const { names, verdict, answers, caveats } = pairOf(pair, house);
      expect(pairLead(pair, house)).toEqual({ names, verdict, answers: answers.slice(0, 1), caveats });
    }
  });
});

describe('the nearest tests', () => {
  it('are those of the same car, then those least apart, in the order given', () => {
    const others = [
      driven('far', 390),
      driven('near', 10),
      driven('out', 900),
      driven('nearer', 5),
      driven('own', 800, 'a'),
    ];
    const ids = (most: number) => nearestTests(driven('a', 0), others, most).map(({ id }) => id);
    expect(ids(3)).toEqual(['near', 'nearer', 'own']);
    expect(ids(1)).toEqual(['own']);
    expect(ids(9)).toEqual(['far', 'near', 'nearer', 'own']);
  });

  it('of every test are those of one test after another', () => {
    const archive = fc.array(fc.tuple(fc.integer({ min: 0, max: 900 }), fc.integer({ min: 0, max: 9 })), {
      maxLength: 40,
    });
    fc.assert(
      fc.property(archive, fc.integer({ min: 1, max: 60 }), (drawn, step) => {
        // Many on one day, and gaps longer than a page allows.
        const tests = drawn.map(([day, car], index) =>
          driven(`t${index}`, Math.floor(day / step) * step, `car-${car}`),
        );
        const beside = testsBesideEach(tests);
        for (const test of tests) expect(beside(test)).toEqual(testsBeside(test, tests));
      }),
      { numRuns: 60 },
    );
  });
});
