import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withChange } from '../../../pipeline/desk/change.ts';
import type { Change } from '../../../site/desk/answers.ts';
import { joined, valueAt, withChanges } from '../../../site/desk/changes.ts';

function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null) {
    Object.freeze(value);
    for (const inner of Object.values(value)) frozen(inner);
  }
  return value;
}

const draft = frozen({
  title: 'One',
  as_tested: { mass_kg: 1500, fuel: 'half' },
  attempts: [{ at: '10:00' }, { at: '10:05', launch: 'from-rest' }, { at: '10:10' }],
});

describe('one change to a draft', () => {
  it('sets a field and leaves the rest as it was, in its order', () => {
    const after = withChange(draft, { path: ['as_tested', 'mass_kg'], value: 1520 });
    expect(after).toEqual({ ...draft, as_tested: { mass_kg: 1520, fuel: 'half' } });
    expect(Object.keys(after as object)).toEqual(Object.keys(draft));
  });

  it('takes a field away by null, and an item out of its list', () => {
    expect(withChange(draft, { path: ['as_tested', 'fuel'], value: null })).toEqual({
      ...draft,
      as_tested: { mass_kg: 1500 },
    });
    expect(valueAt(withChange(draft, { path: ['attempts', 1], value: null }), ['attempts'])).toEqual([
      { at: '10:00' },
      { at: '10:10' },
    ]);
  });

  it('begins what is not there yet: a list, an item at its end, a field of fields', () => {
    expect(withChange({}, { path: ['conditions', 0], value: { at: '09:30' } })).toEqual({
      conditions: [{ at: '09:30' }],
    });
    expect(
      valueAt(withChange(draft, { path: ['attempts', 3, 'at'], value: '10:15' }), ['attempts', 3]),
    ).toEqual({
      at: '10:15',
    });
    expect(withChange({}, { path: ['receiver', 'what'], value: 'roof' })).toEqual({
      receiver: { what: 'roof' },
    });
  });
});

describe('changes joined while they wait', () => {
  const scalar = fc.oneof(fc.string(), fc.integer(), fc.constant(null));
  const path = fc.oneof(
    fc.constantFrom(['title'], ['as_tested', 'mass_kg'], ['as_tested', 'fuel']),
    fc.tuple(fc.constant('attempts'), fc.nat(2), fc.constantFrom('at', 'launch')),
  );
  const changes: fc.Arbitrary<readonly Change[]> = fc.array(
    fc.record({ path, value: scalar }) as fc.Arbitrary<Change>,
    { maxLength: 12 },
  );

  it('come to the same as all of them one after another', () => {
    fc.assert(
      fc.property(changes, all => {
        const short = all.reduce<readonly Change[]>(joined, []);
        expect(short.length).toBeLessThanOrEqual(all.length);
        expect(withChanges(draft, short)).toEqual(withChanges(draft, all));
      }),
    );
  });

  it('keep only the last word on a field that is being typed', () => {
    const typed = ['1', '15', '152'].map((value): Change => ({ path: ['title'], value }));
    expect(typed.reduce<readonly Change[]>(joined, [])).toEqual([{ path: ['title'], value: '152' }]);
  });

  it('never join over a removal, which moves what comes after it', () => {
    const one: Change = { path: ['attempts', 0], value: null };
    expect([one, one].reduce<readonly Change[]>(joined, [])).toHaveLength(2);
  });
});
