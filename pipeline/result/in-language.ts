/**
 * The publication in each language its pages are made in: the main one, in which it is written, at the root of the
 * site; every further one under the first part of its tag, `/de/` for `de-DE`.
 */
import type { House, Publication } from './result.ts';

/** Tags of every language, the main one first. */
export const languagesOf = (house: House): readonly string[] => [
  house.mainLanguage ?? house.language,
  ...(house.further_languages ?? []),
];

/** The word for a language in addresses and in the names of files: `de` for `de-DE`. */
export const languageWord = (tag: string): string => tag.split('-')[0]!;

/** What addresses of pages begin with: nothing in the main language, `/de` in German beside it. */
export const languagePath = ({ language, mainLanguage }: House): string =>
  mainLanguage === undefined ? '' : `/${languageWord(language)}`;

/** The same publication in one of its languages; the very same where it is the main one. */
export function inLanguage(publication: Publication, tag: string): Publication {
  const { house } = publication;
  if (tag === house.language) return publication;
  return { ...publication, house: { ...house, language: tag, mainLanguage: house.language } };
}
