/** The publication as the pages show it, loaded once for all of them, in each of its languages. */
import { readFile } from 'node:fs/promises';
import { codeVersion } from '../pipeline/code-version.ts';
import { loadPublication } from '../pipeline/pipeline.ts';
import { WANTED_VARIABLE, type WantedPages } from '../pipeline/press/wanted-pages.ts';
import { ProblemError } from '../pipeline/problem.ts';
import { inLanguage, languagesOf, languageWord } from '../pipeline/result/in-language.ts';
import type { Publication, TestResult } from '../pipeline/result/result.ts';

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

/** Which program makes the pages: git is asked once for all of them. */
export function programVersion(): string {
  version ??= codeVersion(process.cwd());
  return version;
}
let version: string | undefined;

/** Paths of a page in every language, for its `getStaticPaths`: `paths` gives them in one. */
export async function inEveryLanguage<Path extends AnyPath>(
  paths: (publication: Publication) => readonly Path[],
): Promise<LanguagePath<Path>[]> {
  return (await wanted()).shared ? await everyPath(paths) : [];
}

/**
 * The same of the pages that belong to one test, which are made only where they are wanted: `paths` gives one test's,
 * and asks whether a part of them is (`WORKINGS_PART`, `pairPart`).
 */
export async function ofEachTest<Path extends AnyPath>(
  paths: (test: TestResult, publication: Publication, isWanted: (part: string) => boolean) => readonly Path[],
): Promise<LanguagePath<Path>[]> {
  const { tests } = await wanted();
  const partsOf = tests && new Map(tests.map(({ id, parts }) => [id, new Set(parts)]));
  return await everyPath(whole =>
    whole.tests
      .filter(({ id }) => partsOf?.has(id) ?? true)
      .flatMap(test => paths(test, whole, part => partsOf?.get(test.id)?.has(part) ?? true)),
  );
}

/** Path of a page that is one in each language, such as the front page. */
export const oneInEveryLanguage = () => inEveryLanguage(() => [{}]);

type AnyPath = { readonly params?: object; readonly props?: object };
type LanguagePath<Path> = Path & { params: { lang: string | undefined } };

async function everyPath<Path extends AnyPath>(
  paths: (publication: Publication) => readonly Path[],
): Promise<LanguagePath<Path>[]> {
  const main = await publication();
  const made = languagesOf(main.house).map(async (tag, index) => {
    const lang = index === 0 ? undefined : languageWord(tag);
    return paths(await publication(lang)).map(path => ({ ...path, params: { ...path.params, lang } }));
  });
  return (await Promise.all(made)).flat();
}

/** What a build asks for; everything without one, as in the development server. */
async function wanted(): Promise<Partial<WantedPages> & Pick<WantedPages, 'shared'>> {
  const file = process.env[WANTED_VARIABLE];
  asked ??= file === undefined ? { shared: true } : (JSON.parse(await readFile(file, 'utf8')) as WantedPages);
  return asked;
}
let asked: (Partial<WantedPages> & Pick<WantedPages, 'shared'>) | undefined;

function tagFor({ house }: Publication, lang: string): string {
  const tag = languagesOf(house).find(each => languageWord(each) === lang);
  if (tag === undefined) throw new Error(`No page is made in the language '${lang}'.`);
  return tag;
}

async function loadWhole(): Promise<Publication> {
  const { seen } = await wanted();
  const loaded = await loadPublication(process.cwd(), seen && { seen });
  const errors = loaded.problems.filter(problem => problem.severity === 'error');
  if (errors.length > 0) throw new ProblemError(errors);
  return loaded;
}
