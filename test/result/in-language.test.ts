import { describe, expect, it } from 'vitest';
import type { Translation } from '../../pipeline/content/translations.ts';
import {
  inLanguage,
  languageOfPart,
  languageOfRemark,
  languagePath,
  languagesOf,
} from '../../pipeline/result/in-language.ts';
import { pickResult } from '../../pipeline/result/pick.ts';
import type { Publication } from '../../pipeline/result/result.ts';
import { houseFixture, testFixture } from './fixture.ts';

const fixture = testFixture();
const noted = { ...fixture.content.attempts[0]!, note: 'Clean', set_aside: 'A hare' };
const main: Publication = {
  house: { ...houseFixture(), strapline: 'Slowly', caution: 'Ask first.', further_languages: ['de-DE'] },
  cars: [fixture.car],
  roads: [fixture.road],
  tests: [
    {
      ...fixture,
      content: { ...fixture.content, attempts: [noted, ...fixture.content.attempts.slice(1)] },
      attempts: fixture.attempts.map((attempt, i) =>
        i === 0 ? { ...attempt, note: 'Clean', setAside: 'A hare' } : attempt,
      ),
    },
  ],
  methodologyMarkdown: 'How',
  problems: [],
};
const words: Translation = {
  tag: 'de-DE',
  house: { strapline: 'Langsam', launch_methods: { plain: { name: 'Einfach Gas' } } },
  cars: new Map([[fixture.car.id, { kind: 'Kleinwagen' }]]),
  roads: new Map(),
  tests: new Map([[fixture.id, { title: 'Ein Tag', remarks: { 'A hare': 'Ein Hase' } }]]),
  articles: new Map([[fixture.id, { file: 'content/tests/x/article.de.md', markdown: 'Er fährt.' }]]),
};
const german = inLanguage({ ...main, translations: [words] }, 'de-DE');
const [test] = german.tests;

describe('a publication in its main language', () => {
  it('is itself, at the root of the site', () => {
    expect(inLanguage(main, 'en-GB')).toBe(main);
    expect(languagePath(main.house)).toBe('');
    expect(languagesOf(main.house)).toEqual(['en-GB', 'de-DE']);
  });
});

describe('a publication in a further language', () => {
  it('says so, and knows the languages of the whole', () => {
    expect(german.house.language).toBe('de-DE');
    expect(languagePath(german.house)).toBe('/de');
    expect(languagesOf(german.house)).toEqual(['en-GB', 'de-DE']);
  });

  it('takes every word that is translated', () => {
    expect(german.house.strapline).toBe('Langsam');
    expect(german.house.launch_methods[0]?.name).toBe('Einfach Gas');
    expect(test?.car.kind).toBe('Kleinwagen');
    expect(test?.content.title).toBe('Ein Tag');
    expect(test?.attempts[0]?.setAside).toBe('Ein Hase');
    expect([test?.articleMarkdown, test?.articleFile]).toEqual([
      'Er fährt.',
      'content/tests/x/article.de.md',
    ]);
    const named = test?.attempts.find(({ launchId }) => launchId === 'plain');
    expect(named?.launchName).toBe('Einfach Gas');
  });

  it('keeps the rest in the main language, and names it', () => {
    expect(german.house.caution).toBe('Ask first.');
    expect(languageOfPart(german.house, 'caution')).toBe('en-GB');
    expect(languageOfPart(german.house, 'strapline')).toBeUndefined();
    expect(languageOfPart(german.house, 'launch_methods.plain.how')).toBe('en-GB');
    expect(languageOfPart(test!.car, 'gearbox')).toBe('en-GB');
    expect(languageOfPart(test!.road, 'about')).toBe('en-GB');
    expect(languageOfPart(test!, 'article')).toBeUndefined();
    expect(languageOfPart(german, 'methodology')).toBe('en-GB');
    expect(test?.attempts[0]?.note).toBe('Clean');
    expect(languageOfRemark(test!, 'Clean')).toBe('en-GB');
    expect(languageOfRemark(test!, 'Ein Hase')).toBeUndefined();
  });

  it('names the article where there is none of its own', () => {
    const bare = inLanguage({ ...main, translations: [{ ...words, articles: new Map() }] }, 'de-DE')
      .tests[0]!;
    expect(bare.articleMarkdown).toBe(main.tests[0]!.articleMarkdown);
    expect(languageOfPart(bare, 'article')).toBe('en-GB');
  });

  it('has the same numbers to the last bit', () => {
    const query = { measure: '0-100-kmh', statistic: 'median' } as const;
    expect(pickResult(test!, german.house, query)).toEqual(pickResult(main.tests[0]!, main.house, query));
    expect(pickResult(test!, german.house, query)?.value).toBeGreaterThan(1);
  });
});
