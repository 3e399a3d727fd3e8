/** What can be wrong in an article. Ids are permanent. */
import type { Place, Problem } from '../problem.ts';

const proposal = (near: string | undefined): string => (near === undefined ? '' : `Did you mean '${near}'? `);
const list = (words: readonly string[]): string => (words.length === 0 ? 'none' : words.join(', '));

/** A word that names nothing: a measure, launch method, direction, attempt, test, figure or table. */
export function unknownWord(
  where: Place,
  found: { readonly attribute: string; readonly kind: string; readonly word: string },
  known: readonly string[],
  near: string | undefined,
): Problem {
  return {
    id: 'article.unknown-word',
    severity: 'error',
    what: `'${found.word}' is no ${found.kind}`,
    where: { ...where, field: found.attribute },
    // A long list hides the one word that was probably meant.
    expected:
      near !== undefined && known.length > 12
        ? `one of ${known.length} words, such as ${near}`
        : `one of ${list(known)}`,
    found: `'${found.word}'`,
    mend: `${proposal(near)}Write one of the words that exist.`,
  };
}

/** An attribute that this directive does not have. */
export function unknownAttribute(
  where: Place,
  directive: string,
  attribute: string,
  known: readonly string[],
  near: string | undefined,
): Problem {
  return {
    id: 'article.unknown-attribute',
    severity: 'error',
    what: `'${directive}' has no attribute '${attribute}'`,
    where: { ...where, field: attribute },
    expected: `one of ${list(known)}`,
    mend: `${proposal(near)}Take '${attribute}' out or correct its name.`,
  };
}

export function missingAttribute(where: Place, directive: string, attribute: string, such: string): Problem {
  return {
    id: 'article.missing-attribute',
    severity: 'error',
    what: `'${directive}' lacks '${attribute}'`,
    where,
    expected: `'${attribute}='`,
    mend: `Write it out, such as ${such}.`,
  };
}

/** A number that was asked for where no kept attempt gives one. */
export function nothingMeasured(
  where: Place,
  measure: string,
  among: string,
  reached: readonly string[],
): Problem {
  return {
    id: 'article.nothing-measured',
    severity: 'error',
    what: `no kept attempt${among === '' ? '' : ` ${among}`} reached ${measure}`,
    where,
    mend:
      reached.length === 0
        ? 'Take the number out: nothing in this test gives one like it.'
        : `Take the number out, or ask for one that was reached: ${list(reached)}.`,
  };
}

/** A difference needs exactly two things to compare, of one kind. */
export function notTwo(where: Place, found: string): Problem {
  return {
    id: 'article.not-two',
    severity: 'error',
    what: 'a difference compares two things of one kind',
    where,
    expected: 'two words in one of launch, directions or tests',
    found,
    mend: 'Write two words in quotes, such as launch="brake-hold from-rest".',
  };
}

/** No reading of the day carries what was asked for. */
export function conditionNotRead(where: Place, condition: string): Problem {
  return {
    id: 'article.condition-not-read',
    severity: 'error',
    what: `no kept attempt has a ${condition}`,
    where,
    mend: `Note the ${condition} under conditions in test.yaml, or take it out of the article.`,
  };
}

/** A directive for a line of its own stands within a sentence, or the other way round. */
export function notInPlace(where: Place, directive: string, block: boolean): Problem {
  return {
    id: 'article.not-in-place',
    severity: 'error',
    what: block
      ? `'${directive}' needs a line of its own`
      : `'${directive}' stands within a sentence, with one colon`,
    where,
    expected: block ? `'::${directive}{…}' with empty lines around it` : `':${directive}{…}'`,
    mend: block
      ? 'Put it on a line of its own, with two colons and empty lines before and after.'
      : 'Write it with one colon inside a sentence.',
  };
}

/** Plainly meant as a directive, but written so that it would be printed as it stands. */
export function notRead(where: Place, directive: string, written: string, block: boolean): Problem {
  return {
    id: 'article.not-read',
    severity: 'error',
    what: `the '${directive}' here cannot be read and would be printed as it is written`,
    where,
    expected: block ? `'::${directive}{…}' on a line of its own` : `':${directive}{…}'`,
    found: `'${written}'`,
    mend: 'Leave no blanks before the brace, use braces, close every quotation mark and the brace; or put it between backticks if readers are meant to see it.',
  };
}

/** A figure that this test's attempts do not give. */
export function figureNotMade(where: Place, figure: string, reason: string): Problem {
  return {
    id: 'article.figure-not-made',
    severity: 'error',
    what: `the figure '${figure}' cannot be drawn: ${reason}`,
    where,
    mend: 'Take the figure out, or choose other attempts for it.',
  };
}

/** The name in `:nmuber{…}` is nearly one of ours; it stays as written, and is told. */
export function nearlyOurs(where: Place, name: string, near: string): Problem {
  return {
    id: 'article.nearly-ours',
    severity: 'warning',
    what: `':${name}{…}' is printed as it is written`,
    where,
    mend: `Did you mean '${near}'? If not, nothing needs doing.`,
  };
}

/** Markup in an article is shown, not obeyed. */
export function markupShown(where: Place, markup: string): Problem {
  return {
    id: 'article.markup-shown',
    severity: 'warning',
    what: `the markup ${markup} is printed as it is written`,
    where,
    mend: 'Use Markdown instead, or put it between backticks if it is meant to be read.',
  };
}

/** Only addresses that open pages or letters become links. */
export function linkNotTaken(where: Place, address: string): Problem {
  return {
    id: 'article.link-not-taken',
    severity: 'error',
    what: `'${address}' cannot be a link`,
    where,
    expected: 'an address with http, https or mailto, or one within this site',
    mend: 'Correct the address, or leave the words without a link.',
  };
}

/** Pictures other than figures have no place in the press folder yet, so they are told rather than lost. */
export function pictureNotTaken(where: Place, address: string): Problem {
  return {
    id: 'article.picture-not-taken',
    severity: 'warning',
    what: `the picture '${address}' is not shown; its description stands in its place`,
    where,
    mend: 'Place figures with ::figure{show=…}; other pictures cannot be published with a test.',
  };
}

/** A page that belongs to no test cannot say a test's numbers. */
export function noTestHere(where: Place, directive: string): Problem {
  return {
    id: 'article.no-test-here',
    severity: 'error',
    what: `'${directive}' has no test to take its number from`,
    where,
    mend: 'Use it in the article of a test, and link to that from here.',
  };
}
