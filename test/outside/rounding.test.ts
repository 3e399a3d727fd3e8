import { expect } from 'vitest';
import { roundToDecimals, roundToMultiple } from '../../pipeline/round.ts';
import { type CheckValue, describeCheckValues, expectWithin } from './check-values.ts';

const toMultiple = (entry: CheckValue): void =>
  expectWithin(Number(roundToMultiple(entry.inputs.x, entry.inputs.range)), entry);

describeCheckValues('rounding', {
  'round.even.12.25-0.1': toMultiple,
  'round.even.12.35-0.1': toMultiple,
  'round.even.1225-50': toMultiple,
  'round.even.1275-50': toMultiple,
  'round.even.1250-100': toMultiple,
  'round.even.1350-100': toMultiple,
  // The language's own rounding still does this, and ours does not.
  'round.js-traps': entry => {
    expectWithin(
      {
        '(12.25).toFixed(1)': (12.25).toFixed(1),
        '(12.35).toFixed(1)': (12.35).toFixed(1),
        '(1.005).toFixed(2)': (1.005).toFixed(2),
        '(10.235).toFixed(2)': (10.235).toFixed(2),
        'Math.round(-1.5)': Math.round(-1.5),
        '(-1.5).toFixed(0)': (-1.5).toFixed(0),
      },
      entry,
    );
    expect(roundToDecimals(12.25, 1)).toBe('12.2');
    expect(roundToDecimals(12.35, 1)).toBe('12.4');
    expect(roundToDecimals(1.005, 2)).toBe('1.00');
    expect(roundToDecimals(10.235, 2)).toBe('10.24');
    expect(roundToDecimals(-1.5, 0)).toBe('-2');
  },
});
