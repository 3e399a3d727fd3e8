import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { digestOf } from '../../pipeline/cache/digest.ts';

describe('the digest of plain data', () => {
  it('is the same for equal data, also after a way through a file', () => {
    fc.assert(
      fc.property(fc.jsonValue(), value => {
        const again = JSON.parse(JSON.stringify(value)) as unknown;
        // JSON loses the sign of zero, which is told apart here.
        fc.pre(JSON.stringify(value) === JSON.stringify(again) && !hasMinusZero(value));
        expect(digestOf(again)).toBe(digestOf(value));
      }),
    );
  });

  it('tells apart what JSON would write alike', () => {
    const alike: readonly unknown[] = [
      null,
      undefined,
      Number.NaN,
      Number.POSITIVE_INFINITY,
      0,
      -0,
      '0',
      0n,
      false,
      [],
      {},
      new Set(),
      new Map(),
      [undefined],
      { a: undefined },
      { a: null },
      new Set([1]),
      [1],
      new Map([[1, 2]]),
      [[1, 2]],
      new Float64Array([1]),
      new Float32Array([1]),
      new Uint8Array(new Float64Array([1]).buffer),
      ['a', 'b'],
      ['a,b'],
      ['a","b'],
    ];
    expect(new Set(alike.map(digestOf)).size).toBe(alike.length);
  });

  it('takes no function, which could do anything', () => {
    expect(() => digestOf({ make: () => 1 })).toThrow(TypeError);
    expect(() => digestOf([Symbol('a')])).toThrow(TypeError);
  });
});

const hasMinusZero = (value: unknown): boolean =>
  Object.is(value, -0) ||
  (typeof value === 'object' && value !== null && Object.values(value).some(hasMinusZero));
