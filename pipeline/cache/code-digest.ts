/** Which code made something: a digest over a module and everything it loads, so that a key changes with either. */
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { bytesDigest, digestOf } from './digest.ts';

/** Names what is loaded when the module runs; types leave no trace in it. */
const IMPORT = /^(?:import|export)\s+(?!type\b)(?:[^'";]*?\sfrom\s+)?'([^']+)'|\bimport\(\s*'([^']+)'\s*\)/gm;
/** What is not in the sources but decides what comes out: the libraries, by their pinned versions. */
const PINNED = 'package-lock.json';

const known = new Map<string, string>();

/**
 * Of the module at `entry` (from the project's root) with all it imports, the pinned libraries, and the program that
 * runs them. Read once a process: code that runs does not change under itself.
 */
export function codeDigest(entry: string): string {
  const root = codeRoot();
  const found = known.get(entry) ?? digestOf(['code', ...moduleFiles(root, entry), ...surroundings(root)]);
  known.set(entry, found);
  return found;
}

/** What is known so far, by entry, for a later process that runs the same code. */
export const knownCodeDigests = (): ReadonlyMap<string, string> => known;

/** Takes what an earlier process knew. @param digests of the very same files, libraries and version of Node */
export function knowCodeDigests(digests: ReadonlyMap<string, string>): void {
  for (const [entry, sha256] of digests) known.set(entry, sha256);
}

/** The folder this code lies in, also where the pages' builder has put a copy of it somewhere below. */
export function codeRoot(): string {
  let folder = import.meta.dirname;
  while (!existsSync(join(folder, 'pipeline', 'evenground.mjs'))) {
    const above = dirname(folder);
    if (above === folder) throw new Error(`The program's own sources are not above ${import.meta.dirname}`);
    folder = above;
  }
  return folder;
}

/** What a module loads when it runs, at once or later, as it names it. */
export const loadedBy = (source: string): readonly string[] =>
  [...source.matchAll(IMPORT)].map(([, plain, dynamic]) => plain ?? dynamic ?? '');

/** Each file with its digest, in the order of names. */
function moduleFiles(root: string, entry: string): readonly (readonly [string, string])[] {
  const files = new Map<string, string>();
  const visit = (path: string): void => {
    const name = relative(root, path).split(sep).join('/');
    if (files.has(name)) return;
    const { sha256, loads } = moduleAt(path);
    files.set(name, sha256);
    loads.forEach(visit);
  };
  visit(join(root, entry));
  return [...files].sort(([a], [b]) => (a < b ? -1 : 1));
}

interface Module {
  readonly sha256: string;
  readonly loads: readonly string[];
}

/** Most entries load the same modules. */
const modules = new Map<string, Module>();
function moduleAt(path: string): Module {
  const known = modules.get(path);
  if (known !== undefined) return known;
  const source = readFileSync(path, 'utf8');
  const loads = loadedBy(source).flatMap(target => {
    const next = join(dirname(path), target);
    // A word in a comment or a text that only looks like an import leads nowhere.
    return target.startsWith('.') && existsSync(next) ? [next] : [];
  });
  const found = { sha256: bytesDigest(source), loads };
  modules.set(path, found);
  return found;
}

/** Another compressor or another engine's arithmetic may give other bytes. */
function surroundings(root: string): readonly string[] {
  const lock = join(root, PINNED);
  return [
    existsSync(lock) ? bytesDigest(readFileSync(lock)) : '',
    process.version,
    process.platform,
    process.arch,
  ];
}
