/** YAML text as plain values, with the place of every field in the file. Never throws on what a file holds. */
import {
  type Document,
  type ErrorCode,
  isAlias,
  isMap,
  isNode,
  isScalar,
  isSeq,
  LineCounter,
  type Node,
  type Pair,
  parseDocument,
  type Scalar,
  visit,
  type YAMLMap,
} from 'yaml';
import type { Place, Problem } from '../problem.ts';
import { duplicateKey, fileTooLarge, leadingZero, syntaxFault, tooManyAliases } from '../problems/content.ts';
import { bytesToText } from './text.ts';
import { LOCAL_FAULTS, VALUE_FAULTS, yamlErrorToWording } from './yaml-syntax.ts';

export type Path = readonly (string | number)[];

/** Aliases one file may use; people write none, and a handful is enough for anybody who does. */
const ALIAS_LIMIT = 50;
/** Values after aliases are filled in; a thousand attempts come to less than a tenth of this. */
const VALUE_LIMIT = 100_000;
const DEPTH_LIMIT = 32;
/** Largest YAML file, bytes: a thousand attempts fill half of it, and the parser's time grows with the square. */
const YAML_LIMIT_BYTES = 256 * 1024;
const SYNTAX_FAULT_LIMIT = 20;

export interface YamlFile {
  readonly file: string;
  /** Undefined where the file is too broken to look further. */
  readonly value: unknown;
  readonly problems: readonly Problem[];
  /** Place of the value at a path, or of the nearest thing around it that is written. */
  place(path: Path): Place;
  /** Place of the name of a field. */
  keyPlace(path: Path, key: string): Place;
  /** The value as it stands in the file, where it is a single word, number or line. */
  source(path: Path): string | undefined;
  /** Whether the value stands in quotes. */
  isQuoted(path: Path): boolean;
}

class TooMuch extends Error {}

/** Parses YAML 1.2 (core schema) and lists every fault of its syntax in the order of lines. */
export function bytesToYaml(file: string, bytes: Uint8Array): YamlFile {
  if (bytes.length > YAML_LIMIT_BYTES) {
    return unreadable(file, fileTooLarge(file, bytes.length, YAML_LIMIT_BYTES));
  }
  const decoded = bytesToText(file, bytes);
  if ('problem' in decoded) return unreadable(file, decoded.problem);
  const { text } = decoded;
  const lines = new LineCounter();
  const at = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { file, line: Math.max(line, 1), column: Math.max(col, 1) };
  };
  const parsed = parseRecovering(text, lines);
  if (parsed === undefined) {
    const { what, mend } = yamlErrorToWording('RESOURCE_EXHAUSTION');
    return unreadable(file, syntaxFault({ file, line: 1, column: 1 }, what, mend));
  }
  const { document, faults } = parsed;

  const problems: Problem[] = [];
  const faultLines = new Set<number>();
  for (const fault of faults) {
    const where = at(fault.offset);
    // One fault makes the parser stumble again on the same line; the first says it.
    if (faultLines.has(where.line ?? 0) || faultLines.size >= SYNTAX_FAULT_LIMIT) continue;
    faultLines.add(where.line ?? 0);
    problems.push(faultToProblem(document, text, fault.code, fault.offset, at));
    if (fault.code === 'RESOURCE_EXHAUSTION') break;
  }

  let value: unknown;
  if (faults.every(fault => fault.recovered || LOCAL_FAULTS.has(fault.code))) {
    try {
      value = nodeToValue(document, document.contents, { aliases: 0, values: 0 }, 0);
    } catch (error) {
      if (!(error instanceof TooMuch)) throw error;
      problems.push(tooManyAliases(at(document.contents?.range?.[0] ?? 0)));
    }
  }
  if (value !== undefined) problems.push(...leadingZeros(document, at));

  const find = (path: Path) => nodeAt(document, path);
  return {
    file,
    value,
    problems,
    place: path => ({ ...at(find(path).offset), ...(path.length > 0 ? { field: path.join('.') } : {}) }),
    keyPlace: (path, key) => {
      const map = find(path);
      const pair = map.depth === path.length ? pairOf(map.node, key) : undefined;
      const offset = isNode(pair?.key) ? pair.key.range?.[0] : undefined;
      return { ...at(offset ?? map.offset), field: [...path, key].join('.') };
    },
    source: path => {
      const { node, depth } = find(path);
      if (depth !== path.length || !isScalar(node) || !node.range) return undefined;
      return text.slice(node.range[0], node.range[1]).trim();
    },
    isQuoted: path => {
      const { node, depth } = find(path);
      return depth === path.length && isScalar(node) && /^QUOTE/.test(String(node.type));
    },
  };
}

interface Fault {
  readonly code: ErrorCode;
  readonly offset: number;
  /** The value was set aside, and the rest of the file parsed as if it were plain text. */
  readonly recovered?: true;
}

/**
 * Parses; where the value of one line breaks the syntax, that value is taken for plain text and the file
 * parsed again, so that the faults of the other lines are found as well. Undefined where the parser itself
 * gives up, which it does on nesting beyond the stack.
 */
function parseRecovering(
  text: string,
  lines: LineCounter,
): { document: Document.Parsed; faults: Fault[] } | undefined {
  const recovered: Fault[] = [];
  let tried = text;
  for (;;) {
    let document: Document.Parsed;
    try {
      const lineCounter = tried === text ? lines : new LineCounter();
      document = parseDocument(tried, { lineCounter, prettyErrors: false, uniqueKeys: true });
    } catch {
      return undefined;
    }
    const faults: Fault[] = [...document.errors, ...document.warnings].map(error => ({
      code: error.code,
      offset: error.pos[0],
    }));
    if (document.directives?.yaml.version === '1.1') faults.push({ code: 'BAD_DIRECTIVE', offset: 0 });
    let aliases = 0;
    visit(document, {
      Alias: (_, node) => {
        // Looking one up walks the whole file: beyond the limit they are refused anyway.
        if (++aliases > ALIAS_LIMIT) return visit.BREAK;
        if (!node.resolve(document) && node.range) faults.push({ code: 'BAD_ALIAS', offset: node.range[0] });
        return undefined;
      },
    });
    const first = faults.find(fault => VALUE_FAULTS.has(fault.code));
    const mended = first && recovered.length < SYNTAX_FAULT_LIMIT && asPlainText(tried, first.offset);
    if (!first || !mended) {
      const all = [...recovered, ...faults].sort((a, b) => a.offset - b.offset);
      return { document, faults: all };
    }
    recovered.push({ ...first, recovered: true });
    tried = mended;
  }
}

/** The text with the value of one line made harmless, letter for letter so that places stay true. */
function asPlainText(text: string, offset: number): string | undefined {
  const from = text.lastIndexOf('\n', offset - 1) + 1;
  const to = text.indexOf('\n', offset) < 0 ? text.length : text.indexOf('\n', offset);
  const line = /^([ ]*(?:- +)?[\w-]+: +)([^\s|>{[&*!#].*)$/.exec(text.slice(from, to));
  if (!line?.[1] || !line[2] || /^x+$/.test(line[2])) return undefined;
  return text.slice(0, from) + line[1] + 'x'.repeat(line[2].length) + text.slice(to);
}

function unreadable(file: string, problem: Problem): YamlFile {
  const place = (): Place => ({ file, line: 1, column: 1 });
  return {
    file,
    value: undefined,
    problems: [problem],
    place,
    keyPlace: place,
    source: () => undefined,
    isQuoted: () => false,
  };
}

function faultToProblem(
  document: Document.Parsed,
  text: string,
  code: ErrorCode,
  offset: number,
  at: (offset: number) => Place,
): Problem {
  if (code === 'DUPLICATE_KEY') {
    return duplicateKey(at(offset), /^[^\s:]{1,60}/.exec(text.slice(offset))?.[0] ?? 'A field');
  }
  const { what, mend } = yamlErrorToWording(code);
  const quote = code === 'MISSING_CHAR' ? unclosedQuote(document, offset) : undefined;
  if (quote !== undefined) {
    return syntaxFault(at(quote), 'The quotation mark that opens here is never closed', 'Close it.');
  }
  return syntaxFault(at(offset), what, mend);
}

/** The parser names the end of the file; the person needs the place where the quotation opens. */
function unclosedQuote(document: Document.Parsed, end: number): number | undefined {
  let opens: number | undefined;
  visit(document, {
    Scalar: (_, node) => {
      const range = node.range;
      if (/^QUOTE/.test(String(node.type)) && range && range[0] < end && range[1] >= end) opens = range[0];
    },
  });
  return opens;
}

function leadingZeros(document: Document.Parsed, at: (offset: number) => Place): Problem[] {
  const problems: Problem[] = [];
  visit(document, {
    Scalar: (_, node) => {
      if (typeof node.value !== 'number' || !node.range) return;
      if (/^[+-]?0\d/.test(node.source ?? '')) {
        problems.push(leadingZero(at(node.range[0]), node.source ?? '', String(node.value)));
      }
    },
  });
  return problems;
}

/** Our own walk instead of the library's: it counts, keeps `__proto__` an ordinary name and cannot loop. */
function nodeToValue(
  document: Document.Parsed,
  node: unknown,
  count: { aliases: number; values: number },
  depth: number,
): unknown {
  if (++count.values > VALUE_LIMIT || depth > DEPTH_LIMIT) throw new TooMuch();
  if (isAlias(node)) {
    if (++count.aliases > ALIAS_LIMIT) throw new TooMuch();
    return nodeToValue(document, node.resolve(document), count, depth + 1);
  }
  if (isMap(node)) {
    const value = {};
    for (const pair of node.items) {
      Object.defineProperty(value, keyText(pair), {
        value: nodeToValue(document, pair.value, count, depth + 1),
        enumerable: true,
        configurable: true,
        writable: true,
      });
    }
    return value;
  }
  if (isSeq(node)) return node.items.map(item => nodeToValue(document, item, count, depth + 1));
  if (!isScalar(node)) return null;
  const value: unknown = node.value;
  // Anything a tag made (bytes, dates) counts as the text it was written as.
  return typeof value === 'object' && value !== null ? String(node.source ?? value) : value;
}

function keyText(pair: Pair): string {
  const key = pair.key;
  if (isScalar(key)) return String((key as Scalar).source ?? key.value ?? '');
  return isNode(key) ? `(${key.constructor.name})` : String(key);
}

function pairOf(node: unknown, key: string): Pair | undefined {
  if (!isMap(node)) return undefined;
  return (node as YAMLMap).items.findLast(pair => keyText(pair as Pair) === key) as Pair | undefined;
}

/** Follows a path as far as it is written. */
function nodeAt(
  document: Document.Parsed,
  path: Path,
): { node: Node | null | undefined; offset: number; depth: number } {
  const resolved = (node: unknown): unknown => (isAlias(node) ? node.resolve(document) : node);
  let node: unknown = resolved(document.contents);
  let offset = isNode(document.contents) ? (document.contents.range?.[0] ?? 0) : 0;
  let depth = 0;
  for (const step of path) {
    let next: unknown;
    if (isMap(node)) {
      const pair = pairOf(node, String(step));
      if (!pair) break;
      next = pair.value;
      if (!isNode(next) || (isScalar(next) && next.value === null)) {
        // A field with nothing after it has no place of its own: its name has.
        if (isNode(pair.key)) offset = pair.key.range?.[0] ?? offset;
        return { node: isNode(next) ? next : null, offset, depth: depth + 1 };
      }
    } else if (isSeq(node) && typeof step === 'number' && step < node.items.length) {
      next = node.items[step];
    } else break;
    if (!isNode(next)) break;
    offset = next.range?.[0] ?? offset;
    node = resolved(next);
    depth++;
  }
  return { node: isNode(node) ? node : null, offset, depth };
}
