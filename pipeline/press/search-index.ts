/** The index of every word of the built pages, in each of their languages, for the search page. */

/** Articles, methodology, cars and roads, by the text of their `<main>`; tables, notes for editors and workings are left out. */
export async function writeSearchIndex(site: string): Promise<void> {
  const { close, createIndex } = await import('pagefind');
  try {
    const { index, errors } = await createIndex({
      rootSelector: 'main',
      excludeSelectors: ['table', '.press', 'nav', '.caution', 'form'],
    });
    if (index === undefined) throw new Error(errors.join('\n'));
    const added = await index.addDirectory({
      path: site,
      glob: '{tests/*,*/tests/*,methodology,*/methodology,cars/*,*/cars/*,roads/*,*/roads/*}/index.html',
    });
    const written = await index.writeFiles({ outputPath: `${site}/pagefind` });
    const faults = [...added.errors, ...written.errors];
    if (faults.length > 0) throw new Error(faults.join('\n'));
  } finally {
    await close();
  }
}
