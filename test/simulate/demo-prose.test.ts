import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { loadPublication } from '../../pipeline/pipeline.ts';
import { compareResults } from '../../pipeline/result/compare.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { Publication, Result, ResultQuery } from '../../pipeline/result/result.ts';

const contentDir = fileURLToPath(new URL('../../content/', import.meta.url));
let publication: Publication;
beforeAll(async () => {
  publication = await loadPublication(fileURLToPath(new URL('../..', import.meta.url)));
});

const result = (testId: string, query: ResultQuery): Result => {
  const test = publication.tests.find(({ id }) => id === testId);
  const found = test && pickResult(test, publication.house, query);
  if (!found) throw new Error(`${testId} has no ${query.measure}.`);
  return found;
};
const median = (testId: string, query: ResultQuery) => result(testId, { ...query, statistic: 'median' });
const to100 = (testId: string, query: Omit<ResultQuery, 'measure'> = {}) =>
  median(testId, { measure: '0-100-kmh', ...query });

/** What the articles say in words, which no directive fills in. */
describe('the words of the demo articles', () => {
  it('call two feet quicker than one by first movement, and not after one foot', () => {
    const held = { launch: 'brake-hold' };
    const free = { launch: 'from-rest' };
    const moved = compareResults(to100('quillet-sorrel-dry', held), to100('quillet-sorrel-dry', free));
    expect(moved.tooCloseToCall).toBe(false);
    expect(moved.difference).toBeLessThan(0);
    const startRule = 'one-foot-rollout';
    const rolled = compareResults(
      to100('quillet-sorrel-dry', { ...held, startRule }),
      to100('quillet-sorrel-dry', { ...free, startRule }),
    );
    expect(rolled.tooCloseToCall).toBe(true);
    expect(Math.abs(rolled.difference)).toBeLessThan(0.3 * Math.abs(moved.difference));
    const best = result('quillet-sorrel-dry', { measure: '0-100-kmh' });
    const of = publication.tests.find(({ id }) => id === 'quillet-sorrel-dry')!.attempts;
    expect(of.find(({ id }) => id === best.attemptIds[0])!.launchId).toBe('brake-hold');
  });

  it('rank westbound before eastbound, and the launch methods of the estate not at all', () => {
    const ways = compareResults(
      to100('marrowby-lantern-dry', { direction: 'east' }),
      to100('marrowby-lantern-dry', { direction: 'west' }),
    );
    expect(ways.tooCloseToCall).toBe(false);
    expect(ways.difference).toBeGreaterThan(0);
    for (const direction of ['east', 'west']) {
      const methods = compareResults(
        to100('marrowby-lantern-dry', { direction, launch: 'from-idle' }),
        to100('marrowby-lantern-dry', { direction, launch: 'brake-hold' }),
      );
      expect(methods.tooCloseToCall).toBe(true);
    }
    const rolling = result('marrowby-lantern-dry', { measure: '80-120-kmh' });
    const east = result('marrowby-lantern-dry', { measure: '80-120-kmh', direction: 'east' });
    expect(east.value).toBeGreaterThan(rolling.value);
  });

  it('leave the two ways with the clutch undecided, three runs against three', () => {
    const idle = to100('tolvane-barrow-dry', { launch: 'clutch-at-idle' });
    const slipped = to100('tolvane-barrow-dry', { launch: 'slipped-clutch' });
    expect([idle.n, slipped.n]).toEqual([3, 3]);
    expect(compareResults(idle, slipped).tooCloseToCall).toBe(true);
  });

  it('find the wet road slower, and its stops longer by more than a road train of 18.75 m', () => {
    const start = compareResults(to100('quillet-sorrel-wet'), to100('quillet-sorrel-dry'));
    expect(start.tooCloseToCall).toBe(false);
    expect(start.difference).toBeGreaterThan(0);
    const stop = { measure: 'stop-from-100-kmh' } as const;
    const longer = compareResults(median('quillet-sorrel-wet', stop), median('quillet-sorrel-dry', stop));
    expect(longer.difference - longer.uncertainty).toBeGreaterThan(18.75);
  });

  it('have a median of at least six kept runs of one method in one test, and two directions in another', () => {
    expect(to100('quillet-sorrel-dry', { launch: 'brake-hold' }).n).toBeGreaterThanOrEqual(6);
    expect(to100('quillet-sorrel-dry', { launch: 'from-rest' }).n).toBeGreaterThanOrEqual(6);
    const ways = publication.tests.find(({ id }) => id === 'marrowby-lantern-dry')!.attempts;
    expect(new Set(ways.map(({ directionId }) => directionId))).toEqual(new Set(['east', 'west']));
  });

  it('type no measured number by hand', () => {
    for (const id of readdirSync(`${contentDir}tests`)) {
      const article = readFileSync(`${contentDir}tests/${id}/article.md`, 'utf8');
      const prose = article.replace(/:{1,2}[a-z]+\{[^}]*\}/g, '');
      // Speeds that name a measure, such as 100 km/h, are not measured.
      expect(prose.match(/\d[\d.,]*\s?(s|m|m\/s|m\/s²|°C|hPa|%)(?![\w/])/g), id).toBeNull();
    }
  });

  it('keep the colons that are no directives', () => {
    const article = readFileSync(`${contentDir}tests/quillet-sorrel-dry/article.md`, 'utf8');
    for (const trap of ['16:9', '10:30am', '0-60:fast']) expect(article).toContain(trap);
  });
});
