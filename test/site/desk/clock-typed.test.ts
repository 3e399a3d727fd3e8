import { describe, expect, it } from 'vitest';
import { clockTyped } from '../../../site/desk/clock-typed.ts';

describe('a clock time typed in a hurry', () => {
  it.each([
    ['9:05', '09:05'],
    ['905', '09:05'],
    ['10.22', '10:22'],
    ['1022', '10:22'],
    ['10:22:40', '10:22:40'],
    ['102240', '10:22:40'],
    [' 10 22 40 ', '10:22:40'],
  ])('%s is %s', (typed, clock) => expect(clockTyped(typed)).toBe(clock));

  it.each(['', '25:00', '10:60', '10:22:61', 'noon', '1'])('“%s” is none', typed =>
    expect(clockTyped(typed)).toBeUndefined(),
  );
});
