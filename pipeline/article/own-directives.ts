/**
 * Reads an article's Markdown so that only our own directives are directives.
 *
 * The directive syntax of remark-directive takes any colon before a word: `16:9`, `10:30am` and `C:drive`
 * would lose their second half. Whatever is not ours is therefore written back into the source with its
 * colons escaped and read again, until none is left: it then is the ordinary Markdown it would be without
 * directives, with every character as written.
 */
import type { Node, Root } from 'mdast';
import type { ContainerDirective, LeafDirective, TextDirective } from 'mdast-util-directive';
import { remark } from 'remark';
import remarkDirective from 'remark-directive';
import remarkGfm from 'remark-gfm';
import { SKIP, visit } from 'unist-util-visit';

/** Within a sentence, one colon: `:number{of=0-100-kmh}`. */
export const INLINE_DIRECTIVES = ['number', 'difference', 'count', 'condition'] as const;
/** On a line of their own, two colons: `::figure{show=braking}`. */
export const BLOCK_DIRECTIVES = ['figure', 'table'] as const;
export type InlineName = (typeof INLINE_DIRECTIVES)[number];
export type BlockName = (typeof BLOCK_DIRECTIVES)[number];
export type DirectiveName = InlineName | BlockName;
export const DIRECTIVES: readonly DirectiveName[] = [...INLINE_DIRECTIVES, ...BLOCK_DIRECTIVES];

export type DirectiveNode = TextDirective | LeafDirective | ContainerDirective;

/** One directive of ours, with the place of its first colon in the file; lines and columns count from 1. */
export interface OwnDirective {
  readonly name: DirectiveName;
  readonly attributes: Readonly<Record<string, string>>;
  readonly line: number;
  readonly column: number;
  /** Whether it stands as its name asks: within a sentence, or on a line of its own. */
  readonly inPlace: boolean;
  /** From its first colon to its closing brace. */
  readonly written: string;
  readonly node: DirectiveNode;
}

/** A name with attributes in braces that is not ours: perhaps a slip of the pen, so it is told. */
export interface StrayDirective {
  readonly name: string;
  readonly line: number;
  readonly column: number;
}

/** Written like one of ours, but not so that it can be read: `:number {of=…}`, `:number(of=…)`, an open quotation mark. */
export interface UnreadDirective {
  readonly name: DirectiveName;
  readonly written: string;
  readonly line: number;
  readonly column: number;
}

export interface ParsedArticle {
  readonly tree: Root;
  /** In the order of the text. */
  readonly directives: readonly OwnDirective[];
  readonly strays: readonly StrayDirective[];
  readonly unread: readonly UnreadDirective[];
  /** Place of a node's first character in the file as written. */
  placeOf(node: Node): { line: number; column: number };
}

const reader = remark().use(remarkGfm).use(remarkDirective);

/** Parses an article; never fails, and leaves judging of names and attributes to the caller. */
export function parseArticle(markdown: string): ParsedArticle {
  let source = markdown;
  /** Offsets in `source` of the backslashes put in, ascending. */
  let inserted: number[] = [];
  const strays = new Map<number, StrayDirective>();
  for (;;) {
    const tree = reader.parse(source);
    const place = (node: Node) => lineAndColumn(markdown, originalOffset(node, inserted));
    const directives: OwnDirective[] = [];
    const colons: number[] = [];
    visit(tree, node => {
      if (!isDirective(node)) return;
      const at = node.position?.start.offset ?? 0;
      // A fence may be indented, or stand after the mark of a quotation or a list.
      const first = source.indexOf(':', at);
      const withAttributes = hasAttributes(node, source);
      if (withAttributes && isOurs(node.name)) {
        const { line, column } = place(node);
        directives.push({
          name: node.name,
          attributes: plainAttributes(node),
          line,
          column,
          inPlace: INLINE_DIRECTIVES.includes(node.name as InlineName)
            ? node.type === 'textDirective'
            : node.type === 'leafDirective',
          written: source.slice(first, node.position?.end.offset),
          node,
        });
        return SKIP;
      }
      if (withAttributes) {
        const offset = originalOffset(node, inserted);
        if (!strays.has(offset)) strays.set(offset, { name: node.name, ...place(node) });
      }
      for (let i = first; source[i] === ':'; i += 1) colons.push(i);
      return SKIP;
    });
    if (colons.length === 0) {
      const unread = unreadDirectives(tree, markdown, node => originalOffset(node, inserted));
      return { tree, directives, strays: [...strays.values()], unread, placeOf: place };
    }
    ({ source, inserted } = escapeColons(source, inserted, colons));
  }
}

/** Ends at the first attribute, so that prose such as `see: figure (3)` is none. */
const UNREAD = new RegExp(`:{1,3}[ \\t]*(${DIRECTIVES.join('|')})[ \\t]*[({[][ \\t]*[a-z]+[ \\t]*[=:]`, 'g');

/** Only in running text: what stands between backticks or after a backslash is meant to be seen. */
function unreadDirectives(tree: Root, markdown: string, offsetOf: (node: Node) => number): UnreadDirective[] {
  const unread: UnreadDirective[] = [];
  visit(tree, 'text', node => {
    let from = offsetOf(node);
    for (const [written, name] of node.value.matchAll(UNREAD)) {
      const at = markdown.indexOf(written, from);
      if (at < 0) continue;
      from = at + written.length;
      if (markdown[at - 1] === '\\') continue;
      unread.push({ name: name as DirectiveName, written, ...lineAndColumn(markdown, at) });
    }
  });
  return unread;
}

function isDirective(node: Node): node is DirectiveNode {
  return node.type === 'textDirective' || node.type === 'leafDirective' || node.type === 'containerDirective';
}

const isOurs = (name: string): name is DirectiveName => (DIRECTIVES as readonly string[]).includes(name);

/** Braces decide: `tel:number` in a sentence is prose, `:number{…}` asks for something. */
function hasAttributes(node: DirectiveNode, source: string): boolean {
  const start = node.position?.start.offset ?? 0;
  const end = node.position?.end.offset ?? 0;
  const written = source.slice(start, end);
  const opening = node.type === 'containerDirective' ? (written.split('\n', 1)[0] ?? '') : written;
  return opening.trimEnd().endsWith('}');
}

function plainAttributes(node: DirectiveNode): Record<string, string> {
  const attributes: Record<string, string> = {};
  for (const [name, value] of Object.entries(node.attributes ?? {})) attributes[name] = value ?? '';
  return attributes;
}

function escapeColons(
  source: string,
  inserted: readonly number[],
  colons: readonly number[],
): { source: string; inserted: number[] } {
  const marks = [...new Set(colons)].sort((a, b) => a - b);
  let escaped = '';
  let from = 0;
  for (const colon of marks) {
    escaped += `${source.slice(from, colon)}\\`;
    from = colon;
  }
  escaped += source.slice(from);
  const shifted = inserted.map(offset => offset + marks.filter(mark => mark <= offset).length);
  const added = marks.map((mark, index) => mark + index);
  return { source: escaped, inserted: [...shifted, ...added].sort((a, b) => a - b) };
}

function originalOffset(node: Node, inserted: readonly number[]): number {
  const offset = node.position?.start.offset ?? 0;
  return offset - inserted.filter(mark => mark < offset).length;
}

function lineAndColumn(text: string, offset: number): { line: number; column: number } {
  const before = text.slice(0, offset);
  const lineStart = before.lastIndexOf('\n') + 1;
  return { line: before.split('\n').length, column: offset - lineStart + 1 };
}
