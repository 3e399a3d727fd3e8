/**
 * What the program brings along from others, as a CycloneDX 1.5 list: `npm run sbom -- [FILE]`,
 * .evenground/sbom.cdx.json where absent. Made from the lock file alone, without a network; the same one gives the same
 * bytes. (`npm sbom --omit dev` leaves out every package that development needs too.)
 */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';

const ROOT = resolve(import.meta.dirname, '..');

interface Locked {
  readonly name?: string;
  readonly version: string;
  readonly license?: string;
  readonly integrity?: string;
  readonly dev?: boolean;
  readonly optional?: boolean;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly optionalDependencies?: Readonly<Record<string, string>>;
}

export interface Component {
  readonly 'bom-ref': string;
  readonly type: 'library' | 'application';
  readonly name: string;
  readonly version: string;
  readonly scope?: 'required' | 'optional';
  readonly purl: string;
  readonly licenses?: readonly (
    | { readonly expression: string }
    | { readonly license: { readonly id: string } }
  )[];
  readonly hashes?: readonly { readonly alg: 'SHA-512'; readonly content: string }[];
}

export interface Sbom {
  readonly bomFormat: 'CycloneDX';
  readonly specVersion: '1.5';
  readonly version: 1;
  readonly metadata: { readonly component: Component };
  readonly components: readonly Component[];
  readonly dependencies: readonly { readonly ref: string; readonly dependsOn: readonly string[] }[];
}

const IN_MODULES = 'node_modules/';

/** The list of a lock file (version 3): all that is installed where development is left out. */
export function lockToSbom({ packages }: { readonly packages: Readonly<Record<string, Locked>> }): Sbom {
  const { '': own, ...others } = packages;
  const kept = Object.entries(others).filter(([, { dev }]) => !dev);
  const paths = new Set(kept.map(([path]) => path));
  const nameOf = (path: string): string =>
    packages[path]!.name ?? path.slice(path.lastIndexOf(IN_MODULES) + IN_MODULES.length);
  const purl = (path: string): string =>
    `pkg:npm/${nameOf(path).replace('@', '%40')}@${packages[path]!.version}`;
  // A package may lie in several places in the same version: it is told apart by where it lies.
  const refOf = (path: string): string => (path === '' ? purl(path) : `${purl(path)}#${path}`);
  /** Where Node finds it: the nearest folder of modules upwards. */
  const found = (from: string, name: string): readonly string[] => {
    for (let at = from; ; at = at.slice(0, Math.max(0, at.lastIndexOf(IN_MODULES) - 1))) {
      const path = `${at === '' ? '' : `${at}/`}${IN_MODULES}${name}`;
      if (paths.has(path)) return [refOf(path)];
      if (at === '') return [];
    }
  };
  const component = (path: string, { version, license, integrity, optional }: Locked): Component => ({
    'bom-ref': refOf(path),
    type: path === '' ? 'application' : 'library',
    name: nameOf(path),
    version,
    ...(path === '' ? {} : { scope: optional ? 'optional' : 'required' }),
    purl: purl(path),
    ...(license === undefined
      ? {}
      : {
          licenses: [
            / (AND|OR|WITH) /.test(license) ? { expression: license } : { license: { id: license } },
          ],
        }),
    ...(integrity?.startsWith('sha512-')
      ? {
          hashes: [
            {
              alg: 'SHA-512',
              content: Buffer.from(integrity.slice('sha512-'.length), 'base64').toString('hex'),
            },
          ],
        }
      : {}),
  });
  return {
    bomFormat: 'CycloneDX',
    specVersion: '1.5',
    version: 1,
    metadata: { component: component('', own!) },
    components: kept.map(([path, locked]) => component(path, locked)),
    dependencies: [['', own!] as const, ...kept].map(([path, { dependencies, optionalDependencies }]) => ({
      ref: refOf(path),
      dependsOn: [
        ...new Set(
          Object.keys({ ...dependencies, ...optionalDependencies }).flatMap(name => found(path, name)),
        ),
      ],
    })),
  };
}

export const sbom = (): Sbom =>
  lockToSbom(
    JSON.parse(readFileSync(resolve(ROOT, 'package-lock.json'), 'utf8')) as Parameters<typeof lockToSbom>[0],
  );

if (import.meta.main) {
  const file = resolve(process.argv[2] ?? '.evenground/sbom.cdx.json');
  const document = sbom();
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(
    file,
    `${JSON.stringify({ $schema: 'http://cyclonedx.org/schema/bom-1.5.schema.json', ...document }, null, 2)}\n`,
  );
  process.stdout.write(`${document.components.length} packages listed in ${file}\n`);
}
