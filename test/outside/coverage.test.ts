/**
 * Which published values hold the pipeline, and which do not, and why.
 *
 * A value counts as checked where its id is a key of the record given to `describeCheckValues`, or the argument of
 * `checkValue`: read from the syntax of the tests, not from their text. That such a test then compares something
 * with the published value is seen to when it runs: `describeCheckValues` fails a test that never looks at it.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { checkValueIds, hasCheckValues } from './check-values.ts';

/** Nothing in the pipeline works these out, so that a test could only check itself; or what they need is not there. */
const NOT_APPLICABLE: Readonly<Record<string, string>> = {
  'fuel.mpg-l100': 'No page prints fuel consumption.',
  'air.es.triple': 'The IAPWS formula is not used; Buck 1996 is 3 mPa away at the triple point.',
  'air.da.rule120': 'A rule of thumb: test/conditions/air.test.ts stays within 250 ft of it.',
  'cycle.wltc.medium3a': 'The speed table of class 3a is not among the recorded data, only that of 3b.',
  'cycle.wltc.high3a': 'The speed table of class 3a is not among the recorded data, only that of 3b.',
  'cycle.wltc.total3a': 'The speed table of class 3a is not among the recorded data, only that of 3b.',
  'cycle.nedc': 'Its speed table is not among the recorded data.',
  'okabe-ito': 'A palette that is not used: half of it is below 3:1 on paper.',
  'data.vega-cars': 'The data set is not installed: it is not free to ship.',
  'data.vega-cars.rows': 'The data set is not installed: it is not free to ship.',
  'data.vega-cars.ideal': 'The data set is not installed: it is not free to ship.',
  'data.mtcars': 'The data set is not installed.',
  'data.mtcars.ideal': 'The data set is not installed.',
};

/** Checked by a test that reads the file itself, because it lies beside what it tests. */
const READ_BY_ITSELF: Readonly<Record<string, string>> = {
  'directive.prose-trap': 'article/own-directives.test.ts',
};

const TEST = resolve(import.meta.dirname, '..');
const syntaxOf = (file: string): ts.SourceFile =>
  ts.createSourceFile(file, readFileSync(join(TEST, file), 'utf8'), ts.ScriptTarget.Latest, true);
const files = (readdirSync(TEST, { recursive: true }) as string[]).filter(file => file.endsWith('.test.ts'));

function everyNode(root: ts.Node, visit: (node: ts.Node) => void): void {
  visit(root);
  ts.forEachChild(root, child => everyNode(child, visit));
}

/** What a file knows: its own constant lists of numbers or texts, by name. */
function constantLists(source: ts.SourceFile): ReadonlyMap<string, readonly string[]> {
  const lists = new Map<string, readonly string[]>();
  everyNode(source, node => {
    if (!ts.isVariableDeclaration(node) || !ts.isIdentifier(node.name) || !node.initializer) return;
    const value = ts.isAsExpression(node.initializer) ? node.initializer.expression : node.initializer;
    if (!ts.isArrayLiteralExpression(value)) return;
    if (value.elements.every(element => ts.isLiteralExpression(element)))
      lists.set(
        node.name.text,
        value.elements.map(element => (element as ts.LiteralExpression).text),
      );
  });
  return lists;
}

/** The ids of `...Object.fromEntries(LIST.map(item => [`family.${item}`, …]))`, the one other way they are written. */
function spreadIds(spread: ts.SpreadAssignment, lists: ReadonlyMap<string, readonly string[]>): string[] {
  const ids: string[] = [];
  everyNode(spread, node => {
    if (!ts.isCallExpression(node) || !ts.isPropertyAccessExpression(node.expression)) return;
    const { expression: list, name } = node.expression;
    if (name.text !== 'map' || !ts.isIdentifier(list)) return;
    everyNode(node, inner => {
      if (!ts.isTemplateExpression(inner) || inner.templateSpans.length !== 1) return;
      const after = inner.templateSpans[0]!.literal.text;
      ids.push(...(lists.get(list.text) ?? []).map(item => `${inner.head.text}${item}${after}`));
    });
  });
  return ids;
}

/** Every id that the tests of a file are given. @throws Error for a key that cannot be read from the syntax. */
function idsIn(source: ts.SourceFile): string[] {
  const ids: string[] = [];
  const lists = constantLists(source);
  everyNode(source, node => {
    if (!ts.isCallExpression(node) || !ts.isIdentifier(node.expression)) return;
    const [first, second] = node.arguments;
    if (node.expression.text === 'checkValue' && first && ts.isStringLiteral(first)) ids.push(first.text);
    if (node.expression.text !== 'describeCheckValues') return;
    if (!second || !ts.isObjectLiteralExpression(second))
      throw new Error(`${source.fileName}: the record of tests is not written where it is used`);
    for (const property of second.properties) {
      const found = ts.isSpreadAssignment(property)
        ? spreadIds(property, lists)
        : property.name && (ts.isStringLiteral(property.name) || ts.isIdentifier(property.name))
          ? [property.name.text]
          : [];
      if (found.length === 0)
        throw new Error(`${source.fileName}: no id can be read from ${property.getText()}`);
      ids.push(...found);
    }
  });
  return ids;
}

describe('reading ids from the syntax of a test', () => {
  const read = (text: string): string[] =>
    idsIn(ts.createSourceFile('made-up.test.ts', text, ts.ScriptTarget.Latest, true));

  it('takes keys, lists and single values, and nothing that only stands in a text or a comment', () => {
    expect(read("describeCheckValues('x', { 'a.b': entry => {}, c: same, d() {} })")).toEqual([
      'a.b',
      'c',
      'd',
    ]);
    expect(
      read(
        // biome-ignore lint/suspicious/noTemplateCurlyInString: source text of a made-up test
        "const L = [1, 2];\ndescribeCheckValues('x', { ...Object.fromEntries(L.map(n => [`a.${n}`, f])) })",
      ),
    ).toEqual(['a.1', 'a.2']);
    expect(read("checkValue('a.b')")).toEqual(['a.b']);
    expect(read("// describeCheckValues('x', { 'a.b': f })\nconst t = 'a.b'; it('a.b', () => {});")).toEqual(
      [],
    );
  });

  it('stops at what it cannot read', () => {
    expect(() => read("describeCheckValues('x', tests)")).toThrow(/not written where/);
    expect(() => read("describeCheckValues('x', { ...others })")).toThrow(/no id/);
    expect(() => read("describeCheckValues('x', { [name]: f })")).toThrow(/no id/);
  });
});

describe.skipIf(!hasCheckValues)('the published values', () => {
  const ids = checkValueIds();
  const given = files.map(syntaxOf).flatMap(idsIn);
  const checked = new Set([...given, ...Object.keys(READ_BY_ITSELF)]);

  it('are each checked by a test, or there is a reason', () => {
    expect(ids.filter(id => !checked.has(id) && !(id in NOT_APPLICABLE))).toEqual([]);
  });

  it('are not excused where they are checked, nor named where they do not exist', () => {
    expect(Object.keys(NOT_APPLICABLE).filter(id => checked.has(id))).toEqual([]);
    expect([...Object.keys(NOT_APPLICABLE), ...checked].filter(id => !ids.includes(id))).toEqual([]);
  });

  it('are read by the tests that read the file themselves', () => {
    for (const [id, file] of Object.entries(READ_BY_ITSELF)) {
      const texts: string[] = [];
      everyNode(syntaxOf(file), node => {
        if (ts.isStringLiteral(node)) texts.push(node.text);
      });
      expect(texts, file).toEqual(expect.arrayContaining([id, 'check-values.json']));
    }
  });

  it('are checked in nine of ten cases at least', () => {
    expect(ids.filter(id => checked.has(id)).length).toBeGreaterThanOrEqual(0.9 * ids.length);
  });
});
