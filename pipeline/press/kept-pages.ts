/** Pages of tests as they were made before: all of a test's, or those parts of them that are still the same. */
import { digestOf } from '../cache/digest.ts';
import { adoptEvery, type KeptFile, keepWork, keptWork } from '../cache/kept.ts';
import type { Store } from '../cache/store.ts';
import type { Output } from './output.ts';
import type { PageKeys } from './page-keys.ts';
import { ownerOf } from './wanted-pages.ts';

/** Files of a test's pages by the part that they belong to; those of none stand under `REST`. */
type PageParts = ReadonlyMap<string, readonly KeptFile[]>;
const REST = '';

/** A test whose pages are not kept as they are now. */
export interface TestToMake {
  readonly id: string;
  /** Keys of the parts of its pages by their names. */
  readonly keys: ReadonlyMap<string, string>;
  /** Files of those parts that are kept and in their places. */
  readonly kept: PageParts;
}

/** The parts of a test's pages as they were made last, each known by its own key: the rest still serve where one is not found. */
type KeptParts = Readonly<Record<string, { readonly key: string; readonly files: readonly KeptFile[] }>>;

export const partsToMake = ({ keys, kept }: TestToMake): readonly string[] =>
  [...keys.keys()].filter(part => !kept.has(part));

export interface KeptPages {
  /** Files of all pages of a test; undefined where they are not kept as they are now. */
  filesOf(testId: string): readonly KeptFile[] | undefined;
  /** What is left to make of a test: of its parts those that are the same, and whole, get to their places. */
  toMake(testId: string): Promise<TestToMake>;
  /** Keeps what was made of a test with what was in its place. */
  keep(test: TestToMake, made: readonly KeptFile[]): Promise<void>;
}

/** @param surroundings digest of the code that makes pages */
export function keptPages(
  { whole, partsOf }: PageKeys,
  surroundings: string,
  store: Store,
  output: Output,
): KeptPages {
  const partsKey = (id: string): string => digestOf(['parts of pages', surroundings, id]);
  return {
    filesOf: id => keptWork<null>(store, whole.get(id)!)?.files,
    async toMake(id) {
      const known = keptWork<KeptParts>(store, partsKey(id))?.value;
      const keys = await partsOf(id);
      const kept = new Map<string, readonly KeptFile[]>();
      for (const [part, key] of keys) {
        const found = known?.[part];
        if (found?.key === key && (await adoptEvery(found.files, output.adopt))) kept.set(part, found.files);
      }
      return { id, keys, kept };
    },
    async keep({ id, keys, kept }, made) {
      const byPart = new Map([...kept, ...Map.groupBy(made, ({ path }) => ownerOf(path)?.part ?? REST)]);
      await keepWork(store, whole.get(id)!, { value: null, files: [...byPart.values()].flat() });
      const value: KeptParts = Object.fromEntries(
        [...keys].flatMap(([part, key]) => {
          const files = byPart.get(part);
          return files === undefined ? [] : [[part, { key, files }]];
        }),
      );
      await keepWork(store, partsKey(id), { value, files: [] });
    },
  };
}
