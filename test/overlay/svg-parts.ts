/** The rectangles and outlines of an overlay's SVG, for measuring. */
import { type PathBox, pathBox } from '../lettering/path-box.ts';

export interface SvgPart {
  readonly element: 'rect' | 'path';
  readonly fill: string;
  readonly opacity: number;
  readonly box: PathBox;
}

const ELEMENT =
  /^<(rect|path) (?:x="(\d+)" y="(\d+)" width="(\d+)" height="(\d+)"|d="([-\d .A-Z]*)") fill="(#[0-9a-f]{6})"(?: fill-opacity="([\d.]+)")?\/>$/;

/** Every element between `<svg …>` and `</svg>`. @throws Error on anything that is not a rectangle or an outline. */
export function svgParts(svg: string): readonly SvgPart[] {
  const lines = svg.trimEnd().split('\n');
  if (!lines[0]?.startsWith('<svg ') || lines.at(-1) !== '</svg>') throw new Error('not one svg element');
  return lines.slice(1, -1).map(line => {
    const match = ELEMENT.exec(line);
    if (!match) throw new Error(`not a rectangle or an outline: ${line.slice(0, 80)}`);
    const [, element, x, y, width, height, path = '', fill = '', opacity = '1'] = match;
    const [left, top] = [Number(x), Number(y)];
    const box =
      element === 'rect'
        ? { left, top, right: left + Number(width), bottom: top + Number(height) }
        : pathBox(path);
    return { element: element as 'rect' | 'path', fill, opacity: Number(opacity), box };
  });
}
