import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimalAt, type Seen } from '../../pipeline/log/decimal.ts';

const seen: Seen = { mark: 0, decimals: 0 };
const read = (text: string, before = '', after = ''): number => {
  const bytes = new TextEncoder().encode(before + text + after);
  return decimalAt(bytes, before.length, before.length + text.length, seen);
};
const digits = (maxLength: number) =>
  fc.array(fc.integer({ min: 0, max: 9 }), { maxLength }).map(list => list.join(''));

describe('a decimal number read in its place', () => {
  it('is what the language itself reads, to the last bit', () => {
    fc.assert(
      fc.property(fc.constantFrom('', '-', '+'), digits(8), digits(7), (sign, whole, rest) => {
        fc.pre(whole + rest !== '');
        const text = `${sign}${whole}.${rest}`;
        // A sum with zero makes both zeros one.
        expect(read(text, '12,', ',3')).toBe(Number(text) + 0);
        expect(seen.decimals).toBe(rest.length);
        expect(read(text.replace('.', ','))).toBe(Number(text) + 0);
      }),
      { numRuns: 3000 },
    );
  });

  it.each([
    '',
    '-',
    '.',
    ' 1',
    '1 ',
    '1e5',
    '0x10',
    '1.2.3',
    '1,2.3',
    'NaN',
    '--1',
    '1-',
    '1234567890123456',
  ])('leaves %j undecided', text => {
    expect(read(text)).toBeNaN();
  });

  it('tells the mark it met', () => {
    read('1,5');
    expect(String.fromCharCode(seen.mark)).toBe(',');
    read('15');
    expect(seen).toEqual({ mark: 0, decimals: 0 });
  });
});
