/** Text broken into lines by its true width. */

/**
 * Lines no wider than `widthPx`, broken at spaces; a word wider than a line is broken between characters.
 * Non-breaking spaces hold. `widthOf` gives px.
 */
export function wrapText(
  text: string,
  widthPx: number,
  widthOf: (text: string) => number,
): readonly string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/[ \n\t]+/).filter(Boolean)) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthOf(longer) <= widthPx) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const character of word) {
      if (line !== '' && widthOf(line + character) > widthPx) {
        lines.push(line);
        line = '';
      }
      line += character;
    }
  }
  if (line !== '') lines.push(line);
  return lines;
}

/** As few lines as `wrapText` needs, but of even length, so that a title does not end in one lone word. */
export function wrapBalanced(
  text: string,
  widthPx: number,
  widthOf: (text: string) => number,
): readonly string[] {
  const lines = wrapText(text, widthPx, widthOf);
  if (lines.length < 2) return lines;
  let tooNarrow = widthPx / 4;
  let enough = widthPx;
  while (enough - tooNarrow > 1) {
    const middle = (tooNarrow + enough) / 2;
    if (wrapText(text, middle, widthOf).length <= lines.length) enough = middle;
    else tooNarrow = middle;
  }
  return wrapText(text, enough, widthOf);
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
  const lines = wrapText(text, widthPx, widthOf);
  if (lines.length < 2) return lines;
  for (let narrower = widthPx; narrower > widthPx / 2; narrower -= NARROWER_PX) {
    const tried = wrapText(text, narrower, widthOf);
    if (tried.length > lines.length) break;
    if (widthOf(tried.at(-1)!) >= WIDOW * widthPx) return tried;
  }
  return lines;
}
