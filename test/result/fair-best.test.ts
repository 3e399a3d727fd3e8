import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { expectedSmallest } from '../../pipeline/compare/best-of-n.ts';
import { meanOf } from '../../pipeline/compare/repeats.ts';
import { expectedBestOf, fairBestInWords, fairBestOf } from '../../pipeline/result/fair-best.ts';
import { randomFromSeed } from '../simulate/random.ts';
import { type PlainAttempt, testOf } from './attempts.ts';
import { houseFixture } from './fixture.ts';

const seconds = fc.array(fc.double({ min: 4, max: 20, noNaN: true }), { minLength: 3, maxLength: 12 });

/** Every way to take `of` of the values, one by one. */
function counted(values: readonly number[], of: number): number {
  const bests: number[] = [];
  for (let chosen = 0; chosen < 2 ** values.length; chosen++) {
    const taken = values.filter((_, i) => (chosen >> i) & 1);
    if (taken.length === of) bests.push(Math.min(...taken));
  }
  return meanOf(bests);
}

describe('the expected best of fewer', () => {
  it('is the mean over every way to choose them, counted one by one', () => {
    fc.assert(
      fc.property(seconds, fc.integer({ min: 1, max: 12 }), (values, of) => {
        fc.pre(of <= values.length);
        expect(expectedBestOf(values, of, 'lower')).toBeCloseTo(counted(values, of), 10);
      }),
      { numRuns: 40 },
    );
  });

  // Smallest of k of the numbers 1 to n without putting back: mean (n + 1)/(k + 1), a closed form of sampling theory.
  it('of the numbers 1 to n is (n + 1)/(k + 1)', () => {
    for (const [n, k] of [
      [12, 3],
      [7, 2],
      [40, 5],
    ] as const) {
      const values = Array.from({ length: n }, (_, i) => n - i);
      expect(expectedBestOf(values, k, 'lower')).toBeCloseTo((n + 1) / (k + 1), 12);
      expect(expectedBestOf(values, k, 'higher')).toBeCloseTo(n + 1 - (n + 1) / (k + 1), 12);
    }
  });

  it('is the best of all of them, the mean of one, and better the more are taken', () => {
    fc.assert(
      fc.property(seconds, values => {
        const n = values.length;
        expect(expectedBestOf(values, n, 'lower')).toBeCloseTo(Math.min(...values), 12);
        expect(expectedBestOf(values, n, 'higher')).toBeCloseTo(Math.max(...values), 12);
        expect(expectedBestOf(values, 1, 'lower')).toBeCloseTo(meanOf(values), 10);
        for (let of = 2; of <= n; of++) {
          const [fewer, more] = [of - 1, of].map(k => expectedBestOf(values, k, 'lower'));
          expect(more!).toBeLessThanOrEqual(fewer! + 1e-12);
        }
      }),
    );
  });

  it('moves with a constant and does not mind the order', () => {
    fc.assert(
      fc.property(seconds, fc.double({ min: -3, max: 3, noNaN: true }), (values, by) => {
        const one = expectedBestOf(values, 3, 'lower');
        const moved = values.map(value => value + by);
        expect(expectedBestOf(moved, 3, 'lower')).toBeCloseTo(one + by, 10);
        expect(expectedBestOf([...values].reverse(), 3, 'lower')).toBeCloseTo(one, 12);
      }),
    );
  });

  // Expected smallest of 3 normal values, −3/(2√π) = −0.846 (Tippett 1925): right on average from days of 8 attempts.
  it('is right on average over many days', () => {
    const random = randomFromSeed(41);
    const days = Array.from({ length: 20_000 }, () =>
      expectedBestOf(
        Array.from({ length: 8 }, () => random.normal()),
        3,
        'lower',
      ),
    );
    expect(meanOf(days)).toBeCloseTo(-3 / (2 * Math.sqrt(Math.PI)), 1.9);
    expect(expectedSmallest(3)).toBeCloseTo(-3 / (2 * Math.sqrt(Math.PI)), 10);
  });

  it('is refused of more than there are, and of none', () => {
    expect(() => expectedBestOf([1, 2], 3, 'lower')).toThrow(RangeError);
    expect(() => expectedBestOf([1, 2], 0, 'lower')).toThrow(RangeError);
    expect(() => expectedBestOf([1, 2], 1.5, 'lower')).toThrow(RangeError);
  });
});

describe('best, median and spread of a day', () => {
  const house = houseFixture();
  const query = { measure: '0-100-kmh', launch: 'plain' } as const;
  const day = (times: readonly number[], more: readonly PlainAttempt[] = []) =>
    testOf([...times.map(timeS => ({ timeS, launchId: 'plain' })), ...more]);

  it('gives best, median, spread, counts and the expected best of three', () => {
    const aside = [
      { timeS: 5, launchId: 'plain', setAside: 'a hare' },
      { timeS: 5, launchId: 'brake' },
    ];
    const fair = fairBestOf(day([6.4, 6.1, 6.2, 6.3], aside), house, query)!;
    expect(fair).toMatchObject({ from: 6.1, to: 6.4, n: 4, nSetAside: 1, few: true });
    expect(fair.best.value).toBe(6.1);
    expect(fair.median.value).toBeCloseTo(6.25, 12);
    // Of the four triples three hold 6.1 and one has 6.2 for its best.
    expect(fair.ofThree).toBeCloseTo((3 * 6.1 + 6.2) / 4, 12);
  });

  it('is told in words where there are more than three, and as a rough guide below six', () => {
    const words = (times: readonly number[]) =>
      fairBestInWords(fairBestOf(day(times), house, query)!, house)?.replaceAll('\u00a0', ' ');
    expect(words([6.4, 6.1, 6.2])).toBeUndefined();
    expect(words([6.4, 6.1, 6.2, 6.3])).toBe(
      'Of any 3 of these 4 attempts the best would be 6.12 s on average; of so few attempts that is a rough guide.',
    );
    expect(words([6.4, 6.1, 6.2, 6.3, 6.5, 6.6])).toMatch(
      /^Of any 3 of these 6 attempts the best would be 6\.1\d s on average\.$/,
    );
  });

  it('has no best of three of two, and says where three to five are few', () => {
    expect(fairBestOf(day([6.4, 6.1]), house, query)!.ofThree).toBeUndefined();
    expect(fairBestOf(day([6.4, 6.1, 6.2, 6.3, 6.3]), house, query)!.few).toBe(true);
    expect(fairBestOf(day([6.4, 6.1, 6.2, 6.3, 6.3, 6.3]), house, query)!.few).toBe(false);
    expect(fairBestOf(day([]), house, query)).toBeUndefined();
  });
});
