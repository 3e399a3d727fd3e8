/** The grounds a figure is printed on: the same drawing, its colours exchanged one for one. */
import { COLOUR, PALETTES, type Paper, SERIES } from '../look.ts';
import type { FigureLayout } from './figure.ts';
import type { SvgElement, SvgNode } from './svg-tree.ts';

/** A printed column is drawn in greys that a black-and-white printer keeps apart; a screen's figure on light paper. */
export const paperOf = (layout: FigureLayout): Paper => (layout === 'print' ? 'mono' : 'light');

/** What each colour of the light paper becomes; series without a colour of their own have that of the ink or accent. */
function exchange(paper: Paper): ReadonlyMap<string, string> {
  const to = PALETTES[paper];
  return new Map([
    ...SERIES.map(({ colour }, index) => [colour, to.series[index]!] as const),
    [COLOUR.paper, to.paper],
    [COLOUR.ink, to.ink],
    [COLOUR.muted, to.muted],
    [COLOUR.hairline, to.hairline],
    [COLOUR.accent, to.accent],
  ]);
}

/** A figure drawn for light paper, on another. */
export function onPaper(tree: SvgElement, paper: Paper): SvgElement {
  if (paper === 'light') return tree;
  const exchanged = exchange(paper);
  const walk = (node: SvgNode): SvgNode => {
    if (typeof node === 'string') return node;
    const { fill, stroke } = node.attributes;
    return {
      ...node,
      attributes: {
        ...node.attributes,
        ...(fill === undefined ? {} : { fill: exchanged.get(fill) ?? fill }),
        ...(stroke === undefined ? {} : { stroke: exchanged.get(stroke) ?? stroke }),
      },
      children: node.children.map(walk),
    };
  };
  return walk(tree) as SvgElement;
}
