/** What people write: YAML and articles, held to their checks without a crash. */
import { type ArticleInput, articleToHtml } from '../../pipeline/article/article.ts';
import { contentFilesToContent } from '../../pipeline/content/content.ts';
import { problemToLine } from '../../pipeline/problem.ts';
import { CAR, contentFiles, HOUSE, ROAD, TEST } from '../content/valid.ts';
import { houseFixture, testFixture } from '../result/fixture.ts';
import { type FuzzTarget, must, mustBeReadable } from './target.ts';

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
const PATHS = [
  'content/house.yaml',
  'content/cars/wren.yaml',
  'content/roads/tarn.yaml',
  'content/tests/wren-dry/test.yaml',
];

/** The file whose first word it still has, or the test. */
const pathOf = (text: string): string =>
  text.startsWith('name: The L')
    ? PATHS[0]!
    : text.startsWith('name: A')
      ? PATHS[1]!
      : text.startsWith('name: T')
        ? PATHS[2]!
        : PATHS[3]!;

export const CONTENT: FuzzTarget = {
  name: 'content',
  seeds: [HOUSE, CAR, ROAD, TEST].map(encode),
  tokens: [
    '&a',
    '*a',
    '<<: *a',
    '!!binary',
    '!!js/function',
    '? ',
    '- ',
    '[',
    ']',
    '{',
    '}',
    '|',
    '>-',
    '---',
    '...',
    '%YAML 1.2',
    '# ',
    'attempts:',
    'set_aside:',
    'launch:',
    'at:',
    '"10:00"',
    'corrections:',
    'date:',
    'look:',
    '~',
    '010',
    '1_000',
    '.inf',
    '.nan',
  ],
  run: bytes => {
    const path = pathOf(new TextDecoder().decode(bytes.subarray(0, 20)));
    const files = contentFiles({ [path]: bytes });
    const { problems } = contentFilesToContent(files);
    for (const problem of problems) {
      mustBeReadable(problemToLine(problem));
      const { line, column } = problem.where ?? {};
      must((line ?? 1) >= 1 && (column ?? 1) >= 1, `no place: ${problemToLine(problem)}`);
    }
    return `${path} ${[...new Set(problems.map(({ id }) => id))].sort().join(' ')}`;
  },
};

const ARTICLE_TEXT = `# Heading

It needs :number{of=0-100-kmh} to 100 km/h, and :number{of=0-100-kmh start=one-foot-rollout} after the rollout,
:difference{of=0-100-kmh launch="brake idle"} apart; :count{of=kept} of :count{of=attempts} kept at
:condition{of=temperature}. See [the maker](https://maker.example) and ![x](y.png), 16:9, 10:30am.

::figure{show=speed-over-time attempts="best median"}

::table{show=splits}

| a | b |
|---|---|
| 1 | :number{of=0-60-mph take=median} |
`;
const day = testFixture();
const house = houseFixture();
const input = (articleMarkdown: string): ArticleInput => {
  const test = { ...day, articleMarkdown, articleFile: 'content/tests/day/article.md' };
  return {
    test,
    house,
    publication: { house, cars: [], roads: [], tests: [test], methodologyMarkdown: '', problems: [] },
    figureKinds: ['speed-over-time', 'braking'],
    tableKinds: ['splits', 'spec'],
    figureHtml: use => `<figure data-name="${use.name}"></figure>`,
    tableHtml: kind => `<table id="${kind}"></table>`,
  };
};

export const ARTICLES: FuzzTarget = {
  name: 'articles',
  seeds: [encode(ARTICLE_TEXT)],
  tokens: [
    ':number{of=',
    '}',
    '{',
    '::figure{show=',
    '::table{',
    ':::note',
    'take=best',
    'launch=',
    'attempt=a01',
    'test=',
    '<img src=x onerror=y>',
    '<!--',
    '](javascript:x)',
    '[',
    '](',
    '**',
    '_',
    '``',
    '~~~',
    '> ',
    '- [ ] ',
    '\\',
    '[^1]',
    '\n\n',
    '  \n',
    '|',
    'start=',
  ],
  run: bytes => {
    const { html, problems } = articleToHtml(input(new TextDecoder().decode(bytes)));
    for (const problem of problems) mustBeReadable(problemToLine(problem));
    must(!/<script|<img[^>]*\sonerror|href="javascript:/i.test(html), 'markup of a stranger in the page');
    return [...new Set(problems.map(({ id }) => id))].sort().join(' ');
  },
};
