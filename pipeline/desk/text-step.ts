/** One change of a text as the one stretch that differs: small however long the text, and able to be gone either way. */

export interface TextStep {
  /** Where the stretch begins, in UTF-16 code units. */
  readonly at: number;
  readonly removed: string;
  readonly added: string;
}

/** What is the same at both ends is left out. */
export function stepBetween(before: string, after: string): TextStep {
  const shorter = Math.min(before.length, after.length);
  let at = 0;
  while (at < shorter && before[at] === after[at]) at++;
  let same = 0;
  while (same < shorter - at && before[before.length - 1 - same] === after[after.length - 1 - same]) same++;
  return {
    at,
    removed: before.slice(at, before.length - same),
    added: after.slice(at, after.length - same),
  };
}

/** The text before the step from the one after it. @throws RangeError where the text is not the one after it */
export const stepBack = (after: string, { at, removed, added }: TextStep): string =>
  replaced(after, at, added, removed);

/** The text after the step from the one before it. @throws RangeError where the text is not the one before it */
export const stepOn = (before: string, { at, removed, added }: TextStep): string =>
  replaced(before, at, removed, added);

function replaced(text: string, at: number, from: string, to: string): string {
  if (!text.startsWith(from, at)) throw new RangeError('the text is not the one that the step was made on');
  return text.slice(0, at) + to + text.slice(at + from.length);
}
