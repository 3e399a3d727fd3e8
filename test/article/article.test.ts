import { describe, expect, it } from 'vitest';
import { type ArticleInput, articleToHtml } from '../../pipeline/article/article.ts';
import { articleFigures } from '../../pipeline/article/figures-used.ts';
import { notesHtml } from '../../pipeline/article/number-notes.ts';
import { mayLink } from '../../pipeline/article/plain-markdown.ts';
import { problemToLine } from '../../pipeline/problem.ts';
import { measureIds } from '../../pipeline/result/measures.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { TestResult } from '../../pipeline/result/result.ts';
import { printResult } from '../../pipeline/result/words.ts';
import { FIXTURE_PLAN, houseFixture, testFixture } from '../result/fixture.ts';

const house = houseFixture();
const day = testFixture();
/** The same day with a car that is slower by an amount no uncertainty covers. */
const slower: TestResult = {
  ...testFixture({
    ...FIXTURE_PLAN,
    attempts: FIXTURE_PLAN.attempts.map(planned => ({
      ...planned,
      launch: { ...planned.launch, lagS: planned.launch.lagS * 2 },
    })),
  }),
  id: 'slower-day',
};

function input(markdown: string, more: Partial<ArticleInput> = {}): ArticleInput {
  const test = { ...day, articleMarkdown: markdown, articleFile: 'content/tests/day/article.md' };
  return {
    test,
    house,
    publication: {
      house,
      cars: [],
      roads: [],
      tests: [test, slower],
      methodologyMarkdown: '',
      problems: [],
    },
    figureKinds: ['speed-over-time', 'braking'],
    tableKinds: ['splits', 'spec'],
    figureHtml: use => `<figure data-name="${use.name}"></figure>`,
    tableHtml: kind => `<table id="${kind}"></table>`,
    ...more,
  };
}
const article = (markdown: string, more: Partial<ArticleInput> = {}) => articleToHtml(input(markdown, more));
const lines = (markdown: string) => article(markdown).problems.map(problemToLine);

describe('a number in prose', () => {
  it.each(measureIds)('%s is what pickResult picks, printed as printResult prints it', measure => {
    for (const statistic of ['best', 'median'] as const) {
      for (const startRule of ['first-movement', 'one-foot-rollout'] as const) {
        const { html, numbers, problems } = article(
          `It took :number{of=${measure} take=${statistic} start=${startRule}}.`,
        );
        const result = pickResult(day, house, { measure, statistic, startRule });
        if (result === undefined) {
          expect(problems.map(({ id }) => id)).toEqual(['article.nothing-measured']);
          continue;
        }
        expect(problems).toEqual([]);
        expect(numbers[0]?.results).toEqual([result]);
        expect(html).toContain(`<span class="value">${printResult(result, house).text}</span>`);
      }
    }
  });

  it('can be narrowed to a launch method, a direction, an attempt, and taken from another test', () => {
    const { numbers, problems } = article(
      [
        ':number{of=0-100-kmh launch=brake}',
        ':number{of=0-100-kmh direction=west}',
        ':number{of=0-100-kmh attempt=a03}',
        ':number{of=0-100-kmh test=slower-day}',
      ].join(' '),
    );
    const measure = '0-100-kmh';
    expect(problems).toEqual([]);
    expect(numbers.map(({ results }) => results[0])).toEqual([
      pickResult(day, house, { measure, launch: 'brake' }),
      pickResult(day, house, { measure, direction: 'west' }),
      pickResult(day, house, { measure, attempt: 'a03' }),
      pickResult(slower, house, { measure }),
    ]);
    expect(numbers[3]?.told[0]).toBe('From the test of 12 May 2026, “A day in the fixture”.');
  });

  it('links to a note that says rule, count, median, uncertainty, what was set aside, and the air', () => {
    const { html, numbers } = article('It took :number{of=0-100-kmh launch=brake}.');
    const printed = printResult(pickResult(day, house, { measure: '0-100-kmh', launch: 'brake' })!, house);
    const note = notesHtml(numbers, 'en-GB');
    expect(html).toContain('href="#number-1"');
    expect(note).toContain('id="number-1"');
    for (const said of [
      printed.rule!,
      printed.uncertainty!,
      'best of 3',
      'median',
      '1 set aside',
      'Temperature 14\u00a0°C',
      'surface dry',
    ]) {
      expect(note).toContain(said);
    }
  });

  it('asked twice has one note with two ways back', () => {
    const { html, numbers } = article(
      ':number{of=0-100-kmh} and :number{of=0-60-mph}, again :number{of=0-100-kmh}',
    );
    expect(numbers.map(({ number, times }) => [number, times])).toEqual([
      [1, 2],
      [2, 1],
    ]);
    expect(html.match(/id="said-[^"]*"/g)).toEqual(['id="said-1"', 'id="said-2"', 'id="said-1-2"']);
    expect(notesHtml(numbers, 'en-GB')).toContain('href="#said-1-2"');
  });
});

describe('a difference', () => {
  it('of two launch methods tried three times and twice is not to be told', () => {
    const { html, numbers } = article('They are :difference{of=0-100-kmh launch="brake sport"}.');
    expect(html).toContain('<span class="value">not to be told from 3 attempts against 2</span>');
    expect(numbers[0]?.results.map(({ statistic }) => statistic)).toEqual(['median', 'median']);
    expect(numbers[0]?.told[0]).toContain('Too few to tell between ‘Brake and throttle’ and ‘Sport setting’');
  });

  it('of two tests that clearly differ is the difference of their medians', () => {
    const { html, numbers } = article(':difference{of=0-100-kmh tests="fixture-day slower-day"} apart');
    const [a, b] = [day, slower].map(
      test => pickResult(test, house, { measure: '0-100-kmh', statistic: 'median' })!.value,
    );
    const shown = Number(/class="value">([\d.]+)/.exec(html)?.[1]);
    // Printed to the place of its uncertainty, here whole seconds to hundredths.
    expect(Math.abs(shown - Math.abs(a! - b!))).toBeLessThan(0.5);
    expect(numbers[0]?.results.map(({ value }) => value)).toEqual([a, b]);
  });

  it('of two tests of one car names them by their days', () => {
    const wet = { ...slower, content: { ...slower.content, date: '2026-10-06' } };
    const given = input(':difference{of=0-100-kmh tests="fixture-day slower-day"}');
    const { numbers } = articleToHtml({
      ...given,
      publication: { ...given.publication, tests: [given.test, wet] },
    });
    expect(numbers[0]?.told[0]).toMatch(/^Sorrel 52 on 12 May 2026 is quicker/);
    expect(numbers[0]?.told.join(' ')).toContain(
      'Sorrel 52 on 6 October 2026: From the test of 6 October 2026',
    );
  });

  it('of bests of more and of fewer attempts tells what the one of more would be of three', () => {
    const { numbers } = article(':difference{of=0-100-kmh directions="east west" take=best}');
    const [east, west] = ['east', 'west'].map(
      direction => pickResult(day, house, { measure: '0-100-kmh', direction })!.n,
    );
    expect(east).toBeGreaterThan(3);
    expect(west).toBeLessThan(east!);
    const told = numbers[0]!.told.join(' ');
    expect(told).toContain(`A best of ${east} stands against a best of ${west}`);
    expect(told).toContain(`eastbound: Of any 3 of these ${east} attempts the best would be`);
  });

  it('of two directions works, and of anything but two is told', () => {
    expect(lines(':difference{of=0-100-kmh directions="east west"}')).toEqual([]);
    expect(lines(':difference{of=0-100-kmh launch=brake}')[0]).toContain('[article.not-two]');
    expect(lines(':difference{of=0-100-kmh launch="brake brake"}')[0]).toContain('[article.not-two]');
    expect(lines(':difference{of=0-100-kmh launch="brake sport" directions="east west"}')[0]).toContain(
      '[article.not-two]',
    );
  });
});

describe('counts and conditions', () => {
  it('count the day: ten attempts, nine kept, one set aside', () => {
    const { html } = article(
      ':count{of=attempts}, :count{of=kept}, :count{of=set-aside}, :count{of=kept launch=brake}',
    );
    expect([...html.matchAll(/class="value">(\d+)/g)].map(match => match[1])).toEqual(['10', '9', '1', '3']);
  });

  it('give one value where the day had one, and from the least to the most where it had several', () => {
    const { html } = article(':condition{of=temperature}; :condition{of=headwind}; :condition{of=surface}');
    expect([...html.matchAll(/class="value">([^<]+)/g)].map(match => match[1])).toEqual([
      '14\u00a0°C',
      '−1.6 to 1.6\u00a0m/s',
      'dry',
    ]);
    const warmer = day.attempts.map((attempt, index) => ({
      ...attempt,
      conditions: { ...attempt.conditions, temperatureK: 290.15 + index / 4.5 },
    }));
    const spread = { ...day, attempts: warmer, articleMarkdown: ':condition{of=temperature}' };
    expect(articleToHtml({ ...input(''), test: spread }).html).toContain('17–19\u00a0°C');
  });
});

describe('figures and tables', () => {
  it('are known without rendering, numbered in order, with file names of their own', () => {
    const markdown =
      '::figure{show=speed-over-time}\n\n::figure{show=speed-over-time attempts="best a03"}\n\n::figure{show=braking start=one-foot-rollout}\n\n::figure{show=speed-over-time}';
    expect(
      articleFigures(markdown, house).map(({ number, name, choice }) => [
        number,
        name,
        choice.startRule,
        choice.attempts,
      ]),
    ).toEqual([
      [1, 'speed-over-time', 'first-movement', undefined],
      [2, 'speed-over-time-2', 'first-movement', ['best', 'a03']],
      [3, 'braking', 'one-foot-rollout', undefined],
      [4, 'speed-over-time', 'first-movement', undefined],
    ]);
    expect(article(markdown).figures).toEqual(articleFigures(markdown, house));
  });

  it('stand where they were asked for', () => {
    const { html } = article('Before.\n\n::figure{show=braking}\n\nBetween.\n\n::table{show=splits}');
    expect(html).toBe(
      '<p>Before.</p>\n<figure data-name="braking"></figure>\n<p>Between.</p>\n<table id="splits"></table>',
    );
  });

  it('that cannot be drawn are told with the reason', () => {
    const { problems } = article('::figure{show=braking}', {
      figureHtml: () => ({ reason: 'no stop was measured' }),
    });
    expect(problems.map(problemToLine)[0]).toContain('no stop was measured');
  });
});

describe('faults', () => {
  it('are told with file, line, column and the nearest word', () => {
    expect(lines('A 16:9 picture and\n:number{of=0-100-kph} here')).toMatchInlineSnapshot(`
      [
        "content/tests/day/article.md:2:1 of: error: '0-100-kph' is no measure (expected one of 40 words, such as 0-100-kmh, found '0-100-kph'). Did you mean '0-100-kmh'? Write one of the words that exist. [article.unknown-word]",
      ]
    `);
    expect(lines(':number{of=0-100-kmh launch=brakes}')).toMatchInlineSnapshot(`
      [
        "content/tests/day/article.md:1:1 launch: error: 'brakes' is no launch method (expected one of plain, brake, sport, found 'brakes'). Did you mean 'brake'? Write one of the words that exist. [article.unknown-word]",
      ]
    `);
    expect(lines('Top\n\n:number{of=0-200-kmh}')).toMatchInlineSnapshot(`
      [
        "content/tests/day/article.md:3:1: error: no kept attempt reached 0–200 km/h. Take the number out, or ask for one that was reached: 0-30-kmh, 0-50-kmh, 0-60-kmh, 0-80-kmh, 0-100-kmh, 0-120-kmh, 0-130-kmh, 0-60-mph, 0-60-ft, 0-100-m, 0-201-m. [article.nothing-measured]",
      ]
    `);
    expect(
      lines('::figure{show=breaking}\n\n:figure{show=braking} and\n\n::number{of=0-100-kmh}'),
    ).toMatchInlineSnapshot(`
      [
        "content/tests/day/article.md:1:1 show: error: 'breaking' is no figure (expected one of speed-over-time, braking, found 'breaking'). Did you mean 'braking'? Write one of the words that exist. [article.unknown-word]",
        "content/tests/day/article.md:3:1: error: 'figure' needs a line of its own (expected '::figure{…}' with empty lines around it). Put it on a line of its own, with two colons and empty lines before and after. [article.not-in-place]",
        "content/tests/day/article.md:5:1: error: 'number' stands within a sentence, with one colon (expected ':number{…}'). Write it with one colon inside a sentence. [article.not-in-place]",
      ]
    `);
    expect(lines(':number{of=0-100-kmh lunch=brake} :number{take=best}')).toMatchInlineSnapshot(`
      [
        "content/tests/day/article.md:1:1 lunch: error: 'number' has no attribute 'lunch' (expected one of of, take, launch, direction, attempt, start, test). Did you mean 'launch'? Take 'lunch' out or correct its name. [article.unknown-attribute]",
        "content/tests/day/article.md:1:35: error: 'number' lacks 'of' (expected 'of='). Write it out, such as :number{of=0-100-kmh}. [article.missing-attribute]",
      ]
    `);
    expect(lines('a :nubmer{of=0-100-kmh} b')).toMatchInlineSnapshot(`
      [
        "content/tests/day/article.md:1:3: warning: ':nubmer{…}' is printed as it is written. Did you mean 'number'? If not, nothing needs doing. [article.nearly-ours]",
      ]
    `);
  });

  it('leave the directive as written where its number would stand', () => {
    expect(article('a :number{of=0-100-kph} b').html).toBe('<p>a :number{of=0-100-kph} b</p>');
  });

  it('of one directive are all told at once', () => {
    expect(article(':number{of=x launch=y start=z}').problems).toHaveLength(3);
  });
});

describe('what people write is never markup', () => {
  it('shows tags, drops comments', () => {
    const { html, problems } = article(
      'Hi <b onclick="x()">you</b> <!-- note -->\n\n<script>alert(1)</script>\n\n<!-- gone -->',
    );
    expect(html).not.toMatch(/<(script|b)\b/);
    expect(html).toContain('&#x3C;script>');
    expect(html).not.toContain('gone');
    expect(problems.map(({ id }) => id)).toEqual(Array(3).fill('article.markup-shown'));
  });

  it.each([
    'javascript:alert(1)',
    ' JaVaScRiPt:alert(1)',
    'data:text/html,x',
    'java\nscript:x',
    '//evil.example',
    'vbscript:x',
    'file:///etc',
  ])('does not link to %s', target => expect(mayLink(target)).toBe(false));

  it('links to pages, letters and places on this site', () => {
    const { html, problems } = article(
      '[a](https://a.example) [b](mailto:b@a.example) [c](../x/) [d](#text-e) [f](/methodology/) [g](javascript:x)',
      { address: path => `/base${path}` },
    );
    expect([...html.matchAll(/href="([^"]*)"/g)].map(match => match[1])).toEqual([
      'https://a.example',
      'mailto:b@a.example',
      '../x/',
      '#text-e',
      '/base/methodology/',
    ]);
    expect(problems.map(({ id }) => id)).toEqual(['article.link-not-taken']);
  });

  it('takes no address by reference that it would not take directly', () => {
    const { html, problems } = article('[a][x]\n\n[x]: javascript:alert(1)');
    expect(html).not.toContain('javascript');
    expect(problems).toHaveLength(1);
  });

  it('escapes launch names and attributes in notes', () => {
    const named = {
      ...house,
      launch_methods: house.launch_methods.map(method => ({ ...method, name: '<img src=x>' })),
    };
    const { numbers } = article(':number{of=0-100-kmh launch=brake}', { house: named });
    expect(notesHtml(numbers, 'en-GB')).toContain('&lt;img src=x&gt;');
    expect(notesHtml(numbers, 'en-GB')).not.toContain('<img');
  });
});

describe('headings', () => {
  it('come below the title, without gaps, with ids of their own', () => {
    expect(article('# One\n\n### Two & three\n\n# One').html).toBe(
      '<h2 id="text-one">One</h2>\n<h3 id="text-two-three">Two &#x26; three</h3>\n<h2 id="text-one-2">One</h2>',
    );
  });
});
