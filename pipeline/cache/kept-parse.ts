/** Files that people wrote, parsed and held to their schema once. */
import { deserialize, serialize } from 'node:v8';
import { type Parsed, type ParseFile, parseAs } from '../content/parse.ts';
import { codeDigest } from './code-digest.ts';
import { bytesDigest, digestOf } from './digest.ts';
import type { Store } from './store.ts';

/** Decides the schema of each file by its path. */
const CODE = 'pipeline/content/content.ts';

/** As `parseAs`, its answers kept in `store`; where something stands in a file is found by parsing it once more. */
export const keepingParse =
  (store: Store): ParseFile =>
  (file, bytes, schema) => {
    const key = digestOf(['parsed', codeDigest(CODE), file, bytesDigest(bytes)]);
    const kept = store.readSync(key);
    if (kept === undefined) {
      const parsed = parseAs(file, bytes, schema);
      const { place: _, ...said } = parsed;
      store.writeSync(key, serialize(said));
      return parsed;
    }
    type Said = Omit<Parsed<NonNullable<(typeof schema)['_output']>>, 'place'>;
    let again: ReturnType<typeof parseAs> | undefined;
    return {
      ...(deserialize(kept) as Said),
      place(path) {
        again ??= parseAs(file, bytes, schema);
        return again.place(path);
      },
    };
  };
