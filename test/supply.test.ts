/** What the project brings along from others: pinned, of known licence, and without install scripts but those named. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sbom } from './sbom.ts';

const ROOT = resolve(import.meta.dirname, '..');

interface Locked {
  readonly version: string;
  readonly license?: string;
  readonly resolved?: string;
  readonly integrity?: string;
  readonly hasInstallScript?: boolean;
  readonly dev?: boolean;
}
interface Manifest {
  readonly dependencies: Readonly<Record<string, string>>;
  readonly devDependencies: Readonly<Record<string, string>>;
  readonly allowScripts: Readonly<Record<string, boolean>>;
}
const read = <T>(file: string): T => JSON.parse(readFileSync(join(ROOT, file), 'utf8')) as T;
const manifest = read<Manifest>('package.json');
const locked = Object.entries(
  read<{ packages: Record<string, Locked> }>('package-lock.json').packages,
).filter(([path]) => path !== '');

/** Licences that ask for no more than their text and name, or for the library's own source where it is changed. */
const LICENCES = new Set([
  'MIT',
  'ISC',
  'Apache-2.0',
  'BSD-2-Clause',
  'BSD-3-Clause',
  '0BSD',
  'BlueOak-1.0.0',
  'CC0-1.0',
  'Unlicense',
  'Python-2.0',
  'MPL-2.0',
  'LGPL-3.0-or-later',
  'OFL-1.1',
]);

describe('packages of others', () => {
  it('are pinned to one version each', () => {
    for (const [name, version] of Object.entries({ ...manifest.dependencies, ...manifest.devDependencies })) {
      expect(version, name).toMatch(/^\d+\.\d+\.\d+(-[\w.]+)?$/);
      expect(locked.find(([path]) => path === `node_modules/${name}`)?.[1].version, name).toBe(version);
    }
  });

  it('are held to their content, and name no place they were fetched from', () => {
    for (const [path, { integrity, resolved }] of locked) {
      expect(integrity, path).toMatch(/^sha512-/);
      expect(resolved, path).toBeUndefined();
    }
  });

  it('run no script of theirs at install but those that package.json names', () => {
    const withScript = locked.filter(([, { hasInstallScript }]) => hasInstallScript).map(([path]) => path);
    expect(withScript.map(path => path.replace(/^.*node_modules\//, '')).sort()).toEqual(
      Object.keys(manifest.allowScripts).sort(),
    );
  });

  it('have licences that let a publication use them', () => {
    const unknown = locked.filter(([, { license = 'none' }]) =>
      license.split(/ (?:AND|OR) /).some(one => !LICENCES.has(one.replace(/[()]/g, ''))),
    );
    expect(unknown.map(([path, { license }]) => `${path}: ${license ?? 'none'}`)).toEqual([]);
  });

  it('are used: each that pages and pipeline depend on is imported there', () => {
    const sources = ['pipeline', 'site']
      .flatMap(folder =>
        (readdirSync(join(ROOT, folder), { recursive: true }) as string[])
          .filter(file => /\.(ts|tsx|astro|mjs|css)$/.test(file))
          .map(file => readFileSync(join(ROOT, folder, file), 'utf8')),
      )
      .concat(readFileSync(join(ROOT, 'astro.config.mjs'), 'utf8'))
      .join('\n');
    const unused = Object.keys(manifest.dependencies).filter(
      name => !new RegExp(`['"]${name.replaceAll('/', '\\/')}(['"/])`).test(sources),
    );
    expect(unused).toEqual([]);
  });

  it('are listed for others: each with licence and hash, reached from the program, those for development left out', () => {
    const { components, dependencies, metadata } = sbom();
    expect(components).toHaveLength(locked.filter(([, { dev }]) => !dev).length);
    expect(components.every(({ licenses, hashes }) => licenses?.length === 1 && hashes?.length === 1)).toBe(
      true,
    );
    const leadsTo = new Map(dependencies.map(({ ref, dependsOn }) => [ref, dependsOn]));
    const root = metadata.component['bom-ref'];
    expect(leadsTo.get(root)).toHaveLength(Object.keys(manifest.dependencies).length);
    const reached = new Set([root]);
    for (const ref of reached) for (const next of leadsTo.get(ref)!) reached.add(next);
    // What is not reached is a peer, which the package that asks for it does not bring along.
    const unreached = components.filter(one => !reached.has(one['bom-ref']));
    expect(unreached.length).toBeLessThan(components.length / 20);
    expect(leadsTo.size).toBe(components.length + 1);
  });
});
