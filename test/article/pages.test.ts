import { describe, expect, it } from 'vitest';
import { carFacts, roadFacts, testSummary } from '../../pipeline/article/facts.ts';
import { figureToHtml } from '../../pipeline/article/figure-html.ts';
import { keyFigure, keyFigures, leadFigure } from '../../pipeline/article/key-figures.ts';
import { cautionOf, uncertainInWords } from '../../pipeline/article/page-words.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import { dateInWords, printResult } from '../../pipeline/result/words.ts';
import { scrollRegion, tableToHtml } from '../../pipeline/table/html.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';

const house = houseFixture();
const day = testFixture();

describe('key figures', () => {
  it('are given under both start rules, as picked and printed', () => {
    for (const figure of keyFigures(day, house)) {
      for (const startRule of ['first-movement', 'one-foot-rollout'] as const) {
        const result = pickResult(day, house, { measure: figure.measure, startRule })!;
        if (result.startRule === undefined) expect(figure.byRule).toBeUndefined();
        else expect(figure.byRule?.[startRule]).toEqual(printResult(result, house));
      }
      expect(figure.n).toBe(figure.results[0]?.n);
    }
    expect(keyFigures(day, house).map(({ measure }) => measure)).toContain('0-100-kmh');
  });

  it('lead with the first that was reached, and with none where nothing was', () => {
    expect(leadFigure(day, house)?.measure).toBe('0-100-kmh');
    const slow = { ...day, attempts: day.attempts.filter(({ number }) => number === 10) };
    expect(leadFigure(slow, house)?.measure).toBe('0-60-kmh');
    expect(leadFigure({ ...day, attempts: [] }, house)).toBeUndefined();
    expect(keyFigures({ ...day, attempts: [] }, house)).toEqual([]);
    expect(keyFigure(day, house, '0-200-kmh')).toBeUndefined();
  });
});

describe('facts', () => {
  it('name a maker’s claim as a claim', () => {
    const car = { ...day.car, maker_claims: { zero_to_100_kmh_s: 7.4, top_speed_kmh: 165 } };
    const claims = carFacts(car, 'en-GB').filter(({ text }) => /^(7\.4|165)\u00a0/.test(text));
    expect(claims.map(({ label }) => label)).toEqual([
      'Maker’s claim, 0–100 km/h',
      'Maker’s claim, top speed',
    ]);
  });

  it('say which way a road rises or falls', () => {
    const slope = (slope_pct: number) =>
      roadFacts({ ...day.road, slope_pct }, 'en-GB').find(({ label }) => label === 'Slope')?.text;
    expect(slope(0.16)).toBe('mean rise of 0.16\u00a0% eastbound');
    expect(slope(-0.3)).toBe('mean fall of 0.30\u00a0% eastbound');
  });

  it('say that a condition was not read, and never leave it empty', () => {
    const unread = day.attempts.map(attempt => ({ ...attempt, conditions: { readAt: '09:50' } }));
    const { surface, temperature, headwind } = testSummary({ ...day, attempts: unread }, house);
    expect([surface, temperature, headwind]).toEqual(['not read', 'not read', 'not read']);
  });

  it('write dates in the house’s language and keep the day whatever the zone', () => {
    expect(dateInWords('2026-05-12', 'en-GB')).toBe('12 May 2026');
    expect(dateInWords('2026-01-01', 'de')).toBe('1. Januar 2026');
  });

  it('tell a reader what was uncertain and where, not how the tester could mend it', () => {
    const problem = {
      id: 'x',
      severity: 'warning',
      what: 'no reading for 2.2 s',
      mend: 'Look at it.',
    } as const;
    const where = { file: 'content/tests/day/logs/part-1.nmea', line: 8652 };
    expect(uncertainInWords({ ...problem, where }, 'en-GB')).toBe(
      'No reading for 2.2 s. (logs/part-1.nmea, line 8652)',
    );
    expect(uncertainInWords({ ...problem, where: { file: 'content/tests/day/test.yaml' } }, 'en-GB')).toBe(
      'No reading for 2.2 s. (test.yaml)',
    );
    expect(uncertainInWords(problem, 'en-GB')).toBe('No reading for 2.2 s.');
  });

  it('put the house’s caution after the standing one', () => {
    expect(cautionOf(house)).toContain('Local law and licensed practice come first.');
    expect(cautionOf({ ...house, caution: 'Ask the owner.' })).toMatch(/Ask the owner\.$/);
  });
});

describe('HTML of figures and tables', () => {
  it('states the size of both pictures, and escapes what people wrote', () => {
    const picture = (address: string, widthPx: number) => ({ address, widthPx, heightPx: 400 });
    const html = figureToHtml(
      {
        number: 2,
        caption: 'A & B <i>',
        altText: 'He said "go"',
        files: { narrow: picture('/n.svg', 360), wide: picture('/w.svg', 760) },
        tableHtml: '<table></table>',
      },
      'en-GB',
    );
    expect(html).toContain('<source media="(max-width: 640px)" srcset="/n.svg" width="360" height="400">');
    expect(html).toContain('<img src="/w.svg" width="760" height="400" alt="He said &quot;go&quot;"');
    expect(html).toContain('A &amp; B &lt;i&gt;');
  });

  it('keeps every cell of a table, and gives it a name to scroll by', () => {
    const table = tableToHtml(
      {
        id: 'x',
        caption: 'Two $1 rows',
        columns: [
          { label: 'What', align: 'start' },
          { label: '', align: 'end' },
        ],
        rows: [[{ text: 'a', header: true }, { text: '1' }]],
        notes: ['One $& note.'],
      },
      'en-GB',
    );
    const html = scrollRegion('Splits', table, 'en-GB');
    expect(html).toContain('role="region" aria-label="Splits, table"');
    expect(html).toContain('<caption><span>Two $1 rows</span></caption>');
    expect(html).toContain('<span>One $&amp; note.</span>');
    expect(html).not.toMatch(/<th[^>]*><\/th>/);
    expect(
      html
        .replace(/<[^>]+>/g, ' ')
        .trim()
        .split(/\s+/)
        .slice(-5)
        .join(' '),
    ).toBe('a 1 One $&amp; note.');
  });
});
