/**
 * One field of a YAML file changed as a careful person would: only the characters of that field, so that comments,
 * order and hand formatting of everything else stay as they are to the byte.
 */
import { isDeepStrictEqual } from 'node:util';
import {
  type Document,
  isCollection,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  parseDocument,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { type Change, type Step, withChange } from './change.ts';
import { flowText, lineOf, linesOf, scalarText } from './yaml-text.ts';

/**
 * All changes in their order; a step that does not exist yet is made.
 * @throws Error where the text is no YAML, or a path leads through a single value
 */
export function changeYaml(text: string, changes: readonly Change[]): string {
  return changes.reduce(changeOne, text);
}

function changeOne(text: string, change: Change): string {
  const document = parseDocument(text, { uniqueKeys: true });
  if (document.errors.length > 0) throw new Error(document.errors[0]!.message);
  const before: unknown = document.toJS();
  const wanted = withChange(before, change);
  if (wanted === before) return text;
  const edited = spliced(text, document, change);
  if (edited !== undefined && holds(edited, wanted)) return edited;
  // Anchors, odd nesting and the like: the library writes the file anew, comments kept, layout its own.
  if (change.value === null) document.deleteIn(change.path);
  else document.setIn(change.path, document.createNode(change.value));
  const anew = document.toString({ lineWidth: 110 });
  if (!holds(anew, wanted)) throw new Error(`no such field: ${change.path.join('.')}`);
  return anew;
}

function holds(text: string, wanted: unknown): boolean {
  const document = parseDocument(text);
  return document.errors.length === 0 && isDeepStrictEqual(plain(document.toJS()), plain(wanted));
}

/** An empty file and a file of no fields are the same. */
const plain = (value: unknown): unknown => value ?? {};

function spliced(text: string, document: Document.Parsed, { path, value }: Change): string | undefined {
  if (document.contents === null)
    return value === null ? text : endedLine(text) + linesOf(nested(path, value), 0);
  let node: Node = document.contents as Node;
  for (const [depth, step] of path.entries()) {
    if (!isCollection(node) || node.anchor !== undefined) return undefined;
    const inner = nodeAt(node, step);
    const rest = path.slice(depth + 1);
    if (rest.length === 0 && value === null) return removed(text, node, step);
    if (inner === undefined) return value === null ? text : added(text, node, step, nested(rest, value));
    if (rest.length === 0) return replaced(text, node, inner, value);
    if (isScalar(inner) && inner.value === null) return replaced(text, node, inner, nested(rest, value));
    node = inner;
  }
  return undefined;
}

const nested = (path: readonly Step[], value: unknown): unknown =>
  path.reduceRight((inner, step) => (typeof step === 'number' ? [inner] : { [step]: inner }), value);

const keyOf = (pair: Pair): unknown => (isScalar(pair.key) ? pair.key.value : pair.key);
const pairOf = (map: YAMLMap, step: Step): Pair | undefined => map.items.find(pair => keyOf(pair) === step);

function nodeAt(node: YAMLMap | YAMLSeq, step: Step): Node | undefined {
  if (isMap(node)) return (pairOf(node, step)?.value ?? undefined) as Node | undefined;
  return typeof step === 'number' ? (node.items[step] as Node | undefined) : undefined;
}

const startOf = (node: Node): number => node.range![0];
const endOf = (node: Node): number => node.range![1];
const endedLine = (text: string): string => (text === '' || text.endsWith('\n') ? text : `${text}\n`);
const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1;
const lineEnd = (text: string, at: number): number => {
  const found = text.indexOf('\n', at);
  return found < 0 ? text.length : found + 1;
};
const indentAt = (text: string, at: number): number => at - lineStart(text, at);
const splice = (text: string, from: number, to: number, by: string): string =>
  text.slice(0, from) + by + text.slice(to);

function replaced(text: string, parent: YAMLMap | YAMLSeq, node: Node, value: unknown): string | undefined {
  if ('anchor' in node && node.anchor !== undefined) return undefined;
  const isBlock = !parent.flow;
  if (typeof value !== 'object') {
    if (!isScalar(node)) return undefined;
    const old = text.slice(startOf(node), endOf(node));
    const end = isBlockScalar(node) && old.endsWith('\n') ? '\n' : '';
    const gap = old === '' && text[startOf(node) - 1] !== ' ' ? ' ' : '';
    return splice(text, startOf(node), endOf(node), gap + scalarText(value, !isBlock) + end);
  }
  if (!isBlock || (isCollection(node) && node.flow === true)) {
    return splice(text, startOf(node), endOf(node), flowText(value));
  }
  if (isSeq(parent)) {
    const indent = dashColumn(text, startOf(node));
    const from = lineStart(text, startOf(node));
    return splice(text, from, lastLineEnd(text, node), lineOf(value, indent, 'block'));
  }
  // A collection in a block stands on lines of its own below its name.
  const pair = isMap(parent) ? parent.items.find(item => item.value === node) : undefined;
  if (pair === undefined) return undefined;
  const key = pair.key as Node;
  const indent = indentAt(text, startOf(key));
  const colon = text.indexOf(':', endOf(key));
  const after = isScalar(node) && !isBlockScalar(node) ? lineEnd(text, endOf(node)) : lastLineEnd(text, node);
  return splice(text, colon + 1, after, `\n${linesOf(value, indent + 2)}`);
}

const isBlockScalar = (node: Node): boolean => isScalar(node) && String(node.type).startsWith('BLOCK_');

/** Behind the line on which a node ends. */
function lastLineEnd(text: string, node: Node): number {
  const end = endOf(node);
  return end > 0 && text[end - 1] === '\n' ? end : lineEnd(text, end);
}

function added(text: string, parent: YAMLMap | YAMLSeq, step: Step, value: unknown): string | undefined {
  const last = parent.items.at(-1);
  if (isMap(parent) && typeof step !== 'string') return undefined;
  if (isSeq(parent) && (typeof step !== 'number' || step < parent.items.length)) return undefined;
  if (parent.flow) return addedToFlow(text, parent, step, value);
  if (last === undefined) return undefined;
  const first = isMap(parent) ? ((parent.items[0] as Pair).key as Node) : (parent.items[0] as Node);
  const indent = isMap(parent) ? indentAt(text, startOf(first)) : dashColumn(text, startOf(first));
  const lastNode = (isMap(parent) ? ((last as Pair).value ?? (last as Pair).key) : last) as Node;
  const at = lastLineEnd(text, lastNode);
  const head = text.slice(0, at);
  const line = isMap(parent) ? linesOf({ [step]: value }, indent) : itemLines(text, parent, value, indent);
  return `${endedLine(head)}${line}${text.slice(at)}`;
}

/** A list's new item as its neighbours are written: on one line in braces, or on lines of its own. */
function itemLines(text: string, parent: YAMLSeq, value: unknown, indent: number): string {
  const last = parent.items.at(-1) as Node;
  const isFlow = isCollection(last) && last.flow === true;
  const isLong = isFlow && text.slice(startOf(last), endOf(last)).includes('\n');
  return lineOf(value, indent, isFlow ? (isLong ? 'tall' : 'flow') : 'block');
}

/** Column of the dash before an item. */
function dashColumn(text: string, at: number): number {
  return indentAt(text, text.lastIndexOf('-', at));
}

function addedToFlow(
  text: string,
  parent: YAMLMap | YAMLSeq,
  step: Step,
  value: unknown,
): string | undefined {
  const item = isMap(parent) ? `${scalarText(step, true)}: ${flowText(value)}` : flowText(value);
  const close = endOf(parent) - 1;
  const last = parent.items.at(-1);
  if (last === undefined)
    return splice(text, startOf(parent), close + 1, isMap(parent) ? `{ ${item} }` : `[${item}]`);
  const lastNode = (isMap(parent) ? ((last as Pair).value ?? (last as Pair).key) : last) as Node;
  const from = endOf(lastNode);
  const tail = text.slice(from, close);
  const first = (isMap(parent) ? (parent.items[0] as Pair).key : parent.items[0]) as Node;
  const isTall = text.slice(startOf(parent), startOf(first)).includes('\n');
  if (!isTall) return splice(text, from, from, `, ${item}`);
  const indent = ' '.repeat(indentAt(text, startOf(first)));
  // A comma may stand behind the last item already.
  return tail.trimStart().startsWith(',')
    ? splice(text, from + tail.indexOf(',') + 1, from + tail.indexOf(',') + 1, `\n${indent}${item},`)
    : splice(text, from, from, `,\n${indent}${item}`);
}

function removed(text: string, parent: YAMLMap | YAMLSeq, step: Step): string | undefined {
  const index = isMap(parent) ? parent.items.findIndex(pair => keyOf(pair) === step) : (step as number);
  const item = parent.items[index];
  if (item === undefined) return text;
  const head = (isMap(parent) ? (item as Pair).key : item) as Node;
  const tail = (isMap(parent) ? ((item as Pair).value ?? (item as Pair).key) : item) as Node;
  if (parent.items.length === 1) return emptied(text, parent);
  if (parent.flow) {
    const next = parent.items[index + 1];
    if (next !== undefined) {
      const nextHead = (isMap(parent) ? (next as Pair).key : next) as Node;
      return splice(text, startOf(head), startOf(nextHead), '');
    }
    const before = parent.items[index - 1]!;
    const beforeTail = (isMap(parent) ? ((before as Pair).value ?? (before as Pair).key) : before) as Node;
    return splice(text, endOf(beforeTail), endOf(tail), '');
  }
  const at = isMap(parent) ? startOf(head) : text.lastIndexOf('-', startOf(head));
  const from = lineStart(text, at);
  // A first field on its parent's line, behind a dash, is left to the library.
  if (text.slice(from, at).trim() !== '') return undefined;
  return splice(text, from, lastLineEnd(text, tail), '');
}

/** A collection whose only entry went: it stays, empty, since its being there may mean something. */
function emptied(text: string, node: YAMLMap | YAMLSeq): string | undefined {
  const nothing = isMap(node) ? '{}' : '[]';
  if (node.flow === true) return splice(text, startOf(node), endOf(node), nothing);
  const colon = text.lastIndexOf(':', startOf(node));
  // Only blanks, and no remark that would be lost, between its name and itself.
  if (
    colon < 0 ||
    text
      .slice(colon + 1, startOf(node))
      .replace('-', '')
      .trim() !== ''
  )
    return undefined;
  return splice(text, colon + 1, lastLineEnd(text, node), ` ${nothing}\n`);
}
