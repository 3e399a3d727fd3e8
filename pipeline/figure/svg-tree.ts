/** SVG as a tree: read, tidied, written. */
import { SaxesParser } from 'saxes';

export interface SvgElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly SvgNode[];
}
/** An element, or text between elements, not escaped. */
export type SvgNode = SvgElement | string;

/** An element made in code. Attributes that are undefined are left out; numbers are written to 0.01. */
export function element(
  name: string,
  attributes: Readonly<Record<string, string | number | undefined>>,
  children: readonly SvgNode[] = [],
): SvgElement {
  const written: Record<string, string> = {};
  for (const [key, value] of Object.entries(attributes)) {
    if (value !== undefined) written[key] = typeof value === 'number' ? svgNumber(value) : value;
  }
  return { name, attributes: written, children };
}

/** The shortest form to 0.01 px, never `-0`. */
export function svgNumber(value: number): string {
  const rounded = Math.round(value * 100) / 100;
  return String(rounded === 0 ? 0 : rounded);
}

/** Reads one well-formed document. @throws Error naming line and column where it is not well formed. */
export function parseSvg(text: string): SvgElement {
  const root: { name: string; attributes: Record<string, string>; children: SvgNode[] } = {
    name: '',
    attributes: {},
    children: [],
  };
  const open = [root];
  const parser = new SaxesParser();
  parser.on('error', error => {
    throw error;
  });
  parser.on('opentag', tag => {
    const made = {
      name: tag.name,
      attributes: { ...(tag.attributes as Record<string, string>) },
      children: [] as SvgNode[],
    };
    open.at(-1)!.children.push(made);
    open.push(made);
  });
  parser.on('closetag', () => open.pop());
  parser.on('text', content => {
    if (open.length > 1 && content !== '') open.at(-1)!.children.push(content);
  });
  parser.write(text).close();
  return root.children[0] as SvgElement;
}

/** Characters XML 1.0 forbids even as references. */
const FORBIDDEN = /[^\t\n\r\u0020-\uD7FF\uE000-\uFFFD\u{10000}-\u{10FFFF}]/gu;

/** Only what needs no second look; path data, the bulk of a picture, is nothing else. */
const PLAIN = /^[ !#-%'-;=?-~\u00a0-\ud7ff]*$/;

/** Text as it stands between tags or inside a quoted attribute. */
export const escapeXml = (text: string): string => (PLAIN.test(text) ? text : escaped(text));

const escaped = (text: string): string =>
  text
    .replace(FORBIDDEN, '')
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');

/** The tree as text, without white space between elements. */
export function serialiseSvg(node: SvgNode): string {
  if (typeof node === 'string') return escapeXml(node);
  let text = `<${node.name}`;
  for (const key in node.attributes) text += ` ${key}="${escapeXml(node.attributes[key]!)}"`;
  if (node.children.length === 0) return `${text}/>`;
  text += '>';
  for (const child of node.children) text += serialiseSvg(child);
  return `${text}</${node.name}>`;
}

/** Attributes of a still picture that say nothing, or that the element around already says. */
const NOISE = /^(?:class|role|aria-.*|pointer-events|stroke-miterlimit)$/;
const DEFAULTS: Readonly<Record<string, string>> = { opacity: '1', transform: 'translate(0,0)' };

/**
 * The same picture in fewer bytes: without roles and class names, empty groups and hidden paths,
 * numbers to 0.01 px. Groups that then say nothing give way to their children.
 */
export function tidySvg(node: SvgElement): readonly SvgNode[] {
  if (node.attributes.display === 'none' || node.attributes.d === 'M0,0h0v0h0Z') return [];
  const children = node.children.flatMap(child =>
    typeof child === 'string' ? (child.trim() === '' ? [] : [child]) : tidySvg(child),
  );
  const attributes: Record<string, string> = {};
  for (const [key, value] of Object.entries(node.attributes)) {
    if (NOISE.test(key) || DEFAULTS[key] === value) continue;
    attributes[key] = key === 'd' || key === 'transform' ? shortNumbers(value) : value;
  }
  const groups = node.name === 'g' || node.name === 'text';
  if (groups && children.length === 0) return [];
  if (node.name === 'g' && Object.keys(attributes).length === 0) return children;
  return [{ name: node.name, attributes, children }];
}

const shortNumbers = (text: string): string =>
  text.replace(/-?\d+\.\d+(?:e[-+]?\d+)?/g, digits => svgNumber(Number(digits)));
