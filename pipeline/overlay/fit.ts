/** Text made to fit a width: set smaller first, then wrapped, and cut with an ellipsis only when nothing else helps. */
import type { Lettering, TextStyle } from '../lettering/lettering.ts';

export interface FittedText {
  readonly lines: readonly string[];
  readonly style: TextStyle;
  /** Of the longest line. */
  readonly widthPx: number;
  /** Whether characters were left out. */
  readonly cut: boolean;
}

export interface FitRule {
  readonly maxWidthPx: number;
  readonly maxLines: number;
  /** Smallest size allowed, as a share of the style's own. */
  readonly smallest: number;
  /** Size that wrapped lines begin from, as a share of the style's own; 1 where absent. */
  readonly largestWrapped?: number;
}

const ELLIPSIS = '…';
const SIZE_STEPS = 8;

/** `text` in at most `maxLines` lines of at most `maxWidthPx`, as large as the rule allows. */
export function fitText(text: string, style: TextStyle, rule: FitRule, lettering: Lettering): FittedText {
  for (let lines = 1; lines <= rule.maxLines; lines++) {
    const largest = lines === 1 ? 1 : Math.max(rule.smallest, rule.largestWrapped ?? 1);
    for (let step = 0; step <= SIZE_STEPS; step++) {
      const sizePx = style.sizePx * (largest - ((largest - rule.smallest) * step) / SIZE_STEPS);
      const sized = { ...style, sizePx };
      const wrapped = wrapWords(text, sized, rule.maxWidthPx, lettering);
      if (wrapped.length <= lines && wrapped.every(line => lettering.width(line, sized) <= rule.maxWidthPx)) {
        return fitted(wrapped, sized, false, lettering);
      }
    }
  }
  const smallest = { ...style, sizePx: style.sizePx * rule.smallest };
  const wrapped = wrapWords(text, smallest, rule.maxWidthPx, lettering);
  const kept = wrapped.slice(0, rule.maxLines);
  const left = wrapped.length > rule.maxLines;
  const last = kept.length - 1;
  const lines = kept.map((line, index) =>
    cutLine(index === last && left ? `${line}${ELLIPSIS}` : line, smallest, rule.maxWidthPx, lettering),
  );
  return fitted(lines, smallest, true, lettering);
}

const fitted = (
  lines: readonly string[],
  style: TextStyle,
  cut: boolean,
  lettering: Lettering,
): FittedText => ({
  lines,
  style,
  cut,
  widthPx: Math.max(0, ...lines.map(line => lettering.width(line, style))),
});

/** Lines broken at spaces, each as full as it gets; a word wider than the line stands alone on it. */
export function wrapWords(
  text: string,
  style: TextStyle,
  maxWidthPx: number,
  lettering: Lettering,
): readonly string[] {
  return wrapParts(text.split(/[ \t\r\n]+/).filter(Boolean), ' ', style, maxWidthPx, lettering);
}

/** Parts joined by `between`, broken between them where the line is full. */
export function wrapParts(
  parts: readonly string[],
  between: string,
  style: TextStyle,
  maxWidthPx: number,
  lettering: Lettering,
): readonly string[] {
  const lines: string[] = [];
  for (const part of parts) {
    const last = lines.at(-1);
    const longer = last === undefined ? part : `${last}${between}${part}`;
    if (last !== undefined && lettering.width(longer, style) <= maxWidthPx) lines[lines.length - 1] = longer;
    else lines.push(part);
  }
  return lines;
}

/** Shortest last line, as a share of the width, before the lines above give it words. */
const WIDOW = 0.3;
const NARROWER_STEPS = 24;

/** Lines narrowed as little as keeps a lone word from standing at the end, where that takes no further line. */
export function withoutWidow(
  wrap: (widthPx: number) => readonly string[],
  maxWidthPx: number,
  widthOf: (line: string) => number,
): readonly string[] {
  const lines = wrap(maxWidthPx);
  if (lines.length < 2) return lines;
  for (let step = 0; step <= NARROWER_STEPS; step++) {
    const tried = wrap(maxWidthPx * (1 - (step / NARROWER_STEPS) * 0.5));
    if (tried.length > lines.length) break;
    if (widthOf(tried.at(-1)!) >= WIDOW * maxWidthPx) return tried;
  }
  return lines;
}

/** The line, or as much of its beginning as leaves room for an ellipsis. */
export function cutLine(line: string, style: TextStyle, maxWidthPx: number, lettering: Lettering): string {
  if (lettering.width(line, style) <= maxWidthPx) return line;
  const characters = [...line.replace(new RegExp(`${ELLIPSIS}$`), '')];
  while (characters.length > 0) {
    characters.pop();
    const shorter = `${characters.join('').trimEnd()}${ELLIPSIS}`;
    if (lettering.width(shorter, style) <= maxWidthPx) return shorter;
  }
  return '';
}
