import { existsSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { FIGURES } from '../pipeline/figure/figures.ts';
import { TABLES } from '../pipeline/table/tables.ts';

const ROOT = resolve(import.meta.dirname, '..');
const read = (file: string): string => readFileSync(join(ROOT, file), 'utf8');
const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };

const PATH = /`((?:pipeline|site|content|test)\/[\w./-]+)`/g;
const LINK = /\]\(([^)#:]+)\)/g;
const SCRIPT = /npm (?:run (?:--silent )?)([\w:]+)/g;
const all = (text: string, pattern: RegExp): string[] => [
  ...new Set([...text.matchAll(pattern)].map(match => match[1]!)),
];

describe.each(['README.md', 'DEVELOPERS.md'])('%s', document => {
  const text = read(document);

  it('names only files and folders that exist', () => {
    const named = [...all(text, PATH), ...all(text, LINK)];
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter(path => !existsSync(join(ROOT, path)))).toEqual([]);
  });

  it('names only npm scripts that exist', () => {
    const named = all(text, SCRIPT);
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter(script => !Object.hasOwn(scripts, script))).toEqual([]);
  });
});

describe('README.md', () => {
  const text = read('README.md');

  it.each(Object.keys(FIGURES))('names the figure %s', kind => {
    expect(text).toContain(`\`${kind}\``);
  });

  it.each(Object.keys(TABLES))('names the table %s', kind => {
    expect(text).toContain(`\`${kind}\``);
  });
});
