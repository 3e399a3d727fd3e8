/** Messages about text that cannot be drawn as written. */
import type { Problem } from '../problem.ts';

/** A character of a label is in none of the font files: a box stands in its place. */
export function characterMissing(character: string, text: string, family: string): Problem {
  const codePoint = character.codePointAt(0) ?? 0;
  return {
    id: 'lettering.character-missing',
    severity: 'warning',
    what: `The character “${character}” in “${text}” is not in the font, so a box is drawn in its place`,
    expected: `characters of ${family}, Latin and Latin Extended`,
    found: `U+${codePoint.toString(16).toUpperCase().padStart(4, '0')}`,
    mend: 'Write it in other characters, for example “to” for an arrow.',
  };
}
