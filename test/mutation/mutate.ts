/** Small faults put into a source text, one at a time: what a test that looks closely should find. */
import ts from 'typescript';

/** Which kind of fault; the report counts by these. */
export type Operator =
  | 'arithmetic'
  | 'boundary'
  | 'comparison'
  | 'logic'
  | 'absence'
  | 'condition'
  | 'sign'
  | 'assignment'
  | 'number'
  | 'truth'
  | 'statement'
  | 'return'
  | 'call';

export interface Mutant {
  /** Path from the root of the project, with `/`. */
  readonly file: string;
  readonly operator: Operator;
  /** First line is 1. */
  readonly line: number;
  /** The whole line it begins on, trimmed. */
  readonly text: string;
  /** What stands there, and what is put in its place. */
  readonly from: string;
  readonly to: string;
  /** Place of `from` in the file, and of the whole expression or statement that is reached with it. */
  readonly start: number;
  readonly end: number;
  readonly site: string;
}

/** A number that is not whole is made a tenth larger: less is often within what readings can tell at all. */
const LARGER = 1.1;

const ARITHMETIC: Readonly<Record<string, string>> = {
  '+': '-',
  '-': '+',
  '*': '/',
  '/': '*',
  '%': '*',
  '**': '*',
};
const BOUNDARY: Readonly<Record<string, string>> = { '<': '<=', '<=': '<', '>': '>=', '>=': '>' };
const COMPARISON: Readonly<Record<string, string>> = {
  '<': '>=',
  '<=': '>',
  '>': '<=',
  '>=': '<',
  '===': '!==',
  '!==': '===',
};
const ASSIGNMENT: Readonly<Record<string, string>> = { '+=': '-=', '-=': '+=', '*=': '/=', '/=': '*=' };
/** Functions of `Math` that stand for each other. */
const MATH: Readonly<Record<string, string>> = {
  min: 'max',
  max: 'min',
  floor: 'ceil',
  ceil: 'floor',
  round: 'floor',
  sin: 'cos',
  cos: 'sin',
};
/** Functions of `Math` that can be left out. */
const MATH_LEFT_OUT = new Set(['abs', 'sqrt']);
/** Methods of arrays that stand for each other, and those that can be left out. */
const METHODS: Readonly<Record<string, string>> = {
  some: 'every',
  every: 'some',
  find: 'findLast',
  findLast: 'find',
  findIndex: 'findLastIndex',
  findLastIndex: 'findIndex',
};
const METHODS_LEFT_OUT = new Set(['filter', 'slice', 'sort', 'toSorted', 'reverse', 'toReversed']);

/** By which a node is known again in another parse of the same text. */
export function siteOf(node: ts.Node, source: ts.SourceFile): string {
  return `${node.kind}:${node.getStart(source)}:${node.end}`;
}

/** All mutants of one file, in the order of the text. Types, imports and words are left as they are. */
export function mutantsOf(file: string, source: string): readonly Mutant[] {
  const parsed = ts.createSourceFile(file, source, ts.ScriptTarget.Latest, true);
  const lines = source.split('\n');
  const found: Mutant[] = [];
  const textOf = (node: ts.Node): string => source.slice(node.getStart(parsed), node.end);

  const add = (operator: Operator, at: ts.Node, site: ts.Node, to: string): void => {
    const start = at.getStart(parsed);
    const line = parsed.getLineAndCharacterOfPosition(start).line;
    found.push({
      file,
      operator,
      line: line + 1,
      text: lines[line]!.trim(),
      from: source.slice(start, at.end),
      to,
      start,
      end: at.end,
      site: siteOf(site, parsed),
    });
  };

  const condition = (at: ts.Expression, outcomes: readonly ('true' | 'false')[]): void => {
    for (const outcome of outcomes) if (textOf(at) !== outcome) add('condition', at, at, outcome);
  };

  const binary = (node: ts.BinaryExpression): void => {
    const operator = node.operatorToken.getText(parsed);
    const [left, right] = [textOf(node.left), textOf(node.right)];
    const swap = (kind: Operator, by: Readonly<Record<string, string>>): void => {
      const other = by[operator];
      // Parentheses keep what stood together together.
      if (other !== undefined) add(kind, node, node, `(${left}) ${other} (${right})`);
    };
    if (operator in ASSIGNMENT) {
      if (!(operator === '+=' && isText(node.right))) {
        add('assignment', node, node, `${left} ${ASSIGNMENT[operator]} (${right})`);
      }
      return;
    }
    if (!(operator === '+' && (isText(node.left) || isText(node.right)))) swap('arithmetic', ARITHMETIC);
    swap('boundary', BOUNDARY);
    swap('comparison', COMPARISON);
    if (operator === '&&' || operator === '||') {
      add('logic', node, node, `(${left}) ${operator === '&&' ? '||' : '&&'} (${right})`);
    }
    if (operator === '??') {
      add('absence', node, node, `(${left})`);
      add('absence', node, node, `(${right})`);
    }
  };

  const call = (node: ts.CallExpression): void => {
    if (!ts.isPropertyAccessExpression(node.expression) || ts.isOptionalChain(node)) return;
    const name = node.expression.name;
    const of = textOf(node.expression.expression);
    if (of === 'Math') {
      const other = MATH[name.text];
      if (other !== undefined) add('call', name, node, other);
      if (MATH_LEFT_OUT.has(name.text)) add('call', node, node, `(${node.arguments.map(textOf).join(', ')})`);
      return;
    }
    const other = METHODS[name.text];
    if (other !== undefined) add('call', name, node, other);
    if (METHODS_LEFT_OUT.has(name.text)) add('call', node, node, of);
  };

  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node) && !ts.isExpressionWithTypeArguments(node)) return;
    if (ts.isImportDeclaration(node) || ts.isInterfaceDeclaration(node) || ts.isTypeAliasDeclaration(node))
      return;

    if (ts.isBinaryExpression(node)) binary(node);
    else if (ts.isCallExpression(node)) call(node);
    else if (ts.isIfStatement(node)) condition(node.expression, ['true', 'false']);
    else if (ts.isConditionalExpression(node)) condition(node.condition, ['true', 'false']);
    else if (ts.isWhileStatement(node) || ts.isDoStatement(node)) condition(node.expression, ['false']);
    else if (ts.isForStatement(node) && node.condition) condition(node.condition, ['false']);
    else if (ts.isPrefixUnaryExpression(node)) {
      const operand = textOf(node.operand);
      if (node.operator === ts.SyntaxKind.MinusToken) add('sign', node, node, `(${operand})`);
      if (node.operator === ts.SyntaxKind.ExclamationToken) add('logic', node, node, `(${operand})`);
      if (node.operator === ts.SyntaxKind.PlusPlusToken) add('assignment', node, node, `--${operand}`);
      if (node.operator === ts.SyntaxKind.MinusMinusToken) add('assignment', node, node, `++${operand}`);
    } else if (ts.isPostfixUnaryExpression(node)) {
      const up = node.operator === ts.SyntaxKind.PlusPlusToken;
      add('assignment', node, node, `${textOf(node.operand)}${up ? '--' : '++'}`);
    } else if (ts.isNumericLiteral(node)) {
      const named = ts.isPropertyAssignment(node.parent) && node.parent.name === node;
      if (!named) add('number', node, node, numberBeside(Number(node.text)));
    } else if (node.kind === ts.SyntaxKind.TrueKeyword) add('truth', node, node, 'false');
    else if (node.kind === ts.SyntaxKind.FalseKeyword) add('truth', node, node, 'true');
    else if (
      ts.isExpressionStatement(node) ||
      ts.isThrowStatement(node) ||
      ts.isBreakStatement(node) ||
      ts.isContinueStatement(node)
    ) {
      add('statement', node, node, ';');
    } else if (ts.isReturnStatement(node) && node.expression && textOf(node.expression) !== 'undefined') {
      add('return', node.expression, node, 'undefined');
    }
    ts.forEachChild(node, visit);
  };
  visit(parsed);
  return found.sort((a, b) => a.start - b.start || a.end - b.end);
}

/** A word in quotes or in pieces: `+` joins it and counts nothing. */
function isText(node: ts.Expression): boolean {
  return ts.isStringLiteralLike(node) || ts.isTemplateExpression(node);
}

function numberBeside(value: number): string {
  if (Number.isInteger(value) && Math.abs(value) < 1000) return String(value + 1);
  return String(Number((value * LARGER).toPrecision(12)));
}

/** The text of a file with the fault in it. */
export function mutated(source: string, { start, end, to }: Mutant): string {
  return source.slice(0, start) + to + source.slice(end);
}

/** A mutant in one line. */
export function mutantToText({ file, line, from, to }: Mutant): string {
  const short = (text: string): string => {
    const flat = text.replace(/\s+/g, ' ');
    return flat.length > 70 ? `${flat.slice(0, 67)}…` : flat;
  };
  return `${file}:${line}  ${short(from)}  →  ${short(to)}`;
}
