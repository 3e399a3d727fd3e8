/**
 * A logo's SVG built anew from the shapes it holds. Nothing is taken over that could run, load, or grow without
 * bounds: only listed elements and attributes are written, and what would be missed in the picture is told.
 */
import { element, parseSvg, type SvgElement, type SvgNode, serialiseSvg } from '../figure/svg-tree.ts';
import type { Problem } from '../problem.ts';
import { logoNotDrawn, logoRefers, logoTooLarge, logoUnreadable } from '../problems/logo.ts';

/** Width and height that the picture is drawn into, px: twice what the largest plate of a 2160p picture needs. */
export const LOGO_BOX = { widthPx: 720, heightPx: 360 } as const;

const SHAPES = new Set(['g', 'path', 'rect', 'circle', 'ellipse', 'line', 'polyline', 'polygon']);
const PAINT = new Set(['defs', 'linearGradient', 'radialGradient', 'stop', 'clipPath']);
/** Draw nothing by themselves: words about the file, and what moves or runs. */
const SILENT = new Set([
  'title',
  'desc',
  'metadata',
  'script',
  'animate',
  'animateTransform',
  'animateMotion',
  'set',
]);

const GEOMETRY =
  'id d x y width height rx ry cx cy r x1 y1 x2 y2 fx fy points transform offset gradientUnits gradientTransform spreadMethod clipPathUnits';
const PRESENTATION =
  'fill fill-rule fill-opacity stroke stroke-width stroke-linecap stroke-linejoin stroke-miterlimit stroke-opacity ' +
  'opacity clip-path clip-rule stop-color stop-opacity color display visibility';
const PRESENTED = new Set(PRESENTATION.split(' '));
const WRITTEN = new Set([...GEOMETRY.split(' '), ...PRESENTED]);
/** Would be missed in the picture, and is not taken over: filters and masks may be costly, dashes endless. */
const MISSED = new Set([
  'filter',
  'mask',
  'stroke-dasharray',
  'marker',
  'marker-start',
  'marker-end',
  'marker-mid',
]);
const NOTHING = new Set(['none', '0', '']);

const MOST_ELEMENTS = 4000;
const MOST_DEPTH = 48;
/** Longer side over shorter side. */
const MOST_ASPECT = 12;
const OWN_REFERENCE = /^url\(\s*["']?#[\w.-]+["']?\s*\)$/;

export interface LogoSvg {
  readonly svg: string;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The same picture as an SVG that fits `LOGO_BOX`, or everything that stands against drawing it. */
export function rebuildLogoSvg(
  file: string,
  text: string,
): LogoSvg | { readonly problems: readonly Problem[] } {
  let root: SvgElement | undefined;
  try {
    root = parseSvg(text);
  } catch {
    return { problems: [logoUnreadable(file, 'text that is not well-formed XML')] };
  }
  if (root?.name !== 'svg')
    return { problems: [logoUnreadable(file, 'a file whose outermost element is not svg')] };
  const frame = frameOf(root);
  if (frame === undefined) return { problems: [logoUnreadable(file, 'no viewBox, or one far too long')] };

  const missed = new Set<string>();
  const refers = new Set<string>();
  let count = 0;
  let deep = false;
  const rebuild = (node: SvgNode, depth: number, inClip: boolean): SvgNode[] => {
    if (typeof node === 'string' || SILENT.has(node.name) || node.name.includes(':')) return [];
    if (++count > MOST_ELEMENTS || depth > MOST_DEPTH) {
      deep = true;
      return [];
    }
    for (const reference of foreignReferences(node)) refers.add(reference);
    if (!SHAPES.has(node.name) && !PAINT.has(node.name)) {
      missed.add(`<${node.name}>`);
      return [];
    }
    const attributes = safeAttributes(node, missed);
    // A clip on each shape of a clip, and so on, would double the work at every step.
    if (inClip && 'clip-path' in attributes) missed.add('clip-path inside <clipPath>');
    const children = node.children.flatMap(child =>
      rebuild(child, depth + 1, inClip || node.name === 'clipPath'),
    );
    return [element(node.name, attributes, children)];
  };
  for (const reference of foreignReferences(root)) refers.add(reference);
  const children = root.children.flatMap(child => rebuild(child, 1, false));
  if (deep)
    return { problems: [logoTooLarge(file, `${MOST_ELEMENTS} shapes, ${MOST_DEPTH} inside each other`)] };
  if (refers.size > 0) return { problems: [logoRefers(file, [...refers])] };
  if (missed.size > 0) return { problems: [logoNotDrawn(file, [...missed])] };
  const { widthPx, heightPx, viewBox } = frame;
  const svg = element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      ...safeAttributes({ ...root, attributes: presentedOnly(root.attributes) }, missed),
      width: String(widthPx),
      height: String(heightPx),
      viewBox,
    },
    children,
  );
  return { svg: serialiseSvg(svg), widthPx, heightPx };
}

const presentedOnly = (attributes: SvgElement['attributes']): SvgElement['attributes'] =>
  Object.fromEntries(Object.entries(attributes).filter(([key]) => PRESENTED.has(key) || key === 'style'));

/** The view box, or width and height as one; and whole pixels of the same shape that fit the box. */
function frameOf({
  attributes,
}: SvgElement): (Omit<LogoSvg, 'svg'> & { readonly viewBox: string }) | undefined {
  const numbers = (attributes.viewBox ?? `0 0 ${sizeOf(attributes.width)} ${sizeOf(attributes.height)}`)
    .trim()
    .split(/[\s,]+/)
    .map(Number);
  const [, , width = 0, height = 0] = numbers;
  const aspect = Math.max(width / height, height / width);
  if (numbers.length !== 4 || !numbers.every(Number.isFinite) || !(width > 0 && height > 0)) return undefined;
  if (aspect > MOST_ASPECT) return undefined;
  const scale = Math.min(LOGO_BOX.widthPx / width, LOGO_BOX.heightPx / height);
  return {
    widthPx: Math.max(1, Math.round(width * scale)),
    heightPx: Math.max(1, Math.round(height * scale)),
    viewBox: numbers.join(' '),
  };
}

const sizeOf = (written: string | undefined): string => written?.replace(/px$/, '') ?? '';

/** References to anything but a part of the same file, as they are written; cut, they may be long. */
function foreignReferences({ attributes }: SvgElement): readonly string[] {
  return Object.entries(attributes).flatMap(([key, value]) => {
    const link = /(^|:)(href|src)$/.test(key) && !value.trim().startsWith('#');
    const urls = [...value.matchAll(/url\([^)]*\)?/g)].map(([url]) => url);
    const foreign = urls.filter(url => !OWN_REFERENCE.test(url));
    return (link ? [value] : foreign).map(reference => reference.slice(0, 60));
  });
}

/** The listed attributes and declarations of `style`, the latter winning as they do in CSS. */
function safeAttributes({ name, attributes }: SvgElement, missed: Set<string>): Record<string, string> {
  const safe: Record<string, string> = {};
  const take = (key: string, value: string): void => {
    if (MISSED.has(key)) {
      if (!NOTHING.has(value)) missed.add(key);
    } else if (WRITTEN.has(key)) {
      safe[key] = value;
    }
  };
  for (const [key, value] of Object.entries(attributes)) take(key, value.trim());
  for (const declaration of attributes.style?.split(';') ?? []) {
    const [key = '', ...value] = declaration.split(':');
    if (PRESENTED.has(key.trim()) || MISSED.has(key.trim())) {
      take(key.trim(), value.join(':').replace('!important', '').trim());
    }
  }
  const link = attributes.href ?? attributes['xlink:href'];
  if (name.endsWith('Gradient') && link !== undefined) safe.href = link.trim();
  return safe;
}
