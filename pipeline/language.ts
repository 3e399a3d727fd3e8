/**
 * The languages this program speaks to readers, and the catalogues its sentences stand in.
 *
 * A catalogue lives beside the code that uses it, small, one for one subject:
 *
 *     const words = catalogue({
 *       en: { kept: (n: number) => `${n} ${counted(n, 'attempt', 'attempts')} kept` },
 *       de: { kept: n => `${n} ${counted(n, 'Versuch', 'Versuche')} gewertet` },
 *     });
 *     words(house).kept(6);
 *
 * Values go in, a finished sentence comes out: what is glued together from parts in one language has another
 * order in the next. Numbers go in printed (`printQuantity`, `localiseDigits`), with their own unit. German has
 * exactly the type of English, so that a sentence without its translation does not pass type checking. What
 * people wrote in `content/` (names, notes, reasons) is never translated, and messages to the person at the
 * keyboard (`Problem`) stay English.
 *
 * A page, figure, table or overlay is made in `house.language`: to make it in another one, pass
 * `{ ...house, language: 'de-DE' }`.
 */

export type Language = 'en' | 'de';
export const LANGUAGES: readonly Language[] = ['en', 'de'];

/** The language of the words for a BCP 47 tag such as `de-AT`; English where there is no catalogue for it. */
export function languageOf(tag: string): Language {
  const primary = tag.toLowerCase().split('-')[0];
  return LANGUAGES.find(language => language === primary) ?? 'en';
}

/** A BCP 47 tag, or anything made in one, such as a house. */
export type Spoken = string | { readonly language: string };

export const tagOf = (spoken: Spoken): string => (typeof spoken === 'string' ? spoken : spoken.language);

/** Words in every language; gives those for a tag or a house. */
export function catalogue<Words>(words: {
  readonly en: Words;
  readonly de: NoInfer<Words>;
}): (spoken: Spoken) => Words {
  return spoken => words[languageOf(tagOf(spoken))];
}

/** The word for one, or for any other number: English and German tell no more apart (CLDR plural rules). */
export const counted = (n: number, one: string, other: string): string => (n === 1 ? one : other);

const LAST = { en: ' and ', de: ' und ' } as const;

/** `a, b and c`: no comma before the last, as in British and in German usage. */
export function listed(items: readonly string[], spoken: Spoken): string {
  const [last, ...before] = [...items].reverse();
  if (last === undefined) return '';
  return before.length === 0
    ? last
    : `${before.reverse().join(', ')}${LAST[languageOf(tagOf(spoken))]}${last}`;
}

const DOUBLE = { en: ['“', '”'], de: ['„', '“'] } as const;
const SINGLE = { en: ['‘', '’'], de: ['„', '“'] } as const;

/** Within quotation marks: “so” in English, „so“ in German. */
export function quoted(text: string, spoken: Spoken): string {
  const [open, close] = DOUBLE[languageOf(tagOf(spoken))];
  return `${open}${text}${close}`;
}

/** A name within a sentence: ‘so’ in English, „so“ in German. */
export function quotedName(name: string, spoken: Spoken): string {
  const [open, close] = SINGLE[languageOf(tagOf(spoken))];
  return `${open}${name}${close}`;
}

/** With a capital first letter, as at the start of a sentence. */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** A name a person wrote, within a sentence: small in English; German nouns keep their capital, so it stays as it is. */
export const nameWithin = (name: string, spoken: Spoken): string =>
  languageOf(tagOf(spoken)) === 'de' ? name : name.toLowerCase();
