import { describe, expect, it } from 'vitest';
import { COMPARED } from '../../pipeline/conditions/comparability.ts';
import {
  comparabilityInWords,
  comparabilityOf,
  notAlike,
  notKnown,
} from '../../pipeline/result/comparability.ts';
import type { Attempt, AttemptConditions, TestResult } from '../../pipeline/result/result.ts';
import { testFixture } from './fixture.ts';

const TEST = testFixture();
const under = (conditions: Partial<AttemptConditions>, test: TestResult = TEST): TestResult => ({
  ...test,
  attempts: test.attempts.map(attempt => ({
    ...attempt,
    conditions: { ...attempt.conditions, ...conditions },
  })),
});
const KNOWN = under({
  temperatureK: 290,
  densityKgm3: 1.2,
  windMps: 1.2,
  slopePct: 0.1,
  surface: 'dry',
});

describe('two tests', () => {
  it('are alike with themselves', () => {
    const verdicts = comparabilityOf(KNOWN, KNOWN);
    expect(verdicts.map(({ condition }) => condition)).toEqual([...COMPARED]);
    expect(notAlike(verdicts)).toEqual([]);
    expect(notKnown(verdicts)).toEqual([]);
    expect(comparabilityInWords(verdicts, 'en')).toBe('Alike');
  });

  it('say which conditions differ, and what each was', () => {
    const verdicts = comparabilityOf(KNOWN, under({ surface: 'wet', windMps: 3.4 }, KNOWN));
    expect(comparabilityInWords(verdicts, 'en')).toBe('Not alike: surface and wind');
    expect(notAlike(verdicts).map(({ text }) => text)).toEqual([
      'Surface not alike: dry against wet',
      'Wind not alike: 1.2\u00a0m/s against 3.4\u00a0m/s',
    ]);
    expect(notAlike(verdicts)[1]?.source).toContain('StVZO');
  });

  it('say what nobody knows, where even one attempt lacks it', () => {
    const last = KNOWN.attempts.findLast(({ setAside }) => setAside === undefined)!;
    const { slopePct: _, ...without } = last.conditions;
    const test: TestResult = {
      ...KNOWN,
      attempts: KNOWN.attempts.map(
        (attempt): Attempt => (attempt === last ? { ...last, conditions: without } : attempt),
      ),
    };
    expect(comparabilityInWords(comparabilityOf(KNOWN, test), 'en')).toBe(
      'Alike as far as known; not known: slope',
    );
  });

  it('count the attempts they are told to count, and the start rules of the two figures', () => {
    const one = KNOWN.attempts.slice(0, 1);
    const verdicts = comparabilityOf(KNOWN, KNOWN, {
      attempts: [one, KNOWN.attempts],
      startRules: ['first-movement', 'one-foot-rollout'],
    });
    expect(comparabilityInWords(verdicts, 'en')).toBe('Not alike: start of the clock and number of attempts');
  });

  it('compare what was aboard, not the masses of different cars', () => {
    const heavier: TestResult = {
      ...KNOWN,
      car: { ...KNOWN.car, kerb_mass_kg: KNOWN.car.kerb_mass_kg + 600 },
      content: {
        ...KNOWN.content,
        as_tested: {
          ...KNOWN.content.as_tested,
          mass_kg: KNOWN.content.as_tested.mass_kg + 640,
        },
      },
    };
    expect(notAlike(comparabilityOf(KNOWN, heavier))).toEqual([]);
  });
});
