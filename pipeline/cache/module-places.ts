/**
 * Where each import leads, kept from one start of the program to the next: to find a thousand modules takes as long as
 * to load them. Places are those for a version of Node and an installation of the libraries, of which npm writes a file
 * at its end; this program's own imports name their files as they are.
 */
import { statSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { deserialize, serialize } from 'node:v8';
import { codeRoot } from './code-digest.ts';
import { digestOf } from './digest.ts';
import { openStore } from './store.ts';

const FILE = 'file:';
const INSTALLED = 'node_modules/.package-lock.json';

/** Place and format of a module, by how it was asked for. */
type Places = Map<string, readonly [place: string, format: string | null | undefined]>;

/** @param folder where they are kept; where that cannot be, each is found anew */
export function rememberPlaces(folder: string): void {
  const root = codeRoot();
  const installed = statSync(join(root, INSTALLED), { throwIfNoEntry: false });
  if (installed === undefined) return;
  // Told from the project's folder, so that copies of it, as tests make many, do not each add a thousand.
  const base = `${pathToFileURL(root)}/`;
  const near = (url: string): string => (url.startsWith(base) ? url.slice(base.length) : url);
  const whole = (place: string): string => (place.startsWith(FILE) ? place : base + place);
  const store = openStore(folder);
  const key = digestOf(['places of modules', process.version, installed.size, installed.mtimeMs]);
  const read = (): Places => {
    const kept = store.readSync(key);
    return kept === undefined ? new Map() : deserialize(kept);
  };
  const places = read();
  const before = places.size;
  registerHooks({
    resolve(specifier, context, next) {
      // What is asked for with a query, or as another kind of file, is asked for once.
      const plain = !specifier.includes('?') && Object.keys(context.importAttributes ?? {}).length === 0;
      const asked = `${context.conditions} ${specifier} ${near(context.parentURL ?? '')}`;
      const known = plain ? places.get(asked) : undefined;
      if (known !== undefined) return { url: whole(known[0]), format: known[1], shortCircuit: true };
      const found = next(specifier, context);
      if (plain && found.url.startsWith(FILE)) places.set(asked, [near(found.url), found.format]);
      return found;
    },
  });
  process.once('exit', () => {
    // Processes of one build load other modules each, and end one after another.
    if (places.size > before) store.writeSync(key, serialize(new Map([...read(), ...places])));
  });
}
