import { describe, expect, it } from 'vitest';
import type { MadeFigure } from '../../pipeline/figure/figure.ts';
import { methodsCompared } from '../../pipeline/figure/methods-compared.ts';
import { testAgainstTest } from '../../pipeline/figure/test-against-test.ts';
import { compareLaunchMethods } from '../../pipeline/result/methods-compared.ts';
import type { TestResult } from '../../pipeline/result/result.ts';
import { compareTests } from '../../pipeline/result/tests-compared.ts';
import { FIXTURE_PLAN, houseFixture, testFixture } from '../result/fixture.ts';

const house = houseFixture();
const choice = { startRule: 'first-movement' } as const;
const asked = { measure: '0-100-kmh', startRule: 'first-movement' } as const;

/** Each launch method six times, in turn, a little different every time. */
const long = (lagsS: readonly number[]): TestResult =>
  testFixture({
    ...FIXTURE_PLAN,
    attempts: Array.from({ length: 6 * lagsS.length }, (_none, i) => {
      const method = i % lagsS.length;
      const { setAside: _, ...like } = FIXTURE_PLAN.attempts[[0, 3, 7][method]!]!;
      const lagS = lagsS[method]! + 0.02 * (Math.floor(i / lagsS.length) - 2.5);
      return { ...like, directionId: 'east', topKmh: 110, launch: { ...like.launch, lagS, onsetS: 0.3 } };
    }),
  });
const made = (figure: ReturnType<typeof methodsCompared.make>): MadeFigure => {
  if ('reason' in figure) throw new Error(figure.reason);
  return figure;
};
interface Drawn {
  readonly x: number;
  readonly x2?: number;
  readonly y: number;
  readonly text?: string;
}
/** Everything drawn by marks of one type, layer by layer, back to front. */
const drawnBy = (figure: MadeFigure, type: string): readonly (readonly Drawn[])[] =>
  (
    figure.spec.wide as unknown as {
      layer: readonly { mark?: { type: string }; data?: { values: readonly Drawn[] } }[];
    }
  ).layer.flatMap(({ mark, data }) => (mark?.type === type && data !== undefined ? [data.values] : []));

describe('launch methods drawn against the quickest', () => {
  const test = long([9.2, 8.7]);
  const compared = compareLaunchMethods(test, house, asked);
  const figure = made(methodsCompared.make(test, house, choice));

  it('draw every kept attempt once, at its time', () => {
    const [dots] = drawnBy(figure, 'point');
    const times = compared.methods.flatMap(({ attempts }) => attempts.map(({ value }) => value));
    expect(dots!.map(({ x }) => x).sort()).toEqual(times.map(time => Math.round(time * 1e4) / 1e4).sort());
  });

  it('shade between what the other median lies, seen from the quickest', () => {
    const [band] = drawnBy(figure, 'rect').flat();
    const { low, high } = compared.pairs[0]!;
    const quickest = compared.methods[0]!.figures.median.value;
    expect(band!.x).toBeCloseTo(quickest + low!, 3);
    expect(band!.x2).toBeCloseTo(quickest + high!, 3);
    expect(band!.x).toBeGreaterThan(quickest);
  });

  it('say in title, alternative text and table what the verdict says', () => {
    expect(figure.title).toMatch(/^‘Brake and throttle’ is quicker by 0\.\d+\u00a0s than ‘Plain throttle’/);
    expect(figure.altText).toContain('ahead in 36 of 36 pairings');
    expect(figure.table.rows[1]!.at(-1)!.text).toBe('‘Brake and throttle’ is ahead');
  });

  it('rank nothing where the shading meets the quickest median', () => {
    const close = long([8.72, 8.7]);
    const same = made(methodsCompared.make(close, house, choice));
    const [pair] = compareLaunchMethods(close, house, asked).pairs;
    expect(pair!.low).toBeLessThan(0);
    expect(same.title).toContain('too close to call');
    expect(same.title).not.toMatch(/quicker|ahead|behind/);
  });

  it('need two launch methods', () => {
    expect(methodsCompared.make(long([8.7]), house, choice)).toEqual({
      reason: 'Fewer than two launch methods have a kept attempt.',
    });
  });
});

describe('a test drawn among others', () => {
  const test = long([8.7]);
  const otherCar = (id: string, lagS: number, surface: 'dry' | 'wet' = 'dry'): TestResult => {
    const day = long([lagS]);
    return {
      ...day,
      id,
      car: { ...day.car, id, short_name: id },
      attempts: day.attempts.map(one => ({ ...one, conditions: { ...one.conditions, surface } })),
    };
  };

  it('names who is ahead, behind, too close and not to be ranked, each as its verdict says', () => {
    const others = [
      otherCar('Slow', 12),
      otherCar('Quick', 6),
      otherCar('Like', 8.71),
      otherCar('Wet', 12, 'wet'),
    ];
    const figure = made(testAgainstTest.make(test, house, choice, others));
    expect(figure.title.replaceAll('\u00a0', ' ')).toBe(
      'Sorrel 52: ahead of Slow; behind Quick; too close to call with Like; not ranked against Wet',
    );
    const texts = drawnBy(figure, 'text').flat();
    expect(texts.some(({ text }) => text?.includes('not alike: surface'))).toBe(true);
    expect(texts.some(({ text }) => /behind$/.test(text ?? ''))).toBe(true);
  });

  it('draws medians with the uncertainties that the comparison uses', () => {
    const other = otherCar('Slow', 12);
    const figure = made(testAgainstTest.make(test, house, choice, [other]));
    const { first, second } = compareTests([test, other], house, asked)!;
    const bars = drawnBy(figure, 'rule').flat();
    for (const { figures } of [first, second]) {
      const { value, uncertainty } = figures.median;
      const bar = bars.find(({ x }) => Math.abs(x - (value - uncertainty!)) < 1e-3);
      expect(bar?.x2).toBeCloseTo(value + uncertainty!, 3);
    }
    expect(figure.title.replaceAll('\u00a0', ' ')).toMatch(/^Sorrel 52 is quicker by \d\.\d+ s ± 0\.\d+ s$/);
  });

  it('is not drawn without another test that reached the figure', () => {
    expect(testAgainstTest.make(test, house, choice)).toEqual({
      reason: 'No other test reached 0–100 km/h.',
    });
    expect(testAgainstTest.make(test, house, choice, [{ ...test, attempts: [] }])).toHaveProperty('reason');
  });
});
