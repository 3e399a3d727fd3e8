/** What is measured gives the same numbers as yesterday, to the ninth digit, unless somebody means to move them. */
import { describe, expect, it } from 'vitest';
import { HELD, heldOf, heldThen } from './held.ts';

const then = heldThen();
/** Engines differ in the last bits of what they take from their own arctangent and hypotenuse. */
const SAME_SHARE = 1e-9;

describe('figures that were held', () => {
  it.each(HELD)('are the same: %s', (name, make) => {
    const now = heldOf([name, make]);
    const moved = [...now].filter(([key, value]) => {
      const before = then.get(key) ?? Number.NaN;
      return !(Math.abs(value - before) <= SAME_SHARE * Math.max(1, Math.abs(before)));
    });
    expect(
      moved.map(([key, value]) => `${key}: ${then.get(key)} became ${value}`),
      'Where this is meant: say so in CHANGELOG.md under the numbers that move, and run `node test/measurement/held.ts`',
    ).toEqual([]);
    expect([...then.keys()].filter(key => key.startsWith(`${name}, `)).length).toBeGreaterThanOrEqual(
      now.size,
    );
  });
});
