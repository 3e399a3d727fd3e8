import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { FigureChoice } from '../../pipeline/figure/figure.ts';
import { FIGURE_KINDS, FIGURES, type FigureKind } from '../../pipeline/figure/figures.ts';
import { compareResults } from '../../pipeline/result/compare.ts';
import { compareLaunchMethods } from '../../pipeline/result/methods-compared.ts';
import { pairsOfFirst } from '../../pipeline/result/methods-words.ts';
import { launchMethodsOf, pickResult } from '../../pipeline/result/pick.ts';
import type { Result, TestResult } from '../../pipeline/result/result.ts';
import { FIXTURE_PLAN, type FixturePlan, houseFixture, testFixture } from '../result/fixture.ts';

const house = houseFixture();
const RANKS = /quick|slow(?:er|est)|sooner|faster|\bgains|ahead/;

/** A short day: few attempts, three launch methods, an uncertainty from a hundredth to two seconds. */
const day: fc.Arbitrary<FixturePlan> = fc
  .record({
    uncertaintyS: fc.constantFrom(0.01, 0.05, 0.2, 0.5, 2),
    cars: fc.array(
      fc.record({
        launch: fc.constantFrom(0, 3, 7),
        lagS: fc.double({ min: 8, max: 9.5, noNaN: true }),
        onsetS: fc.double({ min: 0.15, max: 0.5, noNaN: true }),
      }),
      { minLength: 2, maxLength: 5 },
    ),
  })
  .map(({ uncertaintyS, cars }) => ({
    rateHz: 10,
    uncertaintyS,
    attempts: cars.map(({ launch, lagS, onsetS }) => {
      const { setAside: _, ...like } = FIXTURE_PLAN.attempts[launch]!;
      return { ...like, topKmh: 110, launch: { ...like.launch, lagS, onsetS } };
    }),
  }));

/** A day long enough to show something: each launch method four to six times, in turn. */
const longDay: fc.Arbitrary<FixturePlan> = fc
  .record({
    uncertaintyS: fc.constantFrom(0.01, 0.05, 0.5),
    times: fc.integer({ min: 4, max: 6 }),
    lagsS: fc.array(fc.double({ min: 8.6, max: 9.2, noNaN: true }), { minLength: 2, maxLength: 3 }),
    jitterS: fc.array(fc.double({ min: -0.1, max: 0.1, noNaN: true }), { minLength: 18, maxLength: 18 }),
  })
  .map(({ uncertaintyS, times, lagsS, jitterS }) => ({
    rateHz: 10,
    uncertaintyS,
    attempts: Array.from({ length: times * lagsS.length }, (_none, i) => {
      const method = i % lagsS.length;
      const { setAside: _, ...like } = FIXTURE_PLAN.attempts[[0, 3, 7][method]!]!;
      return {
        ...like,
        topKmh: 110,
        launch: { ...like.launch, lagS: lagsS[method]! + jitterS[i]!, onsetS: 0.3 },
      };
    }),
  }));

const titleOf = (kind: FigureKind, test: TestResult, choice: FigureChoice): string => {
  const figure = FIGURES[kind].make(test, house, choice);
  return 'reason' in figure ? '' : `${figure.title} ${figure.caption} ${figure.altText}`;
};
const resultsOf = (test: TestResult, statistic: 'best' | 'median', choice: FigureChoice): readonly Result[] =>
  launchMethodsOf(test, house).flatMap(
    ({ id }) =>
      pickResult(test, house, { measure: '0-100-kmh', launch: id, statistic, startRule: choice.startRule }) ??
      [],
  );
const allTooClose = (results: readonly Result[]): boolean =>
  results.every(a => results.every(b => compareResults(a, b).tooCloseToCall));

describe('titles', () => {
  it('rank launch methods where the day tells them apart, and only there', () => {
    const seen = new Set<boolean>();
    fc.assert(
      fc.property(
        fc.oneof(day, longDay),
        fc.constantFrom('first-movement', 'one-foot-rollout'),
        (plan, startRule) => {
          const test = testFixture(plan);
          const compared = compareLaunchMethods(test, house, { measure: '0-100-kmh', startRule });
          const apart = pairsOfFirst(compared).some(({ verdict }) => verdict === 'apart');
          for (const kind of ['runs-of-the-day', 'methods-compared'] as const) {
            const figure = FIGURES[kind].make(test, house, { startRule });
            const title = 'reason' in figure ? '' : figure.title;
            expect(/quick|slow|behind|ahead/.test(title)).toBe(apart);
            seen.add(apart);
          }
        },
      ),
      { numRuns: 60 },
    );
    expect(seen.size).toBe(2);
  });

  it('rank no runs that are too close to call', () => {
    fc.assert(
      fc.property(day, fc.constantFrom('first-movement', 'one-foot-rollout'), (plan, startRule) => {
        const test = testFixture(plan);
        const results = resultsOf(test, 'best', { startRule });
        const tooClose = allTooClose(results);
        expect(RANKS.test(titleOf('speed-over-time', test, { startRule }))).toBe(
          results.length > 1 && !tooClose,
        );
        if (results.length > 1 && tooClose) {
          expect(titleOf('time-gained', test, { startRule })).not.toMatch(RANKS_BUT_CAPTION);
        }
      }),
      { numRuns: 60 },
    );
  });

  it('name the quicker of two runs first, and only where it is quicker', () => {
    fc.assert(
      fc.property(day, plan => {
        const test = testFixture({ ...plan, uncertaintyS: 0.01 });
        const figure = FIGURES['time-gained'].make(test, house, {
          startRule: 'first-movement',
          attempts: ['a01', 'a02'],
        });
        const [a, b] = ['a01', 'a02'].map(
          attempt => pickResult(test, house, { measure: '0-100-kmh', attempt })!,
        );
        if ('reason' in figure) throw new Error(figure.reason);
        const { tooCloseToCall, difference } = compareResults(a!, b!);
        if (tooCloseToCall) {
          expect(figure.title).toContain('too close to call');
          return;
        }
        const ahead = test.attempts[difference < 0 ? 0 : 1]!;
        const alone = test.attempts[0]!.launchName !== test.attempts[1]!.launchName;
        const name = alone ? ahead.launchName : `${ahead.launchName}, no.\u00a0${ahead.number}`;
        expect(figure.title.startsWith(`‘${name}’ gains`)).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  it('never rank an attempt that was set aside', () => {
    const test = testFixture();
    for (const kind of FIGURE_KINDS) {
      if (kind === 'runs-of-the-day' || kind === 'braking') continue;
      const attempts = kind === 'first-two-seconds' ? ['a06'] : ['a06', 'a01'];
      const figure = FIGURES[kind].make(test, house, { startRule: 'first-movement', attempts });
      expect('reason' in figure ? figure.reason : figure.title).not.toMatch(RANKS);
    }
  });
});

/** The caption of time gained explains the word `gains` itself. */
const RANKS_BUT_CAPTION = /quick|slow(?:er|est)|sooner|faster|’ gains|ahead/;
