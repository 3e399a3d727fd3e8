/**
 * The project's modules loaded from their sources as often as wished, any one of them changed: compiled once, a fresh
 * instance takes some milliseconds. Packages are loaded once, as ever. Not for files that await at their top.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { compileFunction } from 'node:vm';
import ts from 'typescript';
import { siteOf } from './mutate.ts';

/** Turns of loops, so that an endless one is known by its number of turns and not by a clock. */
export interface Turns {
  count: number;
  most: number;
  /** @throws Error always */
  stop(): never;
}

/** Which places are reached: one byte each, 1 once reached. */
export type Reached = Uint8Array;

export interface Change {
  readonly path: string;
  readonly source: string;
}

type Exports = Record<string, unknown>;
type Body = (
  exports: Exports,
  load: (name: string) => unknown,
  meta: object,
  turns: Turns,
  reached: Reached,
) => void;

const OPTIONS: ts.CompilerOptions = {
  module: ts.ModuleKind.CommonJS,
  target: ts.ScriptTarget.ES2024,
  esModuleInterop: true,
  isolatedModules: true,
};

export class Program {
  readonly turns: Turns = {
    count: 0,
    most: Number.POSITIVE_INFINITY,
    stop() {
      throw new Error('A loop that does not end');
    },
  };
  readonly #compiled = new Map<string, Body>();
  readonly #provided: Readonly<Record<string, Exports>>;
  readonly #sites: ReadonlyMap<string, ReadonlyMap<string, number>>;
  readonly #reached: Reached;

  /**
   * @param provided modules handed out instead of packages, by the name they are imported by
   * @param sites numbers of the places to be counted, by path and `siteOf`; counting costs time
   */
  constructor(
    provided: Readonly<Record<string, Exports>>,
    sites: ReadonlyMap<string, ReadonlyMap<string, number>> = new Map(),
    reached: Reached = new Uint8Array(),
  ) {
    this.#provided = provided;
    this.#sites = sites;
    this.#reached = reached;
  }

  /** A fresh instance of everything. @returns loads a module by its whole path @throws what a module throws */
  instance(change?: Change): (path: string) => Exports {
    const loaded = new Map<string, Exports>();
    const load = (path: string): Exports => {
      const known = loaded.get(path);
      if (known !== undefined) return known;
      const exports: Exports = {};
      loaded.set(path, exports);
      const body = change?.path === path ? this.#compile(path, change.source) : this.#body(path);
      const meta = { dirname: dirname(path), filename: path, url: pathToFileURL(path).href, main: false };
      const packages = createRequire(path);
      const require = (name: string): unknown => {
        const given = this.#provided[name];
        if (given !== undefined) return given;
        const target = name.startsWith('.') ? resolve(dirname(path), name) : name;
        return target.startsWith('/') && target.endsWith('.ts') && existsSync(target)
          ? load(target)
          : packages(name);
      };
      body(exports, require, meta, this.turns, this.#reached);
      return exports;
    };
    return load;
  }

  #body(path: string): Body {
    const known = this.#compiled.get(path) ?? this.#compile(path, readFileSync(path, 'utf8'));
    this.#compiled.set(path, known);
    return known;
  }

  #compile(path: string, source: string): Body {
    const { outputText } = ts.transpileModule(source, {
      fileName: path,
      compilerOptions: OPTIONS,
      transformers: { before: [counting(this.#sites.get(path) ?? new Map())] },
    });
    return compileFunction(outputText, ['exports', 'require', '$meta', '$turns', '$reached'], {
      filename: path,
    }) as Body;
  }
}

/** Counts the turns of loops and marks the sites; `import.meta` becomes what is handed in. */
function counting(sites: ReadonlyMap<string, number>): ts.TransformerFactory<ts.SourceFile> {
  return context => source => {
    const { factory } = context;
    const name = (text: string): ts.Identifier => factory.createIdentifier(text);
    const member = (of: string, text: string): ts.Expression =>
      factory.createPropertyAccessExpression(name(of), text);
    const turn = (body: ts.Statement): ts.Statement =>
      factory.createBlock([
        factory.createIfStatement(
          factory.createGreaterThan(
            factory.createPrefixUnaryExpression(ts.SyntaxKind.PlusPlusToken, member('$turns', 'count')),
            member('$turns', 'most'),
          ),
          factory.createExpressionStatement(
            factory.createCallExpression(member('$turns', 'stop'), undefined, []),
          ),
        ),
        body,
      ]);
    const mark = (site: number): ts.Expression =>
      factory.createAssignment(
        factory.createElementAccessExpression(name('$reached'), site),
        factory.createNumericLiteral(1),
      );

    const visit = (node: ts.Node): ts.Node => {
      if (ts.isMetaProperty(node)) return name('$meta');
      const whole = ts.visitEachChild(node, visit, context);
      if (ts.isForStatement(whole)) {
        const { initializer, condition, incrementor, statement } = whole;
        return factory.updateForStatement(whole, initializer, condition, incrementor, turn(statement));
      }
      if (ts.isWhileStatement(whole))
        return factory.updateWhileStatement(whole, whole.expression, turn(whole.statement));
      if (ts.isDoStatement(whole))
        return factory.updateDoStatement(whole, turn(whole.statement), whole.expression);
      const site = sites.size === 0 ? undefined : sites.get(siteOf(node, source));
      if (site === undefined) return whole;
      if (ts.isStatement(node)) {
        return factory.createBlock([factory.createExpressionStatement(mark(site)), whole as ts.Statement]);
      }
      return factory.createParenthesizedExpression(factory.createComma(mark(site), whole as ts.Expression));
    };
    return ts.visitEachChild(source, visit, context);
  };
}
