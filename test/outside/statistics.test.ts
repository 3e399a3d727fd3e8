import { expect } from 'vitest';
import { c4, expectedSmallest } from '../../pipeline/compare/best-of-n.ts';
import { criticalU, smallestPossibleP } from '../../pipeline/compare/mann-whitney.ts';
import { medianIntervalCoverage } from '../../pipeline/compare/median-interval.ts';
import { lagOneCorrelation, repeatsOf } from '../../pipeline/compare/repeats.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

const certified = (values: readonly number[], entry: CheckValue): void => {
  const { n, mean, sd } = repeatsOf(values);
  expectWithin({ n, mean, s: sd, r1: lagOneCorrelation(values) }, entry);
};

/** NumAcc2 to 4 as NIST makes them: base + 0.2, then 500 pairs of base + 0.1 and base + 0.3. */
const generated = (entry: CheckValue): void => {
  const { base } = entry.inputs;
  certified([base + 0.2, ...Array.from({ length: 1000 }, (_, i) => base + (i % 2 === 0 ? 0.1 : 0.3))], entry);
};

const bestOf = (entry: CheckValue): void => expectWithin(expectedSmallest(entry.inputs.n), entry);
const critical = (entry: CheckValue): void =>
  expectWithin(criticalU(entry.inputs.n1, entry.inputs.n2), entry);
const coverage = (entry: CheckValue): void =>
  expectWithin(medianIntervalCoverage(entry.inputs.n, entry.inputs.k), entry);

describeCheckValues('statistics', {
  'strd.mavro': entry => certified(entry.inputs.values, entry),
  'strd.michelso': entry => certified(entry.inputs.values, entry),
  'strd.numacc1': entry => certified(entry.inputs.values, entry),
  'strd.numacc2': generated,
  'strd.numacc3': generated,
  'strd.numacc4': generated,
  'best-of-n.2': bestOf,
  'best-of-n.3': bestOf,
  'best-of-n.4': bestOf,
  'best-of-n.5': bestOf,
  'best-of-n.6': bestOf,
  'best-of-n.7': bestOf,
  'best-of-n.8': bestOf,
  'best-of-n.9': bestOf,
  'best-of-n.10': bestOf,
  'best-of-n.12': bestOf,
  'best-of-n.15': bestOf,
  'best-of-n.20': bestOf,
  'best-of-n.exact': entry => expectWithin({ n2: expectedSmallest(2), n3: expectedSmallest(3) }, entry),
  c4: entry => expectWithin({ 2: c4(2), 3: c4(3), 4: c4(4), 5: c4(5), 10: c4(10) }, entry),
  'mwu.3-5': critical,
  'mwu.4-4': critical,
  'mwu.4-5': critical,
  'mwu.5-5': critical,
  'mwu.5-6': critical,
  'mwu.6-6': critical,
  'mwu.8-8': critical,
  'mwu.10-10': critical,
  'mwu.20-20': critical,
  'mwu.minp': entry => {
    expectWithin(
      {
        '3v3': smallestPossibleP(3, 3),
        '3v4': smallestPossibleP(3, 4),
        '3v5': smallestPossibleP(3, 5),
        '4v4': smallestPossibleP(4, 4),
        '5v5': smallestPossibleP(5, 5),
      },
      entry,
    );
    expect(criticalU(3, 3)).toBeUndefined();
    expect(criticalU(3, 4)).toBeUndefined();
  },
  'median-ci.3': coverage,
  'median-ci.5': coverage,
  'median-ci.6': coverage,
  'median-ci.8': coverage,
  'median-ci.9': coverage,
  'median-ci.10': coverage,
  'median-ci.12': coverage,
});
