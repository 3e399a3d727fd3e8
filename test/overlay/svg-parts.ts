/** The rectangles, outlines and the logo of an overlay's SVG, for measuring. */
import { type PathBox, pathBox } from '../lettering/path-box.ts';

export interface SvgPart {
  readonly element: 'rect' | 'path' | 'image';
  readonly fill: string;
  readonly opacity: number;
  readonly box: PathBox;
}

const ELEMENT =
  /^<(rect|path) (?:x="(\d+)" y="(\d+)" width="(\d+)" height="(\d+)"|d="([-\d .A-Z]*)") fill="(#[0-9a-f]{6})"(?: fill-opacity="([\d.]+)")?\/>$/;

/** The logo: a PNG in base64 and nothing else. */
const IMAGE =
  /^<image x="(\d+)" y="(\d+)" width="(\d+)" height="(\d+)" href="data:image\/png;base64,[A-Za-z0-9+/]+=*"\/>$/;

/** Every element between `<svg …>` and `</svg>`. @throws Error on anything that is not a rectangle, an outline or the logo. */
export function svgParts(svg: string): readonly SvgPart[] {
  const lines = svg.trimEnd().split('\n');
  if (!lines[0]?.startsWith('<svg ') || lines.at(-1) !== '</svg>') throw new Error('not one svg element');
  return lines.slice(1, -1).map(line => {
    const image = IMAGE.exec(line);
    if (image) {
      const [left = 0, top = 0, width = 0, height = 0] = image.slice(1).map(Number);
      return {
        element: 'image',
        fill: '',
        opacity: 1,
        box: { left, top, right: left + width, bottom: top + height },
      };
    }
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
