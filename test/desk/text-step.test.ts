import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { stepBack, stepBetween, stepOn } from '../../pipeline/desk/text-step.ts';

/** Texts that are alike in places, with letters of two code units among them. */
const text = fc
  .array(fc.constantFrom('a', 'b', '\n', 'ä', '🚗', '🚙'), { maxLength: 12 })
  .map(letters => letters.join(''));

describe('a step of a text', () => {
  it('leads from the one to the other and back, also after it was written down', () => {
    fc.assert(
      fc.property(text, text, (before, after) => {
        const step = JSON.parse(JSON.stringify(stepBetween(before, after)));
        expect(stepOn(before, step)).toBe(after);
        expect(stepBack(after, step)).toBe(before);
      }),
    );
  });

  it('holds only what differs', () => {
    expect(stepBetween('mass_kg: 1460\n', 'mass_kg: 1480\n')).toEqual({ at: 11, removed: '6', added: '8' });
    expect(stepBetween('aa', 'aaa')).toEqual({ at: 2, removed: '', added: 'a' });
    expect(stepBetween('same', 'same')).toEqual({ at: 4, removed: '', added: '' });
  });

  it('is not gone on another text', () => {
    const step = stepBetween('a: 1', 'a: 2');
    expect(() => stepOn('a: 3', step)).toThrow(RangeError);
    expect(() => stepBack('a: 3', step)).toThrow(RangeError);
  });
});
