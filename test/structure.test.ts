import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';

const PIPELINE = resolve(import.meta.dirname, '../pipeline');

/** The way of the data: a folder imports from itself and from those before it. */
const ORDER = [
  'problems',
  'log',
  'trace',
  'run',
  'compare',
  'measurement',
  'road',
  'conditions',
  'content',
  'result',
  'lettering',
  'table',
  'workings',
  'figure',
  'overlay',
  'sequence',
  'timeline',
  'article',
  'recompute',
  'sign-off',
  'data',
  'cache',
  'press',
  'desk',
  'command',
];
/** Files at the top that every folder may use; `pipeline.ts` and `cli.ts` are above all folders instead. */
const ABOVE = new Set(['pipeline.ts', 'cli.ts']);
/** Folders that touch no file, clock, network or process, so that they run in a reader's browser unchanged. */
const PURE = new Set([
  ...ORDER.slice(0, ORDER.indexOf('result') + 1),
  'workings',
  'recompute',
  'sign-off',
  'data',
]);
/** The edge of the pure part: the only files in it that touch the disk. */
const EDGE = new Set(['content/read-folder.ts']);

const files = (readdirSync(PIPELINE, { recursive: true }) as string[]).filter(file => file.endsWith('.ts'));
const importsOf = (file: string): string[] =>
  [...readFileSync(join(PIPELINE, file), 'utf8').matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map(
    match => match[1]!,
  );
const rankOf = (file: string): number => {
  const [folder, rest] = file.split('/');
  if (rest === undefined) return ABOVE.has(file) ? ORDER.length : -1;
  return ORDER.indexOf(folder!);
};

describe('the direction of imports', () => {
  it('knows every folder of the pipeline', () => {
    const folders = new Set(files.filter(file => file.includes('/')).map(file => file.split('/')[0]!));
    expect([...folders].filter(folder => !ORDER.includes(folder))).toEqual([]);
  });

  it.each(files)('%s imports only from its own stage and those before it', file => {
    const backward = importsOf(file)
      .filter(target => target.startsWith('.'))
      .map(target => relative(PIPELINE, resolve(PIPELINE, dirname(file), target)))
      .filter(target => rankOf(target) > rankOf(file));
    // Commands are called by cli.ts and may show the whole pipeline.
    const allowed = file.startsWith('command/')
      ? backward.filter(target => target !== 'pipeline.ts')
      : backward;
    expect(allowed).toEqual([]);
  });

  it.each(files.filter(file => PURE.has(file.split('/')[0]!) && !EDGE.has(file)))('%s stays pure', file => {
    const effects =
      /node:(fs|process|child_process|net|http|os|worker_threads)|\bprocess\.|\bDate\.now\(|Math\.random\(/;
    const source = readFileSync(join(PIPELINE, file), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
    expect(source.match(effects)?.[0]).toBeUndefined();
  });
});
