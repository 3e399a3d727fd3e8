/** Files of further languages: `house.de.yaml` beside `house.yaml`, `article.de.md` beside `article.md`. */
import type { z } from 'zod';
import { LANGUAGES, languageOf } from '../language.ts';
import type { Place, Problem } from '../problem.ts';
import {
  articleNotTranslated,
  languageNotSpoken,
  languageTwice,
  notTranslated,
  translatesNothing,
  translationNotUsed,
} from '../problems/translation.ts';
import { type ContentFiles, fileName, HOUSE_FILE, METHODOLOGY_FILE } from './files.ts';
import { nearMiss } from './near-miss.ts';
import { type Parsed, parseAs } from './parse.ts';
import type { CarContent, HouseContent, RoadContent, TestContent } from './schema.ts';
import { bytesToText } from './text.ts';
import {
  remarksOf,
  type Translated,
  translateCar,
  translateHouse,
  translateRoad,
  translateTest,
} from './translate.ts';
import {
  type CarWords,
  carWordsSchema,
  type HouseWords,
  houseWordsSchema,
  type RoadWords,
  roadWordsSchema,
  type TestWords,
  testWordsSchema,
} from './translation-schema.ts';
import type { Path } from './yaml.ts';

/** Everything that is written in one further language. */
export interface Translation {
  readonly tag: string;
  readonly house?: HouseWords;
  readonly cars: ReadonlyMap<string, CarWords>;
  readonly roads: ReadonlyMap<string, RoadWords>;
  readonly tests: ReadonlyMap<string, TestWords>;
  readonly articles: ReadonlyMap<string, TranslatedText>;
  readonly methodology?: TranslatedText;
}

export interface TranslatedText {
  readonly file: string;
  readonly markdown: string;
}

/** What there is to translate. */
export interface ToTranslate {
  readonly house: Parsed<HouseContent>;
  readonly cars: readonly (CarContent & { readonly id: string })[];
  readonly roads: readonly (RoadContent & { readonly id: string })[];
  readonly tests: readonly { readonly id: string; readonly folder: string; readonly content: TestContent }[];
}

/** The word for a language in addresses and in the names of files: `de` for `de-DE`. */
export const languageWord = (tag: string): string => tag.split('-')[0]!;

/** `content/house.de.yaml` for `content/house.yaml`. */
const translationFile = (file: string, tag: string): string =>
  file.replace(/\.(yaml|md)$/, `.${languageWord(tag)}.$1`);

const TRANSLATION =
  /^(content\/(?:house|methodology|cars\/[^/]+|roads\/[^/]+|tests\/[^/]+\/(?:test|article)))\.([a-z]{2})\.(yaml|md)$/;

/** True for the name of a file in another language, such as `content/cars/wren.de.yaml`. */
export const isTranslation = (path: string): boolean => TRANSLATION.test(path);

/** Reads what is there in every further language, and tells what is wrong with it, what is missing and what is too much. */
export function readTranslations(
  files: ContentFiles,
  main: ToTranslate,
): { readonly translations: readonly Translation[]; readonly problems: readonly Problem[] } {
  const { language, further_languages: further = [] } = main.house.partly;
  const problems: Problem[] = [];
  const tags: string[] = [];
  for (const [i, tag] of further.entries()) {
    if (tag === undefined) continue;
    const where = main.house.place(['further_languages', i]);
    const same = [language, ...tags].find(other => other && languageWord(other) === languageWord(tag));
    if (same !== undefined) problems.push(languageTwice(where, tag, same));
    else if (languageOf(tag) !== languageWord(tag)) problems.push(languageNotSpoken(where, tag, LANGUAGES));
    else tags.push(tag);
  }
  const translations = tags.map(tag => new Reading(files, tag, language ?? '').read(main, problems));
  const words = new Set(tags.map(languageWord));
  for (const path of files.keys()) {
    const [, stem, word, ending] = TRANSLATION.exec(path) ?? [];
    if (stem === undefined || word === undefined) continue;
    if (!files.has(`${stem}.${ending}`))
      problems.push(translatesNothing({ file: path }, fileName(`${stem}.${ending}`)));
    else if (!words.has(word)) problems.push(translationNotUsed({ file: path }, word));
  }
  return { translations, problems };
}

/** The files of one language while they are read. */
class Reading {
  readonly #files: ContentFiles;
  readonly #tag: string;
  readonly #main: string;
  #problems: Problem[] = [];

  constructor(files: ContentFiles, tag: string, main: string) {
    this.#files = files;
    this.#tag = tag;
    this.#main = main;
  }

  read(main: ToTranslate, problems: Problem[]): Translation {
    this.#problems = problems;
    const methods = main.house.value?.launch_methods.map(({ id }) => id);
    const house = this.#words(
      HOUSE_FILE,
      houseWordsSchema,
      words => main.house.value && translateHouse(main.house.value, words),
    );
    if (house && methods) this.#known(house, ['launch_methods'], house.partly.launch_methods, methods);
    const cars = new Map<string, CarWords>();
    for (const car of main.cars) {
      const words = this.#words(`content/cars/${car.id}.yaml`, carWordsSchema, own => translateCar(car, own));
      if (words?.value) cars.set(car.id, words.value);
    }
    const roads = new Map<string, RoadWords>();
    for (const road of main.roads) {
      const words = this.#words(`content/roads/${road.id}.yaml`, roadWordsSchema, own =>
        translateRoad(road, own),
      );
      const ids = road.directions.map(({ id }) => id);
      if (words) this.#known(words, ['directions'], words.partly.directions, ids);
      if (words?.value) roads.set(road.id, words.value);
    }
    const tests = new Map<string, TestWords>();
    const articles = new Map<string, TranslatedText>();
    for (const { id, folder, content } of main.tests) {
      const words = this.#words(`${folder}/test.yaml`, testWordsSchema, own => translateTest(content, own));
      if (words) this.#known(words, ['remarks'], words.partly.remarks, [...remarksOf(content)]);
      if (words?.value) tests.set(id, words.value);
      const article = this.#text(`${folder}/article.md`);
      if (article) articles.set(id, article);
    }
    const methodology = this.#text(METHODOLOGY_FILE);
    return {
      tag: this.#tag,
      ...(house?.value === undefined ? {} : { house: house.value }),
      cars,
      roads,
      tests,
      articles,
      ...(methodology === undefined ? {} : { methodology }),
    };
  }

  /** The words beside a file; `apply` says what they leave in the main language. */
  #words<T>(
    file: string,
    schema: z.ZodType<T>,
    apply: (words: T | undefined) => Translated<unknown> | undefined,
  ): Parsed<T> | undefined {
    const translated = translationFile(file, this.#tag);
    const bytes = this.#files.get(translated);
    const parsed = bytes && parseAs(translated, bytes, schema);
    this.#problems.push(...(parsed?.problems ?? []));
    if (parsed && parsed.value === undefined) return parsed;
    const missing = apply(parsed?.value)?.untranslated ?? [];
    if (missing.length > 0) {
      const where: Place = parsed === undefined ? { file } : { file: translated, line: 1 };
      this.#problems.push(notTranslated(where, fileName(translated), this.#tag, this.#main, missing));
    }
    return parsed;
  }

  #text(file: string): TranslatedText | undefined {
    const translated = translationFile(file, this.#tag);
    const bytes = this.#files.get(translated);
    if (!bytes) {
      this.#problems.push(articleNotTranslated({ file }, fileName(translated), this.#tag, this.#main));
      return undefined;
    }
    const read = bytesToText(translated, bytes);
    if ('text' in read) return { file: translated, markdown: read.text };
    this.#problems.push(read.problem);
    return undefined;
  }

  /** Tells of names in a translation that name nothing in the file it translates. */
  #known(
    parsed: Pick<Parsed<unknown>, 'place'>,
    path: Path,
    written: object | undefined,
    known: readonly string[],
  ): void {
    for (const name of Object.keys(written ?? {})) {
      if (known.includes(name)) continue;
      this.#problems.push(translatesNothing(parsed.place([...path, name]), name, nearMiss(name, known)));
    }
  }
}
