import { describe, expect, expectTypeOf, it } from 'vitest';
import { capital, catalogue, counted, LANGUAGES, languageOf, listed, quoted } from '../pipeline/language.ts';

describe('languageOf', () => {
  it('takes the primary language of a BCP 47 tag, whatever its case, and English where it has no words', () => {
    expect(['de', 'de-DE', 'de-AT', 'DE-CH', 'de-Latn-DE'].map(languageOf)).toEqual(Array(5).fill('de'));
    expect(['en', 'en-GB', 'EN-us', 'fr-FR', 'den', ''].map(languageOf)).toEqual(Array(6).fill('en'));
  });
});

describe('catalogue', () => {
  const words = catalogue({
    en: { kept: (n: number) => `${n} ${counted(n, 'attempt', 'attempts')} kept`, none: 'none' },
    de: { kept: n => `${n} ${counted(n, 'Versuch', 'Versuche')} gewertet`, none: 'keine' },
  });

  it('gives the words for a tag or for anything made in one', () => {
    expect(words('en-GB').kept(1)).toBe('1 attempt kept');
    expect(words({ language: 'de-DE' }).kept(6)).toBe('6 Versuche gewertet');
    expect(words('fr').none).toBe('none');
  });

  it('has German of the very type of English, or does not pass type checking', () => {
    expectTypeOf(words('de')).toEqualTypeOf<{ kept: (n: number) => string; none: string }>();
    // @ts-expect-error: one sentence is missing
    catalogue({ en: { a: 'a', b: 'b' }, de: { a: 'a' } });
    // @ts-expect-error: one sentence is nobody’s translation
    catalogue({ en: { a: 'a' }, de: { a: 'a', b: 'b' } });
    // @ts-expect-error: another kind of value
    catalogue({ en: { a: (n: number) => `${n}` }, de: { a: (n: string) => n } });
  });
});

describe('the manners of each language', () => {
  it('lists with “and” before the last and no comma before it', () => {
    expect(listed([], 'en')).toBe('');
    expect(listed(['a'], 'de')).toBe('a');
    expect(listed(['a', 'b'], 'de')).toBe('a und b');
    expect(listed(['a', 'b', 'c'], 'en')).toBe('a, b and c');
  });

  // The reference: the list patterns of CLDR, as the JavaScript engine has them.
  it.each([
    ['en', 'en-GB'],
    ['de', 'de-DE'],
  ])('lists in %s as CLDR does', (_, tag) => {
    const reference = new Intl.ListFormat(tag);
    for (let n = 0; n < 6; n += 1) {
      const items = Array.from({ length: n }, (__, i) => `x${i}`);
      expect(listed(items, tag)).toBe(reference.format(items));
    }
  });

  it('counts as the plural rules of CLDR do', () => {
    for (const language of LANGUAGES) {
      const rules = new Intl.PluralRules(language);
      for (let n = 0; n < 130; n += 1) expect(counted(n, 'one', 'other')).toBe(rules.select(n));
    }
  });

  it('quotes as each language does', () => {
    expect(quoted('so', 'en-GB')).toBe('“so”');
    expect(quoted('so', 'de-DE')).toBe('„so“');
  });

  it('begins a sentence with a capital, umlauts too', () => {
    expect(capital('über')).toBe('Über');
    expect(capital('')).toBe('');
  });
});
