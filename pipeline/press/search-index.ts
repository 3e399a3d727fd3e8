/** The index of every word of the built pages, in each of their languages, for the search page. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fewAtOnce } from './few-at-once.ts';

const FOLDER = 'pagefind';
/** Articles, methodology, cars and roads, in any language. */
const SEARCHED = /^(?:[a-z]{2,3}\/)?(?:tests\/[^/]+|methodology|cars\/[^/]+|roads\/[^/]+)\/index\.html$/;

/**
 * By the text of their `<main>`; tables, notes for editors and workings are left out.
 * @param folder where the pages are
 * @param pages their paths in it, in whatever order
 * @returns the index's files by path
 */
export async function searchIndex(
  folder: string,
  pages: Iterable<string>,
): Promise<ReadonlyMap<string, Uint8Array>> {
  const { close, createIndex } = await import('pagefind');
  try {
    const { index, errors } = await createIndex({
      rootSelector: 'main',
      excludeSelectors: ['table', '.press', 'nav', '.caution', 'form'],
    });
    if (index === undefined) throw new Error(errors.join('\n'));
    const faults: string[] = [];
    const searched = [...pages].filter(page => SEARCHED.test(page)).sort();
    // Read at once, so that pages reach the indexer in their order: it reads one while the next are on their way.
    const added = await fewAtOnce(searched, path =>
      index.addHTMLFile({ sourcePath: path, content: readFileSync(join(folder, path), 'utf8') }),
    );
    faults.push(...added.flatMap(({ errors }) => errors));
    const made = await index.getFiles();
    faults.push(...made.errors);
    if (faults.length > 0) throw new Error(faults.join('\n'));
    return new Map(made.files.map(({ path, content }) => [`${FOLDER}/${path}`, content]));
  } finally {
    await close();
  }
}
