/**
 * Where each import leads, kept from one start of the program to the next: to find a thousand modules takes as long as
 * to load them. Places are those for a version of Node and an installation of the libraries, of which npm writes a file
 * at its end; this program's own imports name their files as they are.
 */
import { statSync } from 'node:fs';
import { registerHooks } from 'node:module';
import { join } from 'node:path';
import { deserialize, serialize } from 'node:v8';
import { codeRoot } from './code-digest.ts';
import { digestOf } from './digest.ts';
import { openStore } from './store.ts';

const INSTALLED = 'node_modules/.package-lock.json';

/** Address and format of a module, by how it was asked for. */
type Places = Map<string, readonly [url: string, format: string | null | undefined]>;

/** @param folder where they are kept; where that cannot be, each is found anew */
export function rememberPlaces(folder: string): void {
  const installed = statSync(join(codeRoot(), INSTALLED), { throwIfNoEntry: false });
  if (installed === undefined) return;
  const store = openStore(folder);
  const key = digestOf(['places of modules', process.version, installed.size, installed.mtimeMs]);
  const kept = store.readSync(key);
  const places: Places = kept === undefined ? new Map() : deserialize(kept);
  const before = places.size;
  registerHooks({
    resolve(specifier, context, next) {
      // What is asked for with a query, or as another kind of file, is asked for once.
      const plain = !specifier.includes('?') && Object.keys(context.importAttributes ?? {}).length === 0;
      const asked = `${context.conditions} ${specifier} ${context.parentURL}`;
      const known = plain ? places.get(asked) : undefined;
      if (known !== undefined) return { url: known[0], format: known[1], shortCircuit: true };
      const found = next(specifier, context);
      if (plain && found.url.startsWith('file:')) places.set(asked, [found.url, found.format]);
      return found;
    },
  });
  process.once('exit', () => {
    if (places.size > before) store.writeSync(key, serialize(places));
  });
}
