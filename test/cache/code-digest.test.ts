import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { loadedBy } from '../../pipeline/cache/code-digest.ts';

const SOURCES: Readonly<Record<string, string>> = {
  'pipeline/evenground.mjs': '',
  'pipeline/a.ts': "import { b } from './b.ts';\nimport type { T } from './t.ts';\nexport const a: T = b;\n",
  'pipeline/b.ts': "export { c as b } from './deep/c.ts';\n",
  'pipeline/deep/c.ts': "export const c = 1;\nexport const later = () => import('../d.ts');\n",
  'pipeline/d.ts': "import {\n  e,\n} from './e.ts';\nexport default e;\n",
  'pipeline/e.ts': "import './a.ts';\nexport const e = 2;\n",
  'pipeline/t.ts': 'export type T = number;\n',
  'pipeline/apart.ts': 'export const apart = 3;\n',
  'package-lock.json': '{}',
};

let root: string;
let copies = 0;
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'evenground-code-'));
});
afterAll(() => rmSync(root, { recursive: true }));

/** The digest in a project of its own, whose module remembers nothing yet. */
async function digestWith(changes: Readonly<Record<string, string>>): Promise<string> {
  const project = join(root, String(++copies));
  for (const [path, text] of Object.entries({ ...SOURCES, ...changes })) {
    mkdirSync(join(project, path, '..'), { recursive: true });
    writeFileSync(join(project, path), text);
  }
  cpSync(resolve(import.meta.dirname, '../../pipeline/cache'), join(project, 'pipeline/cache'), {
    recursive: true,
  });
  const { codeDigest } = (await import(
    pathToFileURL(join(project, 'pipeline/cache/code-digest.ts')).href
  )) as typeof import('../../pipeline/cache/code-digest.ts');
  return codeDigest('pipeline/a.ts');
}

describe('the digest of code', () => {
  it('changes with every module that is loaded, however it is named, and with the pinned libraries', async () => {
    const plain = await digestWith({});
    expect(await digestWith({})).toBe(plain);
    for (const path of ['a', 'b', 'deep/c', 'd', 'e'].map(name => `pipeline/${name}.ts`)) {
      expect(await digestWith({ [path]: `${SOURCES[path]}// changed\n` }), path).not.toBe(plain);
    }
    expect(await digestWith({ 'package-lock.json': '{"name":"other"}' })).not.toBe(plain);
  });

  it('stays where only types or other modules change', async () => {
    const plain = await digestWith({});
    expect(await digestWith({ 'pipeline/t.ts': 'export type T = number | string;\n' })).toBe(plain);
    expect(await digestWith({ 'pipeline/apart.ts': 'export const apart = 4;\n' })).toBe(plain);
  });

  it('finds every module that ours load, as the compiler reads them', () => {
    const folder = resolve(import.meta.dirname, '../../pipeline');
    for (const name of readdirSync(folder, { recursive: true }) as string[]) {
      if (!name.endsWith('.ts')) continue;
      const source = readFileSync(join(folder, name), 'utf8');
      expect(new Set(loadedBy(source)), name).toEqual(importsByCompiler(source));
    }
  });
});

/** Imports and exports from elsewhere that are left once types are gone, and those made while it runs. */
function importsByCompiler(source: string): ReadonlySet<string> {
  const found = new Set<string>();
  const visit = (node: ts.Node): void => {
    if (ts.isImportDeclaration(node) && node.importClause?.phaseModifier !== ts.SyntaxKind.TypeKeyword) {
      found.add((node.moduleSpecifier as ts.StringLiteral).text);
    }
    if (ts.isExportDeclaration(node) && !node.isTypeOnly && node.moduleSpecifier) {
      found.add((node.moduleSpecifier as ts.StringLiteral).text);
    }
    if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
      found.add((node.arguments[0] as ts.StringLiteral).text);
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile('module.ts', source, ts.ScriptTarget.Latest));
  return found;
}
