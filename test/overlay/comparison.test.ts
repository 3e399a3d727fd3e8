import { describe, expect, it } from 'vitest';
import { findingInWords } from '../../pipeline/overlay/comparison.ts';
import { OVERLAYS } from '../../pipeline/overlay/overlays.ts';
import type { Result, TestResult } from '../../pipeline/result/result.ts';
import { HOUSE, OTHER, otherTest, TEST } from './fixture.ts';

const median = (value: number, uncertainty: number, n = 4): Result => ({
  measure: '0-100-kmh',
  statistic: 'median',
  startRule: 'first-movement',
  value,
  uncertainty,
  n,
  nSetAside: 0,
  median: value,
  among: {},
  attemptIds: ['a01'],
});

const against = (other: TestResult): string | undefined =>
  OVERLAYS.comparison.make(TEST, HOUSE, [other]).find(made => made.name.startsWith('6-against'))?.altText;

describe('the finding of a comparison', () => {
  it('ranks what is apart by more than its uncertainty', () => {
    const finding = findingInWords(
      [
        { name: 'One', result: median(8.2, 0.1) },
        { name: 'Other', result: median(7.4, 0.1) },
      ],
      HOUSE,
    );
    expect(finding).toMatch(/^Other is quicker by 0\.80\u00a0s\u00a0±\u00a00\.1[45]\u00a0s$/);
  });

  it('is too close to call where the two quickest are, whatever the third', () => {
    const finding = findingInWords(
      [
        { name: 'One', result: median(7.5, 0.1) },
        { name: 'Other', result: median(7.4, 0.1) },
        { name: 'Third', result: median(9.9, 0.1) },
      ],
      HOUSE,
    );
    expect(finding).toBe('Too close to call');
  });

  it('is not drawn from a method tried once, whose scatter nobody knows', () => {
    const finding = findingInWords(
      [
        { name: 'One', result: median(8.2, 0.01, 1) },
        { name: 'Other', result: median(7.4, 0.01) },
      ],
      HOUSE,
    );
    expect(finding).toBe('Not ranked: tried once only');
  });

  it('is too close to call where an uncertainty cannot be stated', () => {
    const { uncertainty: _, ...unknown } = median(7.4, 0);
    const finding = findingInWords(
      [
        { name: 'One', result: median(9.2, 0.1) },
        { name: 'Other', result: unknown },
      ],
      HOUSE,
    );
    expect(finding).toBe('Too close to call');
  });
});

describe('car against car', () => {
  it('ranks a clearly slower car, by a launch method both tried', () => {
    expect(against(OTHER)).toMatch(/^Sorrel 52 is quicker by/);
    expect(against(OTHER)).toMatch(/0–100 km\/h, plain throttle/);
  });

  it('ranks nothing between cars alike', () => {
    expect(against(otherTest(1.002))).toMatch(/^Too close to call/);
  });

  it('ranks nothing between a dry and a wet road', () => {
    const wet: TestResult = {
      ...OTHER,
      attempts: OTHER.attempts.map(attempt => ({
        ...attempt,
        conditions: { ...attempt.conditions, surface: 'wet' },
      })),
    };
    expect(against(wet)).toMatch(/^Not alike: surface/);
    expect(against(wet)).not.toMatch(/quicker/);
  });

  it('leaves out other days of the same car', () => {
    expect(against({ ...OTHER, car: TEST.car })).toBeUndefined();
  });
});
