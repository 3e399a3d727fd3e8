/** An outlined picture as the drawing operators of a PDF page (ISO 32000-2, clauses 8.4 and 8.5). */
import { hexToRgb } from '../colour.ts';
import { tellPath } from './path-data.ts';
import type { SvgElement, SvgNode } from './svg-tree.ts';

export interface PageContent {
  readonly operators: string;
  /** Opacities used, each with the name it is called by. */
  readonly opacities: ReadonlyMap<string, string>;
}

/** Attributes that shapes take from the elements around them. */
const INHERITED = [
  'fill',
  'stroke',
  'stroke-width',
  'stroke-dasharray',
  'stroke-linecap',
  'stroke-linejoin',
] as const;
type Painted = Readonly<Partial<Record<(typeof INHERITED)[number], string>>> & {
  readonly opacity: number;
  readonly decimals: number;
};

/** A number to this many decimals, never `-0`. */
function fixed(value: number, decimals: number): string {
  const rounded = decimals === 0 ? Math.round(value) : Math.round(value * 10 ** decimals) / 10 ** decimals;
  return String(rounded === 0 ? 0 : rounded);
}
const n = (value: number): string => fixed(value, 3);
/** Places are written to hundredths of a px; outlines count in hundredths already. */
const OUTLINE_SCALE = 'scale(0.01)';

const CAPS: Readonly<Record<string, number>> = { butt: 0, round: 1, square: 2 };
const JOINS: Readonly<Record<string, number>> = { miter: 0, round: 1, bevel: 2 };

/** Greys go out on the black plate alone. */
function colourOperator(hex: string, stroke: boolean): string {
  const [red, green, blue] = hexToRgb(hex).map(value => n(value / 255)) as [string, string, string];
  return red === green && green === blue
    ? `${red} ${stroke ? 'G' : 'g'}`
    : `${red} ${green} ${blue} ${stroke ? 'RG' : 'rg'}`;
}

/** @throws RangeError for an element, attribute or colour that figures do not use, rather than leaving it out. */
export function svgToPageContent(picture: SvgElement): PageContent {
  const lines: string[] = [];
  const opacities = new Map<string, string>();
  const walk = (node: SvgNode, around: Painted): void => {
    if (typeof node === 'string') return;
    const { attributes, name } = node;
    const own: Painted = {
      ...around,
      ...Object.fromEntries(
        INHERITED.flatMap(key => (attributes[key] === undefined ? [] : [[key, attributes[key]]])),
      ),
      opacity: around.opacity * Number(attributes.opacity ?? 1),
      decimals: attributes.transform?.includes(OUTLINE_SCALE) === true ? 0 : around.decimals,
    };
    const moved = attributes.transform === undefined ? [] : transformOperators(attributes.transform);
    if (moved.length > 0) lines.push('q', ...moved);
    switch (name) {
      case 'svg':
      case 'g':
        for (const child of node.children) walk(child, own);
        break;
      case 'path':
        paint(pathOperators(attributes.d ?? '', own.decimals), own, attributes);
        break;
      case 'line': {
        const at = (key: string): number => Number(attributes[key] ?? 0);
        paint(
          `${n(at('x1'))} ${n(at('y1'))} m\n${n(at('x2'))} ${n(at('y2'))} l`,
          { ...own, fill: 'none' },
          attributes,
        );
        break;
      }
      default:
        throw new RangeError(`A figure holds an element that cannot be drawn on a PDF page: ${name}`);
    }
    if (moved.length > 0) lines.push('Q');
  };

  const paint = (path: string, painted: Painted, attributes: Readonly<Record<string, string>>): void => {
    const fill = painted.fill ?? '#000000';
    const stroke = painted.stroke ?? 'none';
    const shown = (colour: string): boolean => colour !== 'none' && colour !== 'transparent';
    if (path.length === 0 || (!shown(fill) && !shown(stroke))) return;
    const fillOpacity = painted.opacity * Number(attributes['fill-opacity'] ?? 1);
    const strokeOpacity = painted.opacity * Number(attributes['stroke-opacity'] ?? 1);
    lines.push('q');
    if ((shown(fill) && fillOpacity < 1) || (shown(stroke) && strokeOpacity < 1)) {
      const state = `/ca ${n(fillOpacity)} /CA ${n(strokeOpacity)}`;
      if (!opacities.has(state)) opacities.set(state, `O${opacities.size + 1}`);
      lines.push(`/${opacities.get(state)} gs`);
    }
    if (shown(fill)) lines.push(colourOperator(fill, false));
    if (shown(stroke)) {
      lines.push(colourOperator(stroke, true), `${n(Number(painted['stroke-width'] ?? 1))} w`);
      const dash = painted['stroke-dasharray'];
      if (dash !== undefined && dash !== 'none') {
        lines.push(
          `[${dash
            .split(/[\s,]+/)
            .map(Number)
            .map(n)
            .join(' ')}] 0 d`,
        );
      }
      lines.push(`${CAPS[painted['stroke-linecap'] ?? 'butt'] ?? 0} J`);
      lines.push(`${JOINS[painted['stroke-linejoin'] ?? 'miter'] ?? 0} j`);
    }
    lines.push(path, shown(fill) ? (shown(stroke) ? 'B' : 'f') : 'S', 'Q');
  };

  walk(picture, { opacity: 1, decimals: 2 });
  return { operators: lines.join('\n'), opacities };
}

/** One line an operator. */
function pathOperators(d: string, decimals: number): string {
  let text = '';
  const written = (value: number): string => fixed(value, decimals);
  tellPath(d, {
    move: (x, y) => {
      text += `${written(x)} ${written(y)} m\n`;
    },
    line: (x, y) => {
      text += `${written(x)} ${written(y)} l\n`;
    },
    cubic: (x1, y1, x2, y2, x, y) => {
      text += `${written(x1)} ${written(y1)} ${written(x2)} ${written(y2)} ${written(x)} ${written(y)} c\n`;
    },
    close: () => {
      text += 'h\n';
    },
  });
  return text.slice(0, -1);
}

/** One matrix a function, in the order written. */
function transformOperators(transform: string): readonly string[] {
  return [...transform.matchAll(/(\w+)\(([^)]*)\)/g)].map(([, name = '', list = '']) => {
    const [a = 0, b, c] = list.split(/[\s,]+/).map(Number);
    const matrix = (...values: readonly number[]): string =>
      `${values.map(value => Math.round(value * 1e6) / 1e6).join(' ')} cm`;
    switch (name) {
      case 'translate':
        return matrix(1, 0, 0, 1, a, b ?? 0);
      case 'scale':
        return matrix(a, 0, 0, b ?? a, 0, 0);
      case 'rotate': {
        if (c !== undefined) throw new RangeError(`Not drawn on a PDF page: ${transform}`);
        const angle = (a * Math.PI) / 180;
        return matrix(Math.cos(angle), Math.sin(angle), -Math.sin(angle), Math.cos(angle), 0, 0);
      }
      default:
        throw new RangeError(`Not drawn on a PDF page: ${transform}`);
    }
  });
}
