import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ProblemError } from '../../pipeline/problem.ts';
import { resultsNotComparable } from '../../pipeline/problems/result.ts';
import { compareResults, comparisonInWords } from '../../pipeline/result/compare.ts';
import type { Result } from '../../pipeline/result/result.ts';
import { kmhToMps } from '../../pipeline/units.ts';

const house = { language: 'en-GB' };
const names = { a: 'Sorrel', b: 'Teasel' };
const of = (value: number, uncertainty: number | undefined, more: Partial<Result> = {}): Result => ({
  measure: '0-100-kmh',
  statistic: 'best',
  startRule: 'first-movement',
  value,
  ...(uncertainty === undefined ? {} : { uncertainty }),
  n: 6,
  nSetAside: 0,
  median: value,
  among: {},
  attemptIds: ['a01'],
  ...more,
});
const words = (a: Result, b: Result): string =>
  comparisonInWords(a, b, names, house).replaceAll('\u00a0', ' ');

describe('compareResults', () => {
  it('adds uncertainties as the root sum of squares', () => {
    const { difference, uncertainty, tooCloseToCall } = compareResults(of(6, 0.03), of(6.2, 0.04));
    expect(difference).toBeCloseTo(-0.2, 12);
    expect(uncertainty).toBeCloseTo(0.05, 12);
    expect(tooCloseToCall).toBe(false);
  });

  it('calls a difference that only equals its uncertainty too close', () => {
    expect(compareResults(of(6, 0.375), of(6.625, 0.5)).tooCloseToCall).toBe(true);
    expect(compareResults(of(6, 0.375), of(6.626, 0.5)).tooCloseToCall).toBe(false);
    expect(compareResults(of(6, 0), of(6, 0)).tooCloseToCall).toBe(true);
  });

  it('cannot call what has no uncertainty', () => {
    expect(compareResults(of(6, undefined), of(60, 0.01))).toMatchObject({
      uncertainty: Number.POSITIVE_INFINITY,
      tooCloseToCall: true,
    });
  });

  it('is the same seen from the other side', () => {
    const anyResult = fc
      .tuple(fc.double({ min: 1, max: 30, noNaN: true }), fc.double({ min: 0, max: 2, noNaN: true }))
      .map(([value, uncertainty]) => of(value, uncertainty));
    fc.assert(
      fc.property(anyResult, anyResult, (a, b) => {
        const one = compareResults(a, b);
        const other = compareResults(b, a);
        expect(other.difference).toBeCloseTo(-one.difference, 12);
        expect(other.tooCloseToCall).toBe(one.tooCloseToCall);
      }),
    );
  });

  it('refuses different measures and different clocks', () => {
    const rollout = of(6, 0.02, { startRule: 'one-foot-rollout' });
    expect(() => compareResults(of(6, 0.02), rollout)).toThrow(ProblemError);
    expect(() => compareResults(of(6, 0.02), of(6, 0.02, { measure: '0-80-kmh' }))).toThrow(
      new ProblemError(
        resultsNotComparable('0–100 km/h, clock from first movement', '0–80 km/h, clock from first movement'),
      ).message,
    );
  });
});

describe('comparisonInWords', () => {
  it('says who is ahead and by how much', () => {
    expect(words(of(5.931, 0.02), of(6.402, 0.02))).toBe(
      'Sorrel is quicker by 0.47 s ± 0.03 s: 5.93 s against 6.40 s.',
    );
    expect(words(of(6.402, 0.02), of(5.931, 0.02))).toBe(
      'Teasel is quicker by 0.47 s ± 0.03 s: 5.93 s against 6.40 s.',
    );
  });

  it('puts the higher ahead where higher is better', () => {
    const speed = (kmh: number): Result => of(kmhToMps(kmh), kmhToMps(0.3), { measure: '402-m-speed' });
    expect(words(speed(150), speed(158))).toBe(
      'Teasel is faster by 8.0 km/h ± 0.4 km/h: 158.0 km/h against 150.0 km/h.',
    );
    const stop = (m: number): Result => of(m, 0.5, { measure: 'stop-from-100-kmh' });
    expect(words(stop(38), stop(41))).toContain('Sorrel stops shorter by 3.0 m');
    const mfdd = (a: number): Result => of(a, 0.1, { measure: 'mfdd-from-100-kmh' });
    expect(words(mfdd(8), mfdd(9))).toContain('Teasel brakes harder by 1.00 m/s²');
    const peak = (a: number): Result => of(a, 0.1, { measure: 'peak-acceleration' });
    expect(words(peak(8), peak(9))).toContain('Teasel accelerates harder by 1.00 m/s²');
  });

  it('never ranks what is too close to call', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 20, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (value, share) => {
          const text = words(of(value, 0.03), of(value + 0.04 * share, 0.04));
          expect(text).toContain('too close to call');
          expect(text).not.toMatch(/quicker|slower|faster|ahead|shorter|harder/);
        },
      ),
    );
  });

  it('does not rank without an uncertainty', () => {
    expect(words(of(6, undefined), of(9, 0.1))).toContain('not ranked, because no uncertainty can be stated');
  });

  it('warns where a best of many stands against a best of few', () => {
    expect(words(of(5.9, 0.02), of(6.4, 0.02, { n: 12 }))).toContain(
      'A best of 6 stands against a best of 12',
    );
    const medians = [
      of(5.9, 0.02, { statistic: 'median' }),
      of(6.4, 0.02, { statistic: 'median', n: 12 }),
    ] as const;
    expect(words(...medians)).not.toContain('stands against');
  });
});
