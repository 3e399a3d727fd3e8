/** What is wrong, where, what was expected, and what to do about it: the one shape of every message. */

export type Severity = 'error' | 'warning' | 'note';

/** A place a person can go to. Lines and columns count from 1. */
export interface Place {
  readonly file: string;
  readonly line?: number;
  readonly column?: number;
  /** Column of a log or path of a content field, such as `attempts.3.launch`. */
  readonly field?: string;
}

export interface Problem {
  /** Permanent: it may be looked up in documentation and is never reused for another meaning. */
  readonly id: string;
  readonly severity: Severity;
  /** One sentence, no full stop needed by the reader to understand it. */
  readonly what: string;
  readonly where?: Place;
  readonly expected?: string;
  readonly found?: string;
  /** What the person can do now. */
  readonly mend: string;
}

/** Thrown where a stage cannot go on; carries every problem found, not only the first. */
export class ProblemError extends Error {
  override readonly name = 'ProblemError';
  readonly problems: readonly Problem[];
  constructor(problems: Problem | readonly Problem[]) {
    const all = Array.isArray(problems) ? (problems as readonly Problem[]) : [problems as Problem];
    super(all.map(problemToLine).join('\n'));
    this.problems = all;
  }
}

/** `file:line:column`, as far as known. */
export function placeToText(place: Place): string {
  let text = place.file;
  if (place.line !== undefined) {
    text += `:${place.line}`;
    if (place.column !== undefined) text += `:${place.column}`;
  }
  return place.field === undefined ? text : `${text} ${place.field}`;
}

/** The whole problem on one line, as printed on a terminal. */
export function problemToLine(problem: Problem): string {
  const parts: string[] = [];
  if (problem.where) parts.push(`${placeToText(problem.where)}:`);
  parts.push(`${problem.severity}:`);
  const facts = [
    problem.expected === undefined ? '' : `expected ${problem.expected}`,
    problem.found === undefined ? '' : `found ${problem.found}`,
  ].filter(Boolean);
  parts.push(facts.length > 0 ? `${problem.what} (${facts.join(', ')}).` : `${problem.what}.`);
  parts.push(problem.mend);
  parts.push(`[${problem.id}]`);
  return printable(parts.join(' ').replace(/[\r\n]+/g, ' '));
}

/**
 * Text for one line of a terminal: what a person wrote or a log holds may be quoted in a message, and a control
 * character in it would break the line, overwrite it or command the terminal. Each is told by its number, such as
 * `\\x1b`; blanks and letters of every script stay.
 */
export function printable(text: string): string {
  return text.replaceAll(
    /\p{Cc}|\p{Zl}|\p{Zp}/gu,
    sign => `\\x${sign.codePointAt(0)!.toString(16).padStart(2, '0')}`,
  );
}
