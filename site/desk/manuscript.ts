/**
 * An article as pieces: words a person wrote, and what stands in for numbers, figures and tables. Joined again
 * they are the text to the last character.
 */

export type Piece = { readonly text: string } | { readonly directive: string };

const DIRECTIVE = /(?<!:)::?(?:figure|table|number|difference|count|condition)\{[^{}\n]*\}/g;

/** The text in pieces, in its order. */
export function textToPieces(text: string): readonly Piece[] {
  const pieces: Piece[] = [];
  let from = 0;
  for (const match of text.matchAll(DIRECTIVE)) {
    if (match.index > from) pieces.push({ text: text.slice(from, match.index) });
    pieces.push({ directive: match[0] });
    from = match.index + match[0].length;
  }
  if (from < text.length) pieces.push({ text: text.slice(from) });
  return pieces;
}

/** The text again. */
export const piecesToText = (pieces: readonly Piece[]): string =>
  pieces.map(piece => ('text' in piece ? piece.text : piece.directive)).join('');

export const isBlock = (directive: string): boolean => directive.startsWith('::');

/** What is asked for, in its own words, where nothing better is known: `0-100-kmh, median, brake-hold`. */
export function directiveInShort(directive: string): string {
  const [, inside = ''] = /\{([^}]*)\}/.exec(directive) ?? [];
  const values = [...inside.matchAll(/[\w-]+=(?:"([^"]*)"|'([^']*)'|([^\s"']+))/g)].map(
    ([, double, single, bare]) => double ?? single ?? bare,
  );
  return values.length === 0 ? directive : values.join(', ');
}
