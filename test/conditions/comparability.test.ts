import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  COMPARED,
  COMPARISON_LIMITS,
  type ComparedCondition,
  type ComparedConditions,
  compareConditions,
  type Likeness,
  overallLikeness,
} from '../../pipeline/conditions/comparability.ts';
import { EUROPEAN_COAST_DOWN } from '../../pipeline/conditions/limits.ts';
import { REFERENCE_DENSITY_KGM3 } from '../../pipeline/conditions/reference.ts';

const at = (value: number) => ({ low: value, high: value });
const DAY: ComparedConditions = {
  surfaces: ['dry'],
  temperatureK: at(290),
  densityKgm3: at(REFERENCE_DENSITY_KGM3),
  windMps: at(1),
  slopePct: 0.1,
  startRule: 'first-movement',
  rateHz: at(25),
  attempts: 5,
  loadKg: 120,
};
const likenessOf = (
  condition: ComparedCondition,
  a: Partial<ComparedConditions>,
  b: Partial<ComparedConditions> = {},
): Likeness =>
  compareConditions({ ...DAY, ...a }, { ...DAY, ...b }).find(each => each.condition === condition)!.likeness;

describe('conditions of two tests', () => {
  it('are all alike where they are the same', () => {
    const likenesses = compareConditions(DAY, DAY);
    expect(likenesses.map(({ condition }) => condition)).toEqual([...COMPARED]);
    expect(overallLikeness(likenesses)).toBe('alike');
  });

  it('are all not known where nothing is known of either', () => {
    expect(compareConditions({}, {}).every(({ likeness }) => likeness === 'not-known')).toBe(true);
    expect(overallLikeness(compareConditions({}, {}))).toBe('not-known');
  });

  it.each<[ComparedCondition, Partial<ComparedConditions>, Partial<ComparedConditions>]>([
    ['surface', { surfaces: ['dry'] }, { surfaces: ['wet'] }],
    ['surface', { surfaces: ['dry', 'damp'] }, { surfaces: ['dry', 'damp'] }],
    ['temperature', { temperatureK: at(280) }, { temperatureK: at(290.1) }],
    ['temperature', { temperatureK: { low: 280, high: 289 } }, { temperatureK: at(290.1) }],
    ['density', { densityKgm3: at(REFERENCE_DENSITY_KGM3 * 1.08) }, {}],
    [
      'density',
      { densityKgm3: at(REFERENCE_DENSITY_KGM3 * 0.96) },
      { densityKgm3: at(REFERENCE_DENSITY_KGM3 * 1.04) },
    ],
    ['density', { densityKgm3: { low: REFERENCE_DENSITY_KGM3 * 0.92, high: REFERENCE_DENSITY_KGM3 } }, {}],
    ['slope', {}, { slopePct: 0.25 }],
    ['load', {}, { loadKg: 175 }],
    ['wind', { windMps: at(3.2) }, { windMps: at(3.2) }],
    ['slope', { slopePct: 0.25 }, {}],
    ['start-rule', { startRule: 'one-foot-rollout' }, {}],
    ['rate', { rateHz: at(5) }, {}],
    ['attempts', { attempts: 2 }, {}],
    ['load', { loadKg: 175 }, {}],
  ])('are not alike in %s, and in nothing else, beyond its limit: %j %j', (condition, a, b) => {
    const likenesses = compareConditions({ ...DAY, ...a }, { ...DAY, ...b });
    for (const each of likenesses) {
      expect(each.likeness).toBe(each.condition === condition ? 'not-alike' : 'alike');
    }
    expect(overallLikeness(likenesses)).toBe('not-alike');
  });

  it.each<[ComparedCondition, Partial<ComparedConditions>]>([
    ['temperature', { temperatureK: at(300) }],
    ['density', { densityKgm3: at(REFERENCE_DENSITY_KGM3 * 1.075) }],
    ['wind', { windMps: at(3) }],
    ['slope', { slopePct: 0.2 }],
    ['rate', { rateHz: at(9.9) }],
    ['attempts', { attempts: 3 }],
    ['load', { loadKg: 170 }],
  ])('are alike in %s at its limit', (condition, a) => {
    expect(likenessOf(condition, a)).toBe('alike');
  });

  it('say which test is beyond a limit by itself, even where nothing is known of the other', () => {
    const { windMps: _, ...unknown } = DAY;
    const [wind] = compareConditions({ ...DAY, windMps: at(4) }, unknown).filter(
      each => each.condition === 'wind',
    );
    expect(wind).toMatchObject({ likeness: 'not-alike', beyond: [0] });
    const [calm] = compareConditions(DAY, unknown).filter(each => each.condition === 'wind');
    expect(calm?.likeness).toBe('not-known');
  });

  it.each<[ComparedCondition, keyof ComparedConditions, Partial<ComparedConditions>]>([
    ['surface', 'surfaces', { surfaces: ['dry', 'wet'] }],
    ['temperature', 'temperatureK', {}],
    ['density', 'densityKgm3', { densityKgm3: at(REFERENCE_DENSITY_KGM3 * 1.1) }],
    ['wind', 'windMps', { windMps: at(3.1) }],
    ['slope', 'slopePct', {}],
    ['start-rule', 'startRule', {}],
    ['rate', 'rateHz', { rateHz: at(9.4) }],
    ['attempts', 'attempts', { attempts: 2 }],
    ['load', 'loadKg', {}],
  ])(
    'in %s are not known where one test lacks it, unless the other is beyond by itself',
    (condition, key, worse) => {
      const { [key]: _, ...lacking } = DAY;
      const judge = (a: ComparedConditions, b: ComparedConditions) => {
        const { condition: __, ...judgement } = compareConditions(a, b).find(
          each => each.condition === condition,
        )!;
        return judgement;
      };
      const unknown = { likeness: 'not-known', beyond: [] };
      expect([judge(DAY, lacking), judge(lacking, DAY)]).toEqual([unknown, unknown]);
      if (Object.keys(worse).length === 0) return;
      const beyond = { ...DAY, ...worse };
      expect(judge(beyond, lacking)).toEqual({ likeness: 'not-alike', beyond: [0] });
      expect(judge(lacking, beyond)).toEqual({ likeness: 'not-alike', beyond: [1] });
    },
  );

  it('tell by how much they differ, the furthest attempts counting, and nothing of words', () => {
    const differences = (a: Partial<ComparedConditions>, b: Partial<ComparedConditions>) =>
      Object.fromEntries(
        compareConditions({ ...DAY, ...a }, { ...DAY, ...b }).map(({ condition, difference }) => [
          condition,
          difference,
        ]),
      );
    const apart = differences(
      {
        temperatureK: { low: 280, high: 284 },
        windMps: at(0.5),
        slopePct: -0.02,
        rateHz: at(20),
        attempts: 3,
        loadKg: 100,
      },
      {
        temperatureK: { low: 282, high: 285 },
        windMps: { low: 1, high: 2 },
        slopePct: 0.03,
        attempts: 7,
        loadKg: 90,
      },
    );
    expect(apart).toMatchObject({ temperature: 5, wind: 1.5, rate: 5, attempts: 4, load: 10 });
    expect(apart.slope).toBeCloseTo(0.05, 12);
    expect([apart.surface, apart['start-rule']]).toEqual([undefined, undefined]);
    const density = differences({ densityKgm3: { low: 1.18, high: 1.2 } }, { densityKgm3: at(1.19) }).density;
    expect(density).toBeCloseTo(0.01 / REFERENCE_DENSITY_KGM3, 12);
  });

  it('are judged the same whichever test comes first', () => {
    const maybe = <T>(arbitrary: fc.Arbitrary<T>) => fc.option(arbitrary, { nil: undefined });
    const span = (low: number, high: number) =>
      fc
        .tuple(
          fc.double({ min: low, max: high, noNaN: true }),
          fc.double({ min: low, max: high, noNaN: true }),
        )
        .map(([x, y]) => ({ low: Math.min(x, y), high: Math.max(x, y) }));
    const conditions = fc
      .record({
        surfaces: maybe(fc.subarray(['dry', 'damp', 'wet'], { minLength: 1 })),
        temperatureK: maybe(span(260, 310)),
        densityKgm3: maybe(span(0.9, 1.4)),
        windMps: maybe(span(0, 8)),
        slopePct: maybe(fc.double({ min: -1, max: 1, noNaN: true })),
        startRule: maybe(fc.constantFrom('first-movement', 'one-foot-rollout')),
        rateHz: maybe(span(1, 100)),
        attempts: maybe(fc.nat(10)),
        loadKg: maybe(fc.double({ min: 0, max: 400, noNaN: true })),
      })
      .map(record => record as ComparedConditions);
    fc.assert(
      fc.property(conditions, conditions, (a, b) => {
        const there = compareConditions(a, b).map(({ likeness }) => likeness);
        const back = compareConditions(b, a).map(({ likeness }) => likeness);
        expect(there).toEqual(back);
      }),
    );
  });
});

describe('the limits', () => {
  it('name their source, published or our own', () => {
    for (const { asks, source } of Object.values(COMPARISON_LIMITS)) {
      expect(asks.length).toBeGreaterThan(10);
      expect(source).toMatch(/StVZO|our own limit/);
    }
  });

  it('of wind and density are those of the European coast-down rules', () => {
    expect(COMPARISON_LIMITS.wind.value).toBe(EUROPEAN_COAST_DOWN.meanWindMps);
    expect(COMPARISON_LIMITS.density.value).toBe(EUROPEAN_COAST_DOWN.densityShare);
  });
});
