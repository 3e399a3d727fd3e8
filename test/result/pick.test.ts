import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededDraws } from '../../pipeline/compare/monte-carlo.ts';
import {
  attemptsReaching,
  bestAttempt,
  launchMethodsOf,
  medianAttempt,
  pickResult,
} from '../../pipeline/result/pick.ts';
import type { ResultQuery } from '../../pipeline/result/result.ts';
import { type PlainAttempt, testOf } from './attempts.ts';
import { houseFixture, testFixture } from './fixture.ts';

const house = houseFixture();
const to100: ResultQuery = { measure: '0-100-kmh' };
const times = (...list: readonly number[]): PlainAttempt[] => list.map(timeS => ({ timeS }));

describe('pickResult', () => {
  it('gives the best of the kept attempts with n, the number set aside and the median', () => {
    const test = testOf([
      ...times(6.1, 6.0, 6.3),
      { timeS: 5.5, setAside: 'Wheelspin on paint' },
      { setAside: 'Given up at 40 km/h' },
      {},
    ]);
    expect(pickResult(test, house, to100)).toEqual({
      measure: '0-100-kmh',
      statistic: 'best',
      startRule: 'first-movement',
      value: 6.0,
      uncertainty: 0.02,
      n: 3,
      nSetAside: 1,
      median: 6.1,
      // Student's t of two degrees of freedom, standard deviation 0.1528 of three, √(π/2) for a median, and 0.02 each.
      medianUncertainty: expect.closeTo(
        Math.hypot(((4.302653 * 0.1527525) / Math.sqrt(3)) * Math.sqrt(Math.PI / 2), 0.02),
        3,
      ),
      among: {},
      attemptIds: ['a02'],
    });
  });

  it('follows the start rule of the house unless told', () => {
    const test = testOf(times(6));
    const rollout = { ...house, headline_start_rule: 'one-foot-rollout' as const };
    expect(pickResult(test, rollout, to100)).toMatchObject({ startRule: 'one-foot-rollout', value: 5.65 });
    expect(pickResult(test, rollout, { ...to100, startRule: 'first-movement' })?.value).toBe(6);
  });

  it('states no start rule for a figure that has none', () => {
    const result = pickResult(testFixture(), house, { measure: 'stop-from-100-kmh' });
    expect(result).toBeDefined();
    expect(result).not.toHaveProperty('startRule');
  });

  it('takes the highest where higher is better', () => {
    const test = testFixture();
    const best = pickResult(test, house, { measure: 'mfdd-from-80-kmh' });
    expect(best?.value).toBe(9.1);
    expect(best?.attemptIds).toEqual(['a02']);
  });

  it('is undefined where no kept attempt reached the figure', () => {
    expect(pickResult(testOf([]), house, to100)).toBeUndefined();
    expect(pickResult(testOf([{ timeS: 6, setAside: 'Rain' }, {}]), house, to100)).toBeUndefined();
    expect(pickResult(testOf(times(6)), house, { measure: '0-200-kmh' })).toBeUndefined();
  });

  it('narrows to a launch method and a direction', () => {
    const test = testOf([
      { timeS: 6.0, launchId: 'plain', directionId: 'east' },
      { timeS: 5.8, launchId: 'brake', directionId: 'east' },
      { timeS: 5.9, launchId: 'brake', directionId: 'west' },
      { timeS: 5.7, launchId: 'brake', directionId: 'west', setAside: 'Rolled before the mark' },
    ]);
    expect(pickResult(test, house, { ...to100, launch: 'plain' })).toMatchObject({
      value: 6.0,
      n: 1,
      nSetAside: 0,
    });
    expect(pickResult(test, house, { ...to100, launch: 'brake', direction: 'west' })).toMatchObject({
      value: 5.9,
      n: 1,
      nSetAside: 1,
      among: { launch: 'brake', direction: 'west' },
    });
    expect(pickResult(test, house, { ...to100, launch: 'sport' })).toBeUndefined();
  });

  it('gives one attempt when asked by its id, with the n and median of its fellows', () => {
    const test = testOf([...times(6.1, 6.0, 6.3), { timeS: 5, setAside: 'Rain' }]);
    expect(pickResult(test, house, { ...to100, attempt: 'a03' })).toMatchObject({
      statistic: 'this',
      value: 6.3,
      n: 3,
      median: 6.1,
      attemptIds: ['a03'],
    });
    expect(pickResult(test, house, { ...to100, attempt: 'a04' })).toBeUndefined();
    expect(pickResult(test, house, { ...to100, attempt: 'a99' })).toBeUndefined();
    expect(pickResult(testOf(times(6)), house, { ...to100, attempt: 'a99' })).toBeUndefined();
  });

  it('cannot say which attempt `this` is among several', () => {
    expect(pickResult(testOf(times(6, 6.1)), house, { ...to100, statistic: 'this' })).toBeUndefined();
    expect(pickResult(testOf(times(6)), house, { ...to100, statistic: 'this' })?.value).toBe(6);
  });

  it('names the two middle attempts of an even number, lower value first', () => {
    const median = pickResult(testOf(times(6.4, 6.0, 6.2, 6.1)), house, { ...to100, statistic: 'median' });
    expect(median?.value).toBeCloseTo(6.15, 12);
    expect(median?.attemptIds).toEqual(['a04', 'a03']);
    expect(
      pickResult(testOf(times(6.4, 6.0, 6.2)), house, { ...to100, statistic: 'median' })?.attemptIds,
    ).toEqual(['a03']);
  });

  it('gives the earliest of equal bests', () => {
    expect(pickResult(testOf(times(6.1, 6.0, 6.0)), house, to100)?.attemptIds).toEqual(['a02']);
  });

  it('never has a best worse than its median, and both inside the attempts', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 3, max: 20, noNaN: true }), { minLength: 1, maxLength: 15 }),
        list => {
          const test = testOf(times(...list));
          const best = pickResult(test, house, to100)!;
          const median = pickResult(test, house, { ...to100, statistic: 'median' })!;
          expect(best.value).toBe(Math.min(...list));
          expect(best.value).toBeLessThanOrEqual(median.value);
          expect(median.value).toBeLessThanOrEqual(Math.max(...list));
          expect(median.value).toBe(best.median);
          expect(median.uncertainty).toBeGreaterThanOrEqual(best.uncertainty!);
        },
      ),
    );
  });

  it('does not change with the order of the day, but for the names of attempts', () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(fc.integer({ min: 300, max: 2000 }), { minLength: 1, maxLength: 9 }),
        list => {
          const seconds = list.map(hundredths => hundredths / 100);
          const query = { ...to100, statistic: 'median' as const };
          const one = pickResult(testOf(times(...seconds)), house, query)!;
          const other = pickResult(testOf(times(...seconds.toReversed())), house, query)!;
          expect(other.value).toBe(one.value);
          expect(other.uncertainty).toBeCloseTo(one.uncertainty!, 12);
        },
      ),
    );
  });
});

describe('the uncertainty of a median', () => {
  const uncertaintyOf = (...list: readonly number[]): number | undefined =>
    pickResult(testOf(times(...list)), house, { ...to100, statistic: 'median' })?.uncertainty;

  it('of one attempt is the attempt’s own', () => {
    expect(uncertaintyOf(6)).toBe(0.02);
  });

  // t(0.975, 1) = 12.7062, t(0.975, 4) = 2.77645 (printed in any table of Student's t).
  it('below six attempts takes Student’s t on their scatter', () => {
    expect(uncertaintyOf(6, 6.1)).toBeCloseTo(Math.hypot(12.7062 * 0.05, 0.02), 4);
    const scatter = (2.77645 * Math.sqrt(0.025) * Math.sqrt(Math.PI / 2)) / Math.sqrt(5);
    expect(uncertaintyOf(6, 6.1, 6.2, 6.3, 6.4)).toBeCloseTo(Math.hypot(scatter, 0.02), 4);
  });

  it('from six attempts reaches to the farther end of the sign-test interval', () => {
    expect(uncertaintyOf(6, 6.1, 6.2, 6.3, 6.4, 6.9)).toBeCloseTo(Math.hypot(0.65, 0.02), 12);
    // Nine: second smallest to second largest.
    expect(uncertaintyOf(1, 6, 6.1, 6.2, 6.3, 6.4, 6.5, 6.7, 99)).toBeCloseTo(Math.hypot(0.4, 0.02), 12);
  });

  it('takes the largest measurement uncertainty and is absent where one is not known', () => {
    const query = { measure: 'top-speed', statistic: 'median' } as const;
    const measured = (...list: readonly (number | undefined)[]): PlainAttempt[] =>
      list.map(u => ({ measurement: u === undefined ? {} : { topUncertaintyMps: u } }));
    expect(pickResult(testOf(measured(0.1, 0.3, 0.2)), house, query)?.uncertainty).toBeCloseTo(0.3, 12);
    expect(pickResult(testOf(measured(0.1, undefined, 0.2)), house, query)).not.toHaveProperty('uncertainty');
  });

  // Coverage by simulation: normal scatter of 0.1 s, measurement good beside it, so that scatter alone is tested.
  it.each([2, 3, 4, 5, 6, 8, 9, 12])(
    'covers the true median in at least 94 of 100 days with %i attempts',
    n => {
      const draws = seededDraws(n);
      let covered = 0;
      const days = 1500;
      for (let day = 0; day < days; day++) {
        const list = Array.from({ length: n }, () => ({ timeS: draws.normal(6, 0.1), uncertaintyS: 0.001 }));
        const median = pickResult(testOf(list), house, { ...to100, statistic: 'median' })!;
        if (Math.abs(median.value - 6) <= median.uncertainty!) covered++;
      }
      expect(covered / days).toBeGreaterThanOrEqual(0.94);
    },
  );
});

describe('attempts', () => {
  const test = testOf([
    ...times(6.3, 6.0, 6.2, 6.1),
    { timeS: 5, setAside: 'Rain', launchId: 'brake' },
    { launchId: 'plain' },
  ]);

  it('that reached a figure are the kept ones, in the day’s order', () => {
    expect(attemptsReaching(test, to100).map(({ id }) => id)).toEqual(['a01', 'a02', 'a03', 'a04']);
    expect(attemptsReaching(test, { ...to100, attempt: 'a02' }).map(({ id }) => id)).toEqual(['a02']);
    expect(attemptsReaching(test, { ...to100, attempt: 'a05' })).toEqual([]);
  });

  it('best and median are attempts of the day; of four the median is the lower of the middle two', () => {
    expect(bestAttempt(test, house, to100)?.id).toBe('a02');
    expect(medianAttempt(test, house, to100)?.id).toBe('a04');
    expect(medianAttempt(testOf(times(6.3, 6.0, 6.2)), house, to100)?.id).toBe('a03');
    expect(bestAttempt(testOf([]), house, to100)).toBeUndefined();
    expect(medianAttempt(testOf([]), house, to100)).toBeUndefined();
  });

  it('are counted by launch method, in the house’s order, those of set-aside attempts with none kept', () => {
    expect(launchMethodsOf(test, house)).toEqual([
      { id: 'plain', name: 'Plain throttle', kept: 1 },
      { id: 'brake', name: 'Brake and throttle', kept: 0 },
    ]);
    expect(launchMethodsOf(testFixture(), house).map(({ kept }) => kept)).toEqual([3, 3, 3]);
  });
});
