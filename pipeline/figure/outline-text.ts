/** `<text>` turned into `<path>`, so that a picture needs no fonts where it is drawn. */

import type { Lettering, TextStyle, Weight } from '../lettering/lettering.ts';
import { FACE } from '../look.ts';
import { element, type SvgElement, type SvgNode } from './svg-tree.ts';

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

/**
 * The tree with every `<text>` as outlines: same anchor, baseline, rotation, weight and lines
 * (`tspan` with `x` and `dy`). Baselines must be alphabetic, as vega writes them.
 */
export function outlineText(node: SvgNode, lettering: Lettering, around: Inherited = {}): SvgNode {
  if (typeof node === 'string') return node;
  const own: Record<string, string> = { ...around };
  for (const key of INHERITED) {
    const value = node.attributes[key];
    if (value !== undefined) own[key] = value;
  }
  if (node.name !== 'text') {
    return { ...node, children: node.children.map(child => outlineText(child, lettering, own)) };
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
  const { transform, fill, opacity, stroke } = node.attributes;
  const width = node.attributes['stroke-width'];
  return element('path', {
    transform: `${transform === undefined ? '' : `${transform} `}scale(0.01)`,
    fill,
    opacity,
    stroke,
    'stroke-width': width === undefined ? undefined : Number(width) * 100,
    'stroke-linejoin': node.attributes['stroke-linejoin'],
    d: lettering.compactPath(lines, style),
  });
}

const textOf = (node: SvgNode): string =>
  typeof node === 'string' ? node : node.children.map(textOf).join('');

/** Whether a tree still holds text that needs a font. */
export const holdsText = (node: SvgElement): boolean =>
  node.name === 'text' || node.children.some(child => typeof child !== 'string' && holdsText(child));
