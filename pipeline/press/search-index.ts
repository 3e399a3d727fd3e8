/** The index of every word of the built pages, in each of their languages, for the search page. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';

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
    for (const path of [...pages].filter(page => SEARCHED.test(page)).sort()) {
      const content = await readFile(join(folder, path), 'utf8');
      const added = await index.addHTMLFile({ sourcePath: path, content });
      faults.push(...added.errors);
    }
    const made = await index.getFiles();
    faults.push(...made.errors);
    if (faults.length > 0) throw new Error(faults.join('\n'));
    return new Map(made.files.map(({ path, content }) => [`${FOLDER}/${path}`, content]));
  } finally {
    await close();
  }
}
