import { describe, expect, it } from 'vitest';
import { randomFromSeed } from '../simulate/random.ts';
import { fuzz, TARGETS } from './fuzz.ts';
import { mutate } from './mutate.ts';
import { type FuzzTarget, must } from './target.ts';

/** `npm run fuzz` throws many more. */
const RUNS = 500;

describe('random damage', () => {
  it.each(TARGETS.map(target => [target.name, target] as const))(
    'to %s ends in an answer or a clear word',
    (_, target) => {
      const { faults } = fuzz(target, RUNS, 20);
      expect(faults.map(({ what }) => what)).toEqual([]);
    },
  );
});

describe('the search itself', () => {
  const bytes = new TextEncoder().encode('time_s,speed_kmh\n0,0\n1,5\n');

  it('does the same damage for the same seed', () => {
    const twice = [0, 1].map(() => mutate(bytes, ['x'], randomFromSeed(3)));
    expect(twice[0]).toEqual(twice[1]);
    expect(new TextDecoder().decode(bytes)).toBe('time_s,speed_kmh\n0,0\n1,5\n');
  });

  it('finds a fault that needs two steps, and tells each kind once', () => {
    const target: FuzzTarget = {
      name: 'planted',
      seeds: [bytes],
      tokens: ['@', '!'],
      run: input => {
        const text = new TextDecoder().decode(input);
        must(!(text.includes('@') && text.includes('!')), `planted ${text.length}`);
        return text.includes('@') ? 'half-way' : 'plain';
      },
    };
    const { faults } = fuzz(target, 2000, 1);
    expect(faults).toHaveLength(1);
    expect(faults[0]!.what).toContain('planted');
  });
});
