/** Text broken into lines by its true width. */

/** A text with its words apart, and whether a stretch of them fits; each word and each stretch is measured once. */
interface Words {
  readonly words: readonly string[];
  stretch(from: number, to: number): string;
  /** Whether the words from the one to before the other stand on a line so wide. */
  fits(from: number, to: number, widthPx: number): boolean;
  readonly widthOf: (text: string) => number;
}

/**
 * Two words with a space between are as wide as the three of them apart, but for what the font kerns at the space,
 * which is less than this share of it (a test asks the fonts). Only a stretch for which that decides is measured.
 */
export const KERNED_SHARE = 0.5;

function wordsOf(text: string, widthOf: (text: string) => number): Words {
  const words = text.split(/[ \n\t]+/).filter(Boolean);
  const spacePx = widthOf(' ');
  const known = new Map<number, number>();
  const stretch = (from: number, to: number): string => words.slice(from, to).join(' ');
  const width = (from: number, to: number): number => {
    const key = from * (words.length + 1) + to;
    let px = known.get(key);
    if (px === undefined) {
      px = widthOf(stretch(from, to));
      known.set(key, px);
    }
    return px;
  };
  return {
    words,
    stretch,
    fits(from, to, widthPx) {
      const spaces = to - from - 1;
      let apartPx = spaces * spacePx;
      for (let index = from; index < to; index++) apartPx += width(index, index + 1);
      const kernedPx = spaces * spacePx * KERNED_SHARE;
      if (apartPx + kernedPx < widthPx) return true;
      return apartPx - kernedPx <= widthPx && width(from, to) <= widthPx;
    },
    widthOf,
  };
}

/**
 * Lines no wider than `widthPx`, broken at spaces; a word wider than a line is broken between characters.
 * Non-breaking spaces hold. `widthOf` gives px.
 */
export const wrapText = (
  text: string,
  widthPx: number,
  widthOf: (text: string) => number,
): readonly string[] => wrapWords(wordsOf(text, widthOf), widthPx);

function wrapWords(of: Words, widthPx: number): readonly string[] {
  const { words, widthOf } = of;
  const lines: string[] = [];
  // The line so far: what is left of a broken word, then whole words.
  let [left, from] = ['', 0];
  const lineTo = (to: number): string =>
    left === '' ? of.stretch(from, to) : from === to ? left : `${left} ${of.stretch(from, to)}`;
  for (const [index, word] of words.entries()) {
    if (left === '' ? of.fits(from, index + 1, widthPx) : widthOf(lineTo(index + 1)) <= widthPx) continue;
    const before = lineTo(index);
    if (before !== '') lines.push(before);
    [left, from] = ['', index];
    if (of.fits(index, index + 1, widthPx)) continue;
    for (const character of word) {
      if (left !== '' && widthOf(left + character) > widthPx) {
        lines.push(left);
        left = '';
      }
      left += character;
    }
    from = index + 1;
  }
  const last = lineTo(words.length);
  if (last !== '') lines.push(last);
  return lines;
}

/** As few lines as `wrapText` needs, but of even length, so that a title does not end in one lone word. */
export function wrapBalanced(
  text: string,
  widthPx: number,
  widthOf: (text: string) => number,
): readonly string[] {
  const of = wordsOf(text, widthOf);
  const lines = wrapWords(of, widthPx);
  if (lines.length < 2) return lines;
  let tooNarrow = widthPx / 4;
  let enough = widthPx;
  while (enough - tooNarrow > 1) {
    const middle = (tooNarrow + enough) / 2;
    if (wrapWords(of, middle).length <= lines.length) enough = middle;
    else tooNarrow = middle;
  }
  return wrapWords(of, enough);
}

/** Shortest last line, as a share of the width, before the lines above give it words. */
const WIDOW = 0.3;
/** Steps by which the lines are narrowed for it, px. */
const NARROWER_PX = 4;

/** Lines as `wrapText` makes them, narrowed as little as keeps a word or two from standing alone at the end. */
export function wrapWithoutWidow(
  text: string,
  widthPx: number,
  widthOf: (text: string) => number,
): readonly string[] {
  const of = wordsOf(text, widthOf);
  const lines = wrapWords(of, widthPx);
  if (lines.length < 2) return lines;
  for (let narrower = widthPx; narrower > widthPx / 2; narrower -= NARROWER_PX) {
    const tried = wrapWords(of, narrower);
    if (tried.length > lines.length) break;
    if (widthOf(tried.at(-1)!) >= WIDOW * widthPx) return tried;
  }
  return lines;
}
