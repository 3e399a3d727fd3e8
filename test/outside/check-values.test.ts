import { describe, expect, it } from 'vitest';
import { type CheckValue, expectWithin, runCheck, shortSource } from './check-values.ts';

const entry = (expected: unknown, tolerance: CheckValue['tolerance']): CheckValue => ({
  id: 'made.up',
  quantity: 'something',
  inputs: {},
  expected,
  tolerance,
  source: 'nowhere',
  kind: 'made up',
});
const fails = (actual: unknown, expected: unknown, tolerance: CheckValue['tolerance']): void => {
  expect(() => expectWithin(actual, entry(expected, tolerance))).toThrow();
};

describe('expectWithin', () => {
  it('lets pass what is within an absolute or a relative tolerance, ends included', () => {
    expectWithin(1.25, entry(1, { abs: 0.25 }));
    expectWithin(1010, entry(1000, { rel: 0.01 }));
    expectWithin(7, entry(7, { exact: true }));
    expectWithin('02:00', entry('02:00', { exact: true }));
  });

  it('fails just outside, for no number, and for the wrong kind', () => {
    fails(1.26, 1, { abs: 0.25 });
    fails(1011, 1000, { rel: 0.01 });
    fails(7.000_000_1, 7, { exact: true });
    fails(Number.NaN, 1, { abs: 100 });
    fails(undefined, 1, { abs: 100 });
    fails('1', 1, { abs: 100 });
    fails('02:01', '02:00', { exact: true });
  });

  it('goes through records and lists field by field', () => {
    expectWithin({ a: 1 }, entry({ a: 1, b: 2 }, { abs: 0 }));
    expectWithin([1, [2, 3]], entry([1, [2, 3]], { abs: 0 }));
    fails({ a: 1, b: 2.1 }, { a: 1, b: 2 }, { abs: 0.01 });
    fails({}, { a: 1 }, { abs: 1 });
    fails({ c: 1 }, { a: 1 }, { abs: 1 });
    fails([1, 2], [1, 2, 3], { abs: 0 });
    fails([1, [2, 4]], [1, [2, 3]], { abs: 0 });
    fails({ a: undefined }, { a: 1 }, { abs: 1 });
  });

  it('takes a tolerance of one field before that of the entry', () => {
    expectWithin({ a: 1.4, b: 2 }, entry({ a: 1, b: 2 }, { abs: 0.1, fields: { a: 0.5 } }));
    fails({ a: 1.4, b: 2.2 }, { a: 1, b: 2 }, { abs: 0.1, fields: { a: 0.5 } });
  });

  it('shortens a long source and leaves a short one', () => {
    expect(shortSource(entry(1, {}))).toBe('nowhere');
    expect(shortSource({ ...entry(1, {}), source: 'x'.repeat(200) })).toHaveLength(88);
  });
});

describe('a check', () => {
  it('fails where it never looks at the published value', () => {
    expect(() => runCheck(entry(1, { abs: 0 }), () => expect(1).toBe(1))).toThrow(/never looks/);
    expect(() => runCheck(entry(1, { abs: 0 }), one => expect(one.inputs).toEqual({}))).toThrow(
      /never looks/,
    );
    runCheck(entry(1, { abs: 0 }), one => expectWithin(1, one));
  });

  it.fails('fails where it asserts nothing', () => {
    runCheck(entry(1, { abs: 0 }), one => void one.expected);
  });
});
