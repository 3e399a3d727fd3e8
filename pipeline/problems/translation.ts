/** Messages about content in further languages: one function a message, its id permanent. */
import type { Place, Problem } from '../problem.ts';

const SHOWN = 6;

export const languageNotSpoken = (where: Place, tag: string, known: readonly string[]): Problem => ({
  id: 'translation-language-not-spoken',
  severity: 'error',
  what: `Pages have no words of their own in the language ${tag}`,
  where,
  expected: `a language of ${known.join(', ')}, such as de-DE`,
  mend: 'Remove it, or write its words into the catalogues of the program.',
});

export const languageTwice = (where: Place, tag: string, other: string): Problem => ({
  id: 'translation-language-twice',
  severity: 'error',
  what: `${tag} and ${other} would have the same addresses and files`,
  where,
  mend: 'Keep one of the two.',
});

export const notTranslated = (
  where: Place,
  name: string,
  tag: string,
  main: string,
  missing: readonly string[],
): Problem => ({
  id: 'translation-missing-words',
  severity: 'note',
  what: `In ${tag} some words are shown in ${main}: ${missing.slice(0, SHOWN).join('; ')}${missing.length > SHOWN ? `; and ${missing.length - SHOWN} more` : ''}`,
  where,
  mend: `Write them into ${name}.`,
});

export const articleNotTranslated = (where: Place, name: string, tag: string, main: string): Problem => ({
  id: 'translation-missing-text',
  severity: 'note',
  what: `In ${tag} this text is shown in ${main}`,
  where,
  mend: `Write it as ${name} beside it.`,
});

export const translatesNothing = (where: Place, name: string, near?: string): Problem => ({
  id: 'translation-of-nothing',
  severity: 'warning',
  what: `There is nothing to translate that is called: ${name.length > 80 ? `${name.slice(0, 79)}…` : name}`,
  where,
  mend:
    near === undefined
      ? 'Write the name as it stands in the main language, or remove it.'
      : `Did you mean: ${near}?`,
});

export const translationNotUsed = (where: Place, word: string): Problem => ({
  id: 'translation-not-used',
  severity: 'warning',
  what: `No pages are made in the language of this file, ${word}`,
  where,
  mend: `Add it to further_languages in content/house.yaml, or remove the file.`,
});
