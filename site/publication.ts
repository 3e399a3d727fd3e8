/** The publication as the pages show it, loaded once for all of them, in each of its languages. */
import { loadPublication } from '../pipeline/pipeline.ts';
import { ProblemError } from '../pipeline/problem.ts';
import { inLanguage, languagesOf, languageWord } from '../pipeline/result/in-language.ts';
import type { Publication } from '../pipeline/result/result.ts';

let loading: Promise<Publication> | undefined;
const translated = new Map<string, Publication>();

/**
 * In the language of a page: its `Astro.params.lang`, which is absent in the main one.
 * @throws ProblemError where content has errors, so that no page is made from half of it.
 */
export async function publication(lang?: string): Promise<Publication> {
  loading ??= loadWhole();
  const main = await loading;
  if (lang === undefined) return main;
  const made = translated.get(lang) ?? inLanguage(main, tagFor(main, lang));
  translated.set(lang, made);
  return made;
}

/** Paths of a page in every language, for its `getStaticPaths`: `paths` gives them in one. */
export async function inEveryLanguage<Path extends { readonly params?: object; readonly props?: object }>(
  paths: (publication: Publication) => readonly Path[],
): Promise<(Path & { params: { lang: string | undefined } })[]> {
  const main = await publication();
  const made = languagesOf(main.house).map(async (tag, index) => {
    const lang = index === 0 ? undefined : languageWord(tag);
    return paths(await publication(lang)).map(path => ({ ...path, params: { ...path.params, lang } }));
  });
  return (await Promise.all(made)).flat();
}

/** Path of a page that is one in each language, such as the front page. */
export const oneInEveryLanguage = () => inEveryLanguage(() => [{}]);

function tagFor({ house }: Publication, lang: string): string {
  const tag = languagesOf(house).find(each => languageWord(each) === lang);
  if (tag === undefined) throw new Error(`No page is made in the language '${lang}'.`);
  return tag;
}

async function loadWhole(): Promise<Publication> {
  const loaded = await loadPublication(process.cwd());
  const errors = loaded.problems.filter(problem => problem.severity === 'error');
  if (errors.length > 0) throw new ProblemError(errors);
  return loaded;
}
