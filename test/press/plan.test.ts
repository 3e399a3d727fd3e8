import { beforeAll, describe, expect, it } from 'vitest';
import { planPublication } from '../../pipeline/press/press-test.ts';
import { resultsToCsv, resultsToJson } from '../../pipeline/press/results-data.ts';
import { problemToLine } from '../../pipeline/problem.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { Publication } from '../../pipeline/result/result.ts';
import { demoPublication } from '../demo.ts';

let publication: Publication;
beforeAll(async () => {
  publication = await demoPublication();
});

const withArticle = (text: string): Publication => ({
  ...publication,
  tests: publication.tests.slice(0, 1).map(test => ({ ...test, articleMarkdown: text })),
});

describe('planning the demo publication', () => {
  it('finds no fault in any article or the methodology', () => {
    expect(planPublication(publication).problems.map(problemToLine)).toEqual([]);
  });

  it('plans every kind of figure a test can fill, once, whether its article places it or not', () => {
    for (const { figures } of planPublication(publication).tests) {
      const names = figures.map(({ name }) => name);
      expect(new Set(names).size).toBe(names.length);
      expect(names).toContain('speed-over-time');
      expect(names).toContain('braking');
    }
  });

  it('tells where an article asks for a number that does not exist', () => {
    const { problems } = planPublication(withArticle('One\n\nIt needs :number{of=0-100-kmk}.'));
    expect(problems.map(({ id, where }) => [id, where?.line, where?.column])).toEqual([
      ['article.unknown-word', 3, 10],
    ]);
  });

  it('tells a fault in the methodology by its file', () => {
    const { problems } = planPublication({ ...publication, methodologyMarkdown: ':number{of=0-100-kmh}' });
    expect(problems.map(({ where }) => where?.file)).toEqual(['content/methodology.md']);
  });
});

describe('the results for other programs', () => {
  it('hold in JSON the unrounded best that the page rounds', () => {
    for (const test of publication.tests) {
      const best = pickResult(test, publication.house, {
        measure: '0-100-kmh',
        startRule: 'one-foot-rollout',
      });
      const { attempts } = JSON.parse(resultsToJson(test, publication)) as {
        attempts: {
          kept: boolean;
          figures: { measure: string; start_rule?: string; value_s?: number }[];
        }[];
      };
      const values = attempts
        .filter(({ kept }) => kept)
        .flatMap(({ figures }) => figures)
        .filter(({ measure, start_rule }) => measure === '0-100-kmh' && start_rule === 'one-foot-rollout')
        .map(({ value_s }) => value_s ?? Number.NaN);
      expect(Math.min(...values)).toBe(best?.value);
    }
  });

  it('give each restated time with its parts, which add up to what it differs by', () => {
    let compared = 0;
    for (const test of publication.tests) {
      interface Said {
        readonly measure: string;
        readonly start_rule?: string;
        readonly value_s: number;
      }
      const { attempts } = JSON.parse(resultsToJson(test, publication)) as {
        attempts: {
          figures: Said[];
          restated?: { figures: (Said & { changed_by_s: Record<string, number> })[] };
        }[];
      };
      for (const { figures, restated } of attempts) {
        for (const { measure, start_rule, value_s, changed_by_s } of restated?.figures ?? []) {
          const measured = figures.find(one => one.measure === measure && one.start_rule === start_rule)!;
          const parts = Object.values(changed_by_s).reduce((sum, part) => sum + part, 0);
          expect(value_s - measured.value_s).toBeCloseTo(parts, 9);
          compared += 1;
        }
      }
    }
    expect(compared).toBeGreaterThan(100);
  });

  it('have in CSV as many cells in each line as in the head', () => {
    for (const test of publication.tests) {
      const lines = resultsToCsv(test).trimEnd().split('\r\n');
      expect(new Set(lines.map(line => line.split(',').length)).size).toBe(1);
      expect(lines.length).toBeGreaterThan(test.attempts.length);
    }
  });
});
