/** What the YAML parser found wrong, in words for people who do not know YAML. */
import type { ErrorCode } from 'yaml';

interface Wording {
  readonly what: string;
  readonly mend: string;
}

const QUOTES = 'If this is text, put double quotes around it: "…".';

const WORDINGS: Readonly<Partial<Record<ErrorCode, Wording>>> = {
  TAB_AS_INDENT: {
    what: 'The line is indented with a tab',
    mend: 'Use blanks instead of the tab, two for each step.',
  },
  BLOCK_AS_IMPLICIT_KEY: {
    what: 'There is a second colon where one value was expected',
    mend: `${QUOTES} If this is a field of its own, begin a new line.`,
  },
  MULTILINE_IMPLICIT_KEY: {
    what: 'The line has no colon with a blank after it, or is indented deeper than the line before it allows',
    mend: 'Write "field: value" with a blank after the colon, and line the fields up with their neighbours.',
  },
  BAD_INDENT: {
    what: 'A bracket is not closed, or the line is indented differently from its neighbours',
    mend: 'Close the bracket before this line, or line the fields up with blanks.',
  },
  BAD_SCALAR_START: {
    what: 'The value begins with a sign that has a meaning of its own here',
    mend: QUOTES,
  },
  BAD_DQ_ESCAPE: {
    what: 'There is a backslash inside double quotes, and the sign after it is not one that may follow',
    mend: 'Write two backslashes, or use single quotes around the text.',
  },
  UNEXPECTED_TOKEN: {
    what: 'Something stands here where nothing was expected',
    mend: 'Where text contains quotation marks or brackets, put single quotes around all of it.',
  },
  MISSING_CHAR: {
    what: 'A quotation mark, bracket, hyphen or colon is missing',
    mend: 'Close what was opened before this place, begin each entry of a list with a hyphen, and line entries up.',
  },
  BLOCK_IN_FLOW: {
    what: 'Inside brackets, two fields stand without a comma between them, or an indented block begins',
    mend: 'Put a comma between the fields, or close the bracket before this line.',
  },
  MULTIPLE_DOCS: {
    what: 'The file holds a line of three hyphens or dots, which begins a second document',
    mend: 'Remove the line, or put its text in quotes.',
  },
  BAD_DIRECTIVE: { what: 'The line begins with a percent sign', mend: `Remove the line. ${QUOTES}` },
  TAG_RESOLVE_FAILED: {
    what: 'The value begins with an exclamation mark, which has a meaning of its own here',
    mend: QUOTES,
  },
  BAD_ALIAS: {
    what: 'The value begins with * or &, which have a meaning of their own here',
    mend: QUOTES,
  },
  RESOURCE_EXHAUSTION: {
    what: 'Brackets or lists are nested too deeply to be read',
    mend: 'Compare the file with one of the demo content.',
  },
};

const OTHERWISE: Wording = {
  what: 'The line cannot be read as fields and values',
  mend: 'Write "field: value" with a blank after the colon; put text with unusual signs in double quotes.',
};

/** Faults that leave the rest of the file as it was meant, so that it is worth checking further. */
export const LOCAL_FAULTS: ReadonlySet<ErrorCode> = new Set<ErrorCode>([
  'DUPLICATE_KEY',
  'BAD_SCALAR_START',
  'BAD_DQ_ESCAPE',
  'TAG_RESOLVE_FAILED',
  'BAD_ALIAS',
]);

/** Faults that lie in the value of one line but make the parser lose the lines after it. */
export const VALUE_FAULTS: ReadonlySet<ErrorCode> = new Set<ErrorCode>([
  'BLOCK_AS_IMPLICIT_KEY',
  'UNEXPECTED_TOKEN',
]);

/** What is wrong and what to do for one error code of the parser. */
export function yamlErrorToWording(code: ErrorCode): Wording {
  return WORDINGS[code] ?? OTHERWISE;
}
