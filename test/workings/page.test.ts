import { beforeAll, describe, expect, it } from 'vitest';
import { codeVersion } from '../../pipeline/code-version.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { Publication } from '../../pipeline/result/result.ts';
import { printResult } from '../../pipeline/result/words.ts';
import { workingsAddress, workingsOfResult } from '../../pipeline/result/workings-address.ts';
import type { Table } from '../../pipeline/table/table.ts';
import { type WorkingsPage, workingsPageOf } from '../../pipeline/workings/page.ts';
import type { Block } from '../../pipeline/workings/steps-in-words.ts';
import { workingsOf } from '../../pipeline/workings/workings.ts';
import { demoPublication } from '../demo.ts';

let publication: Publication;
const pages = new Map<string, WorkingsPage>();
beforeAll(async () => {
  publication = await demoPublication();
  for (const test of publication.tests)
    for (const attempt of test.attempts)
      pages.set(
        `${test.id} ${attempt.id}`,
        workingsPageOf(workingsOf(test, attempt), test, publication.house, '1.2.3'),
      );
});

const everyPart = (): readonly { readonly blocks: readonly Block[] }[] =>
  [...pages.values()].flatMap(({ sections }) => sections.flatMap(section => [section, ...section.parts]));
/** A printed number, its unit left aside. */
const numberIn = (text: string): number => Number(text.split('\u00a0')[0]!.replace('\u2212', '-'));

const textOf = (page: WorkingsPage, id: string): string =>
  page.sections
    .flatMap(({ parts }) => parts)
    .filter(part => part.id === id)
    .flatMap(({ blocks }) => blocks)
    .filter(block => typeof block === 'string')
    .join(' ');

describe('the plots of workings', () => {
  it('have numbers at every tick, those before the start with a minus sign', () => {
    const labels = [...pages.values()].flatMap(({ ends }) =>
      ends.flatMap(({ plotSvg }) =>
        [...plotSvg.matchAll(/text-anchor="middle">([^<]*)</g)].map(([, text]) => text!),
      ),
    );
    expect(labels.filter(text => !/^\u2212?\d+(\.\d+)?$/.test(text))).toEqual([]);
    expect(labels).toContain('\u22120.5');
  });
});

describe('the addresses of workings', () => {
  it('name the attempt by its page and the figure by its place', () => {
    expect(workingsAddress('t', 'a03', '0-100-kmh', 'one-foot-rollout')).toBe(
      '/tests/t/workings/a03/#0-100-kmh-one-foot-rollout',
    );
    expect(workingsAddress('t', 'a03', 'top-speed', 'one-foot-rollout')).toBe(
      '/tests/t/workings/a03/#top-speed',
    );
  });

  it('lead every best and median of the demo to a place where the same number is printed', () => {
    let found = 0;
    for (const test of publication.tests) {
      for (const measure of [
        '0-50-kmh',
        '0-100-kmh',
        '80-120-kmh',
        'stop-from-100-kmh',
        'top-speed',
      ] as const) {
        for (const startRule of ['first-movement', 'one-foot-rollout'] as const) {
          const best = pickResult(test, publication.house, { measure, startRule });
          if (best === undefined) continue;
          const median = pickResult(test, publication.house, { measure, startRule, statistic: 'median' })!;
          for (const { attemptId, address } of workingsOfResult(test.id, median))
            expect(textOf(pages.get(`${test.id} ${attemptId}`)!, address.split('#')[1]!)).toContain(
              'Printed: ',
            );
          const [{ attemptId, address } = { attemptId: '', address: '' }] = workingsOfResult(test.id, best);
          const { text, uncertainty } = printResult(best, publication.house);
          expect(textOf(pages.get(`${test.id} ${attemptId}`)!, address.split('#')[1]!)).toContain(
            `Printed: ${text} ${uncertainty}.`,
          );
          found++;
        }
      }
    }
    expect(found).toBeGreaterThan(15);
  });
});

describe('a page of workings', () => {
  it('holds the budget of each restated figure with an item for the road, and none beside a measured one', () => {
    let restated = 0;
    for (const page of pages.values()) {
      expect(page.facts.some(({ label }) => label === 'Road in the uncertainty')).toBe(true);
      for (const block of page.sections.flatMap(({ parts }) => parts).flatMap(({ blocks }) => blocks)) {
        if (typeof block === 'string') continue;
        const items = block.rows.map(([head]) => head!.text);
        if (block.id.startsWith('budget-')) expect(items.join()).not.toMatch(/slope/i);
        if (!block.id.startsWith('restated-')) continue;
        restated++;
        expect(items).toContain('Slope of the road along the run');
        expect(items).toContain('The measured time');
        // Items, root of their squares, twice that: as a reader adds them up, to the last digit printed.
        const values = block.rows.map(([, cell]) => Number.parseFloat(cell!.text));
        const [root = 0, expanded = 0] = values.slice(-2);
        expect(Math.hypot(...values.slice(0, -2))).toBeCloseTo(root, 3);
        expect(2 * root).toBeCloseTo(expanded, 3);
      }
    }
    expect(restated).toBeGreaterThan(300);
  });

  it('can be followed with a calculator: the straight line and the clock come out as the digits say', () => {
    let followed = 0;
    for (const page of pages.values()) {
      for (const text of page.sections
        .flatMap(({ blocks }) => blocks)
        .filter(block => typeof block === 'string')) {
        const line =
          /: ([\d.]+) s \+ \(([\d.]+) − ([\d.]+)\) ÷ \(([\d.]+) − ([\d.]+)\) × ([\d.]+) s = ([\d.]+) s\.$/.exec(
            text.replaceAll('\u00a0', ' '),
          );
        if (line === null) continue;
        const [t, v, v1, v2, v3, dt, at] = line.slice(1).map(Number) as [
          number,
          number,
          number,
          number,
          number,
          number,
          number,
        ];
        // Three decimals of a speed and four of a time, over the rise between the two readings.
        const rounded = (0.001 / Math.abs(v2 - v3)) * dt + 2e-4;
        expect(Math.abs(t + ((v - v1) / (v2 - v3)) * dt - at)).toBeLessThan(rounded);
        followed++;
      }
      for (const part of page.sections.flatMap(({ parts }) => parts)) {
        const clock = /Clock: ([\d.]+) s − ([\d.]+) s = ([\d.]+) s/.exec(
          textOf(page, part.id).replaceAll('\u00a0', ' '),
        );
        if (clock === null) continue;
        expect(Math.abs(Number(clock[1]) - Number(clock[2]) - Number(clock[3]))).toBeLessThan(1.6e-4);
        followed++;
      }
    }
    expect(followed).toBeGreaterThan(500);
  });

  it('passes a speed where the printed parabola does, to the last printed digit, with plain arithmetic', () => {
    let redone = 0;
    for (const { blocks } of everyPart()) {
      for (const [index, block] of blocks.entries()) {
        if (typeof block === 'string' || !/^The parabola around/.test(block.caption)) continue;
        const [t0, a, b, c] = block.rows.map(row => numberIn(row[2]!.text)) as [
          number,
          number,
          number,
          number,
        ];
        const said = (blocks[index + 1] as string).replaceAll('\u00a0', ' ');
        const [, speed, sign, printed] =
          /passes v = ([\d.]+) at t = .*÷ \(b ([+−]) root of .*; T \+ t = ([\d.]+) s\.$/.exec(said)!;
        const v = Number(speed);
        const root = Math.sqrt(b * b + 4 * c * (v - a));
        const t = (2 * (v - a)) / (sign === '+' ? b + root : b - root);
        // Half of the last printed digit, and what six decimals of the parameters leave open.
        expect(Math.abs(t0 + t - Number(printed)), said).toBeLessThan(0.5e-4 + 5e-6);
        redone++;
      }
    }
    expect(redone).toBeGreaterThan(200);
  });

  it('passes a speed where the printed brakes do, to the last printed digit, and tells how far the average is off', () => {
    let redone = 0;
    const inRise = new Set<boolean>();
    for (const { blocks } of everyPart()) {
      for (const [index, block] of blocks.entries()) {
        if (typeof block === 'string' || !/^The brakes as they come on/.test(block.caption)) continue;
        const [onset, r, a, b, d] = block.rows.map(row => numberIn(row[2]!.text)) as [
          number,
          number,
          number,
          number,
          number,
        ];
        const [passes, average] = [2, 3].map(on =>
          (blocks[index + on] as string).replaceAll('\u00a0', ' '),
        ) as [string, string];
        if (passes.startsWith('There the car is already slower')) continue;
        const [, speed, rising, printed] =
          /passes v = ([\d.]+) at x = (\(b \+ root of .*\) × r ÷ d|\(a − v \+ d r ÷ 2\) ÷ \(d − b\)) = .*; T \+ x = ([\d.]+) s\.$/.exec(
            passes,
          )!;
        const v = Number(speed);
        const whileRising = rising!.includes('root');
        const x = whileRising
          ? ((b + Math.sqrt(b * b + (2 * d * (a - v)) / r)) * r) / d
          : (a - v + (d * r) / 2) / (d - b);
        expect(x < r, passes).toBe(whileRising);
        // Half of the last printed digit, and what six decimals of the parameters leave open.
        expect(Math.abs(onset + x - Number(printed)), passes).toBeLessThan(0.5e-4 + 5e-6);
        const [, published, off] = /: ([\d.]+) s, ([+−±]?[\d.]+) s from this one/.exec(average)!;
        const offS = Number(off!.replace('−', '-').replace('±', ''));
        expect(Math.abs(Number(published) - Number(printed) - offS), average).toBeLessThan(1.6e-4);
        redone++;
        inRise.add(whileRising);
      }
    }
    expect(redone).toBeGreaterThan(5);
    expect(inRise.size).toBe(2);
  });

  it('is as high as the printed curve at its highest, and tells how far the average is off', () => {
    const shapes = new Set<string>();
    let redone = 0;
    for (const { blocks } of everyPart()) {
      for (const [index, block] of blocks.entries()) {
        if (typeof block === 'string' || !/^The curve around the highest/.test(block.caption)) continue;
        const [, a, b, c] = block.rows.map(row => numberIn(row[2]!.text)) as [number, number, number, number];
        const [formula, top, average] = [1, 2, 3].map(on =>
          (blocks[index + on] as string).replaceAll('\u00a0', ' '),
        ) as [string, string, string];
        const [, where, printed] = /: x = (-?[\d.]+) s, ([\d.]+) km\/h\.$/.exec(top.replace('−', '-'))!;
        const x = Number(where);
        const shape = /a \+ b x \+ c x²/.test(formula)
          ? 'parabola'
          : /c x²/.test(formula)
            ? 'brakes'
            : 'point';
        const before = a + b * x;
        const speed =
          shape === 'parabola'
            ? before + c * x * x
            : x < 0
              ? before
              : shape === 'brakes'
                ? a + c * x * x
                : a + c * x;
        expect(Math.abs(speed - Number(printed)), top).toBeLessThan(0.5e-3 + 1e-5);
        if (shape === 'parabola' && c < 0 && Math.abs(b / (2 * c)) < 0.04)
          expect(x, top).toBeCloseTo(-b / (2 * c), 5);
        const [, published, off] = /: ([\d.]+) km\/h, ([+−±]?[\d.]+) km\/h from this one/.exec(average)!;
        const apart = Number(off!.replace('−', '-').replace('±', ''));
        expect(Math.abs(Number(published) - Number(printed) - apart), average).toBeLessThan(1.6e-3);
        shapes.add(shape);
        redone++;
      }
    }
    expect(redone).toBeGreaterThan(20);
    expect(shapes.size).toBeGreaterThan(1);
  });

  it('tells no fit of a bend without its parameters', () => {
    for (const { blocks } of everyPart()) {
      for (const [index, block] of blocks.entries()) {
        if (typeof block !== 'string' || !block.includes('by a fit of the bend')) continue;
        expect((blocks[index + 1] as Table).caption).toMatch(/^The brakes as they come on/);
      }
    }
  });

  it('draws start and stop by a formula that gives the printed speed of the curve from the printed parameters', () => {
    const kinds = new Set<string>();
    for (const { ends } of pages.values()) {
      for (const { id, blocks, plotSvg } of ends) {
        const at = blocks.findIndex(
          block => typeof block !== 'string' && block.id === `fit-${id === 'start' ? 'start' : 'stop'}`,
        );
        const rows = (blocks[at] as Table).rows.map(row => [row[1]!.text, numberIn(row[2]!.text)] as const);
        const of = (symbol: string): number => new Map(rows).get(symbol) ?? 0;
        const said = (blocks[at + 2] as string).replaceAll('\u00a0', ' ');
        const [, which, where, printed] = /: ([us]) = (-?[\d.]+)(?: s)?, speed of the curve ([\d.]+) km/.exec(
          said,
        )!;
        const x = Number(where);
        const [a, tau] = [of('a'), of('r')];
        const k = ['f', 'g', 'h', 'j'].map(of);
        const rise = (u: number): number =>
          k.reduce((sum, share, n) => sum + (share * u ** (n + 1)) / (n + 1), 0);
        const mps =
          which === 'u'
            ? a * tau * rise(x)
            : a * (rise(1) * tau + x) + (of('b') * x ** 2) / 2 + (of('c') * x ** 3) / 6;
        expect(Math.abs(3.6 * mps + of('w') - Number(printed)), said).toBeLessThan(0.5e-3 + 1e-4);
        expect(plotSvg.match(/class="fitted" points="([^"]*)"/)?.[1]?.split(' ').length).toBeGreaterThan(20);
        kinds.add(`${id} ${which}`);
      }
    }
    expect([...kinds].map(kind => kind.split(' ')[0])).toEqual(expect.arrayContaining(['start', 'rest']));
  });

  it('tells the log, its hash, conditions, flags and the version of the code', () => {
    for (const { facts } of pages.values()) {
      const labels = facts.map(({ label }) => label);
      for (const label of ['Log', 'SHA-256 of the log', 'Conditions', 'Flags', 'Worked out by'])
        expect(labels).toContain(label);
      expect(facts.at(-1)?.text).toBe('Evenground 1.2.3');
    }
  });

  it('names the source of every rule it uses', () => {
    for (const { sections, rules } of pages.values()) {
      for (const { method } of sections) expect(rules.map(({ id }) => id)).toContain(method);
      for (const { source } of rules) expect(source).not.toBe('');
    }
  });

  it('uses every id once', () => {
    for (const { sections, rules, ends } of pages.values()) {
      const ids = [
        ...ends.map(({ id }) => id),
        ...sections.flatMap(({ id, parts }) => [`section-${id}`, ...parts.map(part => part.id)]),
        ...rules.map(({ id }) => `rule-${id}`),
      ];
      expect(new Set(ids).size).toBe(ids.length);
    }
  });

  it('names each table that scrolls by a caption of its own', () => {
    for (const { sections } of pages.values()) {
      const captions = sections
        .flatMap(({ blocks, parts }) => [...blocks, ...parts.flatMap(part => part.blocks)])
        .flatMap(block => (typeof block === 'string' || block.columns.length < 5 ? [] : [block.caption]));
      expect(new Set(captions).size).toBe(captions.length);
    }
  });

  it('shows what people wrote as text, never as markup', () => {
    const test = publication.tests[0]!;
    const attempt = { ...test.attempts[0]!, note: '<script>alert(1)</script>' };
    const page = workingsPageOf(workingsOf(test, attempt), test, publication.house, '1');
    expect(page.ends[0]?.plotSvg).toContain('<svg');
    expect(page.ends[0]?.plotSvg).not.toContain('<script');
    expect(page.facts.find(({ label }) => label === 'Noted')?.text).toBe(attempt.note);
  });
});

describe('the version of the code', () => {
  it('begins with the package’s version, and gives no commit where the folder is no checkout of its own', () => {
    expect(codeVersion(process.cwd())).toMatch(/^\d+\.\d+\.\d+/);
    expect(() => codeVersion('/nowhere')).toThrow();
  });
});
