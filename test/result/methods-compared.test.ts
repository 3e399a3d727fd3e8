import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { mannWhitney } from '../../pipeline/compare/mann-whitney.ts';
import {
  compareDirections,
  compareLaunchMethods,
  holm,
  type MethodsCompared,
} from '../../pipeline/result/methods-compared.ts';
import {
  comparisonNotes,
  methodsFinding,
  orderInWords,
  pairInWords,
} from '../../pipeline/result/methods-words.ts';
import type { TestResult } from '../../pipeline/result/result.ts';
import { type PlainAttempt, testOf } from './attempts.ts';
import { houseFixture } from './fixture.ts';

const house = houseFixture();
const asked = { measure: '0-100-kmh', startRule: 'first-movement' } as const;
const compare = (test: TestResult): MethodsCompared => compareLaunchMethods(test, house, asked);
const of = (launchId: string, times: readonly number[], more: Partial<PlainAttempt> = {}): PlainAttempt[] =>
  times.map(timeS => ({ launchId, timeS, uncertaintyS: 0.02, ...more }));
/** Lists shuffled like cards, one of each in turn, longer lists last. */
const inTurn = (...lists: PlainAttempt[][]): PlainAttempt[] =>
  Array.from({ length: Math.max(...lists.map(list => list.length)) }, (_, i) =>
    lists.flatMap(list => list[i] ?? []),
  ).flat();
const plainText = (text: string | undefined): string => (text ?? '').replaceAll('\u00a0', ' ');
const finding = (compared: MethodsCompared): string => plainText(methodsFinding(compared, house));
const firstPair = (compared: MethodsCompared): string =>
  plainText(pairInWords(compared.pairs[0]!, '0-100-kmh', house));

const SLOW = [6.35, 6.3, 6.41, 6.33, 6.38, 6.36, 6.29];
const QUICK = SLOW.map(time => time - 0.31);

describe('two launch methods', () => {
  it('are ranked where every pairing goes one way', () => {
    const compared = compare(testOf(inTurn(of('plain', SLOW), of('brake', QUICK))));
    const [pair] = compared.pairs;
    expect(pair).toMatchObject({ verdict: 'apart', pairings: 49, won: 49, lost: 0 });
    expect(pair!.ahead.id).toBe('brake');
    expect(pair!.difference).toBeCloseTo(0.31, 12);
    expect(pair!.p).toBe(mannWhitney(SLOW, QUICK).p);
    // By hand: 7 against 7 leave out 8 differences a side, so 0.31 ± 0.06; with the timing √(0.06² + 2 · 0.02²).
    expect(firstPair(compared)).toBe(
      '‘Brake and throttle’ is quicker by 0.31 s than ‘Plain throttle’, between 0.24 s and 0.38 s: ahead in 49 of 49 pairings of their attempts.',
    );
    expect(finding(compared)).toMatch(/^‘Brake and throttle’ is quicker by 0\.31 s than ‘Plain throttle’/);
  });

  it('are never ranked three against three, however far apart', () => {
    const compared = compare(testOf(inTurn(of('plain', [9, 9.1, 9.2]), of('brake', [4, 4.1, 4.2]))));
    expect(compared.pairs[0]).toMatchObject({ verdict: 'too-few', smallestP: 0.1 });
    expect(compared.pairs[0]!.low).toBeUndefined();
    expect(finding(compared)).toBe(
      'Too few to tell ‘Brake and throttle’ and ‘Plain throttle’ apart: 3 against 3',
    );
    expect(firstPair(compared)).toContain('one time in 10');
  });

  it('are not ranked by less than the timing can tell, whatever the ranks say', () => {
    const blurred = inTurn(
      of('plain', SLOW, { uncertaintyS: 0.3 }),
      of('brake', QUICK, { uncertaintyS: 0.3 }),
    );
    const [pair] = compare(testOf(blurred)).pairs;
    expect(pair!.p).toBeLessThan(0.01);
    expect(pair!.verdict).toBe('too-close');
    expect(pair!.low).toBeLessThan(0);
  });

  it('are not ranked where an attempt has no uncertainty', () => {
    const test = testOf(inTurn(of('plain', SLOW), of('brake', QUICK, { uncertaintyS: Number.NaN })));
    expect(compare(test).pairs[0]!.verdict).toBe('not-known');
    expect(finding(compare(test))).toBe('‘Brake and throttle’ and ‘Plain throttle’ are not ranked');
  });

  it('are told as too close with the range of what may be', () => {
    const compared = compare(
      testOf(
        inTurn(
          of('plain', SLOW),
          of(
            'brake',
            SLOW.map(time => time - 0.02),
          ),
        ),
      ),
    );
    expect(compared.pairs[0]!.verdict).toBe('too-close');
    expect(finding(compared)).toBe(
      'Between ‘Brake and throttle’ and ‘Plain throttle’ it is too close to call',
    );
    expect(firstPair(compared)).toMatch(
      /0\.02 s between their medians, anything from 0\.\d\d s the other way to/,
    );
  });

  it('leave out attempts set aside, and a single method has nothing to be compared with', () => {
    const aside = of('brake', [3], { setAside: 'a hare' });
    expect(compare(testOf([...of('plain', SLOW), ...aside])).pairs).toEqual([]);
    expect(methodsFinding(compare(testOf(of('plain', SLOW))), house)).toBeUndefined();
    expect(compare(testOf([])).methods).toEqual([]);
  });

  it('are not counted out beyond forty attempts, and that is said', () => {
    const many = Array.from({ length: 41 }, (_, i) => 6 + i / 1000);
    const compared = compare(testOf([...of('plain', many), ...of('brake', QUICK)]));
    expect(compared.pairs[0]!.verdict).toBe('not-known');
    expect(firstPair(compared)).toContain('more than 40 attempts');
  });
});

describe('several launch methods', () => {
  it('share the level between the pairs that could differ', () => {
    // Four against four can show a difference alone (p = 2/70), but not as one of three pairs.
    const four = (from: number): number[] => [from, from + 0.01, from + 0.02, from + 0.03];
    const two = compare(testOf(inTurn(of('plain', four(7)), of('brake', four(6)))));
    expect(two.pairs.map(({ verdict }) => verdict)).toEqual(['apart']);
    const three = compare(testOf(inTurn(of('plain', four(7)), of('brake', four(6)), of('sport', four(8)))));
    expect(three.pairsCounted).toBe(3);
    expect(three.pairs.map(({ verdict }) => verdict)).toEqual(['too-few', 'too-few', 'too-few']);
    expect(firstPair(three)).toContain('one time in 35, too often where 3 pairs are compared');
    // A pair that cannot differ takes nothing from the others.
    const small = compare(testOf(inTurn(of('plain', four(7)), of('brake', four(6)), of('sport', [8, 8.1]))));
    expect(small.pairsCounted).toBe(1);
    expect(small.pairs.map(({ verdict }) => verdict)).toEqual(['apart', 'too-few', 'too-few']);
  });

  it('name who is behind where not everyone is', () => {
    const compared = compare(
      testOf(
        inTurn(
          of('plain', SLOW),
          of('brake', QUICK),
          of(
            'sport',
            QUICK.map(time => time + 0.01),
          ),
        ),
      ),
    );
    expect(finding(compared)).toBe(
      '‘Plain throttle’ is behind ‘Brake and throttle’; between ‘Brake and throttle’ and ‘Sport setting’ it is too close to call',
    );
    expect(comparisonNotes(compared, 'en-GB').join(' ')).toContain('3 pairs were compared');
  });

  // Holm's own rule on four chances, worked by hand: 4 × 0.005, 3 × 0.011, 2 × 0.02, then never less than before.
  it('have their chances raised step by step', () => {
    const raised = holm([0.02, 0.005, 0.04, 0.011]);
    [0.04, 0.02, 0.04, 0.033].forEach((expected, i) => {
      expect(raised[i]).toBeCloseTo(expected, 12);
    });
    expect(holm([0.9, 0.8])).toEqual([1, 1]);
    expect(holm([])).toEqual([]);
  });
});

describe('the order of the day', () => {
  const words = (attempts: PlainAttempt[]): string =>
    orderInWords(compare(testOf(attempts)).pairs[0]!, 'en').join(' ');

  it('is told where one method came after the other', () => {
    expect(words([...of('plain', SLOW), ...of('brake', QUICK)])).toBe(
      'Every attempt of ‘Plain throttle’ came before those of ‘Brake and throttle’: heat, wind and whatever else changed with the hour may be part of their difference.',
    );
    expect(
      words([...of('plain', SLOW.slice(3)), ...of('brake', QUICK), ...of('plain', SLOW.slice(0, 3))]),
    ).toContain('took turns only 2 times');
  });

  it('is not mentioned where they took turns', () => {
    expect(words(inTurn(of('plain', SLOW), of('brake', QUICK)))).toBe('');
  });

  it('tells a direction that only one of them was driven in', () => {
    const one = of('plain', SLOW, { directionId: 'east' });
    const other = of('brake', QUICK, { directionId: 'west' });
    expect(words(inTurn(one, other))).toContain('did not share every direction');
  });
});

describe('directions', () => {
  it('are compared like launch methods', () => {
    const attempts = inTurn(
      of('plain', SLOW, { directionId: 'west' }),
      of('plain', QUICK, { directionId: 'east' }),
    );
    const compared = compareDirections(testOf(attempts), house, { ...asked, among: { launch: 'plain' } });
    expect(compared.pairs[0]).toMatchObject({ verdict: 'apart', won: 49 });
    expect(compared.pairs[0]!.ahead.name).toBe('eastbound');
    expect(compared.pairs[0]!.unlike).toEqual([]);
    const mixed = compareDirections(
      testOf([...attempts, ...of('brake', SLOW, { directionId: 'west' })]),
      house,
      asked,
    );
    expect(mixed.pairs[0]!.unlike).toEqual(['launch method']);
  });
});

describe('properties of the comparison', () => {
  const times = fc.array(fc.double({ min: 5, max: 8, noNaN: true }), { minLength: 1, maxLength: 8 });
  const day = fc.tuple(times, times, times);
  const attemptsOf = ([a, b, c]: readonly [number[], number[], number[]]): PlainAttempt[] =>
    inTurn(of('plain', a), of('brake', b), of('sport', c));
  const verdicts = ({ pairs }: MethodsCompared) =>
    pairs.map(({ ahead, behind, verdict }) => [[ahead.id, behind.id].sort().join(), verdict].join()).sort();

  it('does not mind the order in which attempts are listed', () => {
    fc.assert(
      fc.property(day, fc.infiniteStream(fc.integer({ min: 0, max: 1e6 })), (lists, keys) => {
        const test = testOf(attemptsOf(lists));
        const shuffled = [...test.attempts]
          .map(attempt => ({ attempt, key: keys.next().value as number }))
          .sort((x, y) => x.key - y.key)
          .map(({ attempt }) => attempt);
        expect(compare({ ...test, attempts: shuffled })).toEqual(compare(test));
      }),
    );
  });

  it('never ranks samples that are identical', () => {
    fc.assert(
      fc.property(times, list => {
        const { pairs } = compare(testOf(inTurn(of('plain', list), of('brake', list), of('sport', list))));
        for (const { verdict, difference } of pairs) {
          expect(verdict).not.toBe('apart');
          expect(difference).toBe(0);
        }
      }),
    );
  });

  it('moves every figure with a constant and changes no verdict', () => {
    fc.assert(
      fc.property(day, fc.integer({ min: -2, max: 6 }), (lists, by) => {
        const one = compare(testOf(attemptsOf(lists)));
        const other = compare(
          testOf(attemptsOf(lists.map(list => list.map(time => time + by)) as unknown as typeof lists)),
        );
        expect(verdicts(other)).toEqual(verdicts(one));
        one.methods.forEach(({ figures }, i) => {
          expect(other.methods[i]!.figures.median.value).toBeCloseTo(figures.median.value + by, 9);
        });
        one.pairs.forEach(({ difference }, i) => {
          expect(other.pairs[i]!.difference).toBeCloseTo(difference, 9);
        });
      }),
    );
  });

  it('ranks only with an interval that leaves out nothing and a chance below the level', () => {
    fc.assert(
      fc.property(day, lists => {
        for (const { verdict, low, high, adjustedP, difference } of compare(testOf(attemptsOf(lists)))
          .pairs) {
          if (low !== undefined) {
            expect(low).toBeLessThanOrEqual(difference);
            expect(high).toBeGreaterThanOrEqual(difference);
          }
          if (verdict !== 'apart') continue;
          expect(low).toBeGreaterThan(0);
          expect(adjustedP).toBeLessThanOrEqual(0.05);
        }
      }),
    );
  });

  it('ranks methods that do not differ on fewer than one day in twenty', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), seed => {
        let state = seed;
        const draw = (): number => {
          state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
          return 6 + state / 2 ** 32;
        };
        const list = (): number[] => Array.from({ length: 6 }, draw);
        const days = 300;
        let wrong = 0;
        for (let i = 0; i < days; i++) {
          const attempts = inTurn(of('plain', list()), of('brake', list()), of('sport', list()));
          if (compare(testOf(attempts)).pairs.some(({ verdict }) => verdict === 'apart')) wrong += 1;
        }
        // 0.05 and four standard deviations of 300 draws.
        expect(wrong / days).toBeLessThan(0.05 + 4 * Math.sqrt((0.05 * 0.95) / days));
      }),
      { numRuns: 3 },
    );
  });
});
