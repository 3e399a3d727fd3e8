/** `<text>` turned into `<path>`, so that a picture needs no fonts where it is drawn. */

import type { Lettering, TextStyle, Weight } from '../lettering/lettering.ts';
import { FACE } from '../look.ts';
import { element, type SvgElement, type SvgNode, svgNumber } from './svg-tree.ts';

/** Where the text starts, as a share of its width left of the anchor. */
const ANCHOR: Readonly<Record<string, number>> = { start: 0, middle: 0.5, end: 1 };
const WEIGHT: Readonly<Record<string, Weight>> = { normal: 400, bold: 700, 400: 400, 600: 600, 700: 700 };

/** Face, weight and size as text attributes name them; anything unknown is the chart's plain face. */
export function textStyle(
  family: string | undefined,
  weight: string | number | undefined,
  sizePx: number,
): TextStyle {
  return {
    face: family?.includes(FACE.text) ? 'serif' : 'sans',
    weight: WEIGHT[String(weight ?? 'normal')] ?? 400,
    sizePx,
  };
}

/** Inherited by text from the elements around it. */
const INHERITED = ['font-family', 'font-size', 'font-weight', 'text-anchor'] as const;
type Inherited = Readonly<Partial<Record<(typeof INHERITED)[number], string>>>;

/** A `<text>` as it is to be drawn: each line from where its first glyph stands. */
interface DrawnText {
  readonly lines: readonly { readonly text: string; readonly x: number; readonly y: number }[];
  readonly style: TextStyle;
  readonly attributes: SvgElement['attributes'];
}

/** The tree with every `<text>` drawn by `draw`: same anchor, rotation, weight and lines (`tspan` with `x` and `dy`). */
function replaceText(
  node: SvgNode,
  lettering: Lettering,
  draw: (text: DrawnText) => SvgNode,
  around: Inherited = {},
): SvgNode {
  if (typeof node === 'string') return node;
  const own: Record<string, string> = { ...around };
  for (const key of INHERITED) {
    const value = node.attributes[key];
    if (value !== undefined) own[key] = value;
  }
  if (node.name !== 'text') {
    return { ...node, children: node.children.map(child => replaceText(child, lettering, draw, own)) };
  }
  const style = textStyle(
    own['font-family'],
    own['font-weight'],
    Number.parseFloat(own['font-size'] ?? '11'),
  );
  const share = ANCHOR[own['text-anchor'] ?? 'start'] ?? 0;
  const lines: { text: string; x: number; y: number }[] = [];
  let x = Number(node.attributes.x ?? 0);
  let y = Number(node.attributes.y ?? 0);
  for (const child of node.children) {
    if (typeof child !== 'string') {
      x = Number(child.attributes.x ?? x);
      y += Number(child.attributes.dy ?? 0);
    }
    const text = textOf(child);
    lines.push({ text, x: x - share * lettering.width(text, style), y });
  }
  return draw({ lines, style, attributes: node.attributes });
}

/** The tree with every `<text>` as one path. Baselines must be alphabetic, as vega writes them. */
export const outlineText = (node: SvgNode, lettering: Lettering): SvgNode =>
  replaceText(node, lettering, ({ lines, style, attributes }) => {
    const { transform, fill, opacity, stroke } = attributes;
    const width = attributes['stroke-width'];
    return element('path', {
      transform: `${transform === undefined ? '' : `${transform} `}scale(0.01)`,
      fill,
      opacity,
      stroke,
      'stroke-width': width === undefined ? undefined : Number(width) * 100,
      'stroke-linejoin': attributes['stroke-linejoin'],
      d: lettering.compactPath(lines, style),
    });
  });

/**
 * The same with each glyph drawn once, in a `<defs>` before everything else, and used wherever it stands: a third of
 * the bytes once they are compressed. `xlink:href` is what every program reads (SVG 1.1, 5.6).
 */
export function shareGlyphs(root: SvgElement, lettering: Lettering): SvgElement {
  const glyphs = new Map<string, string>();
  const shared = replaceText(root, lettering, ({ lines, style, attributes }) => {
    const { transform, fill, opacity, stroke } = attributes;
    const width = attributes['stroke-width'];
    const drawn = lines.map(({ text, x, y }) => {
      const line = lettering.glyphs(text, style);
      for (const { name, outline } of line) if (!glyphs.has(name)) glyphs.set(name, outline());
      const scale = style.sizePx / (line[0]?.stepsPerEm ?? 1);
      return element(
        'g',
        {
          transform: `translate(${svgNumber(x)},${svgNumber(y)}) scale(${Number(scale.toPrecision(6))})`,
          'stroke-width': width === undefined ? undefined : Number(width) / scale,
        },
        line
          .filter(({ name }) => glyphs.get(name) !== '')
          .map(glyph =>
            element('use', {
              'xlink:href': `#${glyph.name}`,
              x: glyph.x === 0 ? undefined : glyph.x,
              y: glyph.y === 0 ? undefined : glyph.y,
            }),
          ),
      );
    });
    return element(
      'g',
      { transform, fill, opacity, stroke, 'stroke-linejoin': attributes['stroke-linejoin'] },
      drawn,
    );
  }) as SvgElement;
  const defs = [...glyphs].filter(([, d]) => d !== '').map(([id, d]) => element('path', { id, d }));
  return {
    ...shared,
    attributes: { 'xmlns:xlink': 'http://www.w3.org/1999/xlink', ...shared.attributes },
    children: [element('defs', {}, defs), ...shared.children],
  };
}

const textOf = (node: SvgNode): string =>
  typeof node === 'string' ? node : node.children.map(textOf).join('');

/** Whether a tree still holds text that needs a font. */
export const holdsText = (node: SvgElement): boolean =>
  node.name === 'text' || node.children.some(child => typeof child !== 'string' && holdsText(child));
