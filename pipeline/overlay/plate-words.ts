/** The words of a plate: head, prose and foot. Sizes are in units of the plate. */
import type { Lettering, TextStyle } from '../lettering/lettering.ts';
import { cutLine, type FitRule, fitText, withoutWidow, wrapParts, wrapWords } from './fit.ts';
import { type Mark, trackedWidth } from './marks.ts';
import type { PlateContent, ProseBody } from './plate.ts';
import { type Block, FOOT_BETWEEN, HEAD_BOTTOM, type Layer, moved, textMark } from './plate-block.ts';

const LABEL = { size: 20, tracking: 0.14, baseline: 38 } as const;
const TITLE = { size: 46, above: 13, lineHeight: 1.06, smallest: 0.66, wrapped: 0.74 } as const;
const SUBTITLE = { size: 27, toBaseline: 37 } as const;
const COMPACT = {
  title: 38,
  subtitle: 24,
  label: 17,
  gap: 18,
  baseline: 45,
  toSubtitle: 31,
  bottom: 11,
} as const;
const LOGO: LogoBox = {
  widthUnits: 170,
  heightUnits: 88,
  topUnits: 24,
  gapUnits: 24,
  bottomUnits: HEAD_BOTTOM,
};
const COMPACT_LOGO: LogoBox = {
  widthUnits: 100,
  heightUnits: 38,
  topUnits: 14,
  gapUnits: 18,
  bottomUnits: 8,
};
const PROSE = { size: 29, lineHeight: 40 } as const;
const FOOT = { size: 23, lineHeight: 31, pad: 12 } as const;

/** Label, title and subtitle, one under the other; beside the logo, where the theme has one. */
export function headBlock(content: PlateContent, maxWidthPx: number, layer: Layer): Block {
  return besideLogo(LOGO, layer, maxWidthPx, roomPx => wordsOfHead(content, roomPx, layer));
}

function wordsOfHead(content: PlateContent, maxWidthPx: number, layer: Layer): Block {
  const { unitPx, lettering, style } = layer;
  const labelStyle = style('sans', 600, LABEL.size);
  const label = cutTracked(content.label.toUpperCase(), labelStyle, maxWidthPx, lettering);
  let y = LABEL.baseline * unitPx;
  const marks: Mark[] = [{ ...textMark(label, labelStyle, 0, y, 'accent'), trackingEm: LABEL.tracking }];
  let widthPx = trackedWidth(label, labelStyle, LABEL.tracking, lettering);
  const title = fitText(
    content.title,
    style('serif', 600, TITLE.size),
    { maxWidthPx, maxLines: 2, smallest: TITLE.smallest, largestWrapped: TITLE.wrapped },
    lettering,
  );
  for (const [index, line] of title.lines.entries()) {
    y +=
      index === 0 ? title.style.sizePx * 0.8 + TITLE.above * unitPx : title.style.sizePx * TITLE.lineHeight;
    marks.push(textMark(line, title.style, 0, y, 'ink'));
  }
  widthPx = Math.max(widthPx, title.widthPx);
  let cut = title.cut;
  if (content.subtitle !== undefined) {
    const rule: FitRule = { maxWidthPx, maxLines: 1, smallest: 0.8 };
    const subtitle = fitText(content.subtitle, style('sans', 400, SUBTITLE.size), rule, lettering);
    y += SUBTITLE.toBaseline * unitPx;
    marks.push(textMark(subtitle.lines[0] ?? '', subtitle.style, 0, y, 'muted'));
    widthPx = Math.max(widthPx, subtitle.widthPx);
    cut ||= subtitle.cut;
  }
  return { marks, widthPx, heightPx: y + HEAD_BOTTOM * unitPx, cut };
}

/** Title, subtitle and label on one line where they fit; the subtitle under the title where they do not. */
export function compactHeadBlock(content: PlateContent, maxWidthPx: number, layer: Layer): Block {
  return besideLogo(COMPACT_LOGO, layer, maxWidthPx, roomPx => compactWordsOfHead(content, roomPx, layer));
}

function compactWordsOfHead(content: PlateContent, maxWidthPx: number, layer: Layer): Block {
  const { unitPx, lettering, style } = layer;
  const labelStyle = style('sans', 600, COMPACT.label);
  const label = cutTracked(content.label.toUpperCase(), labelStyle, maxWidthPx * 0.3, lettering);
  const labelPx = trackedWidth(label, labelStyle, LABEL.tracking, lettering);
  const gapPx = COMPACT.gap * unitPx;
  const titleRule: FitRule = {
    maxWidthPx: maxWidthPx - labelPx - gapPx,
    maxLines: 1,
    smallest: TITLE.smallest,
  };
  const title = fitText(content.title, style('serif', 600, COMPACT.title), titleRule, lettering);
  let y = COMPACT.baseline * unitPx;
  const marks: Mark[] = [
    textMark(title.lines[0] ?? '', title.style, 0, y, 'ink'),
    { ...textMark(label, labelStyle, maxWidthPx - labelPx, y, 'accent'), trackingEm: LABEL.tracking },
  ];
  let cut = title.cut;
  if (content.subtitle !== undefined) {
    const subtitleStyle = style('sans', 400, COMPACT.subtitle);
    const besidePx = maxWidthPx - labelPx - title.widthPx - 2 * gapPx;
    if (lettering.width(content.subtitle, subtitleStyle) <= besidePx) {
      marks.push(textMark(content.subtitle, subtitleStyle, title.widthPx + gapPx, y, 'muted'));
    } else {
      const rule: FitRule = { maxWidthPx, maxLines: 1, smallest: 0.8 };
      const under = fitText(content.subtitle, subtitleStyle, rule, lettering);
      y += COMPACT.toSubtitle * unitPx;
      marks.push(textMark(under.lines[0] ?? '', under.style, 0, y, 'muted'));
      cut ||= under.cut;
    }
  }
  return { marks, widthPx: maxWidthPx, heightPx: y + COMPACT.bottom * unitPx, cut };
}

interface LogoBox {
  readonly widthUnits: number;
  readonly heightUnits: number;
  readonly topUnits: number;
  readonly gapUnits: number;
  readonly bottomUnits: number;
}

/** Words moved aside for the logo, which stands at the top left as large as its box allows. */
function besideLogo(
  { widthUnits, heightUnits, topUnits, gapUnits, bottomUnits }: LogoBox,
  { unitPx, theme }: Layer,
  maxWidthPx: number,
  wordsWithin: (roomPx: number) => Block,
): Block {
  const logo = theme?.logo;
  if (logo === undefined) return wordsWithin(maxWidthPx);
  const scale = Math.min(widthUnits / logo.widthPx, heightUnits / logo.heightPx) * unitPx;
  const widthPx = logo.widthPx * scale;
  const asidePx = widthPx + gapUnits * unitPx;
  const words = wordsWithin(maxWidthPx - asidePx);
  const heightPx = logo.heightPx * scale;
  const { pngBase64 } = logo;
  const yPx = (topUnits + heightUnits / 2) * unitPx - heightPx / 2;
  return {
    marks: [
      { mark: 'picture', xPx: 0, yPx, widthPx, heightPx, pngBase64 },
      ...moved(words.marks, asidePx, 0),
    ],
    widthPx: asidePx + words.widthPx,
    heightPx: Math.max(words.heightPx, yPx + heightPx + bottomUnits * unitPx),
    cut: words.cut,
  };
}

/** Head, and under it a text over the whole width. */
export function proseUnderHead(content: PlateContent, body: ProseBody, innerPx: number, layer: Layer): Block {
  const { unitPx, lettering, style } = layer;
  const head = headBlock(content, innerPx, layer);
  const prose = style('sans', 400, PROSE.size);
  const lines = wrapWords(body.text, prose, innerPx, lettering);
  let y = head.heightPx - HEAD_BOTTOM * unitPx + 5 * unitPx;
  const marks: Mark[] = [...head.marks];
  let widthPx = head.widthPx;
  let cut = head.cut;
  for (const line of lines) {
    const fitting = cutLine(line, prose, innerPx, lettering);
    cut ||= fitting !== line;
    y += PROSE.lineHeight * unitPx;
    marks.push(textMark(fitting, prose, 0, y, 'ink'));
    widthPx = Math.max(widthPx, lettering.width(fitting, prose));
  }
  return { marks, widthPx, heightPx: y + HEAD_BOTTOM * unitPx, cut };
}

/** The phrases of the foot, broken between phrases where the line is full. */
export function footBlock(phrases: readonly string[], maxWidthPx: number, layer: Layer): Block {
  const { unitPx, lettering, style } = layer;
  if (phrases.length === 0) return { marks: [], widthPx: 0, heightPx: 0, cut: false };
  const text = style('sans', 400, FOOT.size);
  const fits = (line: string): boolean => lettering.width(line, text) <= maxWidthPx;
  // A phrase longer than the line is broken after a comma, and only where that is too long as well between words.
  const lines = wrapParts(phrases, FOOT_BETWEEN, text, maxWidthPx, lettering)
    .flatMap(line =>
      fits(line)
        ? [line]
        : withoutWidow(
            widthPx => wrapParts(line.split(/(?<=,) /), ' ', text, widthPx, lettering),
            maxWidthPx,
            last => lettering.width(last, text),
          ),
    )
    .flatMap(line => (fits(line) ? [line] : wrapWords(line, text, maxWidthPx, lettering)));
  const fitting = lines.map(line => cutLine(line, text, maxWidthPx, lettering));
  const marks = fitting.map((line, index) =>
    textMark(line, text, 0, (FOOT.pad + FOOT.size + index * FOOT.lineHeight - 2) * unitPx, 'onSlate'),
  );
  return {
    marks,
    widthPx: Math.max(...fitting.map(line => lettering.width(line, text))),
    heightPx: (2 * FOOT.pad + FOOT.size + (lines.length - 1) * FOOT.lineHeight) * unitPx,
    cut: fitting.some((line, index) => line !== lines[index]),
  };
}

/** Letter-spaced text, or as much of it as leaves room for an ellipsis. */
function cutTracked(text: string, style: TextStyle, maxWidthPx: number, lettering: Lettering): string {
  if (trackedWidth(text, style, LABEL.tracking, lettering) <= maxWidthPx) return text;
  const characters = [...text];
  while (characters.length > 0) {
    characters.pop();
    const shorter = `${characters.join('').trimEnd()}…`;
    if (trackedWidth(shorter, style, LABEL.tracking, lettering) <= maxWidthPx) return shorter;
  }
  return '';
}
