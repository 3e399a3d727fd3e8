/**
 * The publication in each language its pages are made in: the main one, in which it is written, at the root of the
 * site; every further one under the first part of its tag, `/de/` for `de-DE`.
 */
import {
  remarkPath,
  type Translated,
  translateCar,
  translateHouse,
  translateRoad,
  translateTest,
} from '../content/translate.ts';
import { languageWord, type Translation } from '../content/translations.ts';
import { onceOf } from '../once-of.ts';
import { changedTest } from './lazy-attempts.ts';
import type { Car, House, Publication, Road, TestResult, Untranslated } from './result.ts';

export { remarkPath } from '../content/translate.ts';
export { languageWord } from '../content/translations.ts';

/** Tags of every language, the main one first. */
export const languagesOf = (house: House): readonly string[] => [
  house.mainLanguage ?? house.language,
  ...(house.further_languages ?? []),
];

/** What addresses of pages begin with: nothing in the main language, `/de` in German beside it. */
export const languagePath = ({ language, mainLanguage }: House): string =>
  mainLanguage === undefined ? '' : `/${languageWord(language)}`;

/** The language in which a part is shown, where it is not that of the page: for the `lang` of its element. */
export const languageOfPart = (
  { untranslated }: { readonly untranslated?: Untranslated },
  path: string,
): string | undefined => (untranslated?.paths.has(path) ? untranslated.language : undefined);

/** The same for a remark of a test: a note, a reason, a correction. */
export const languageOfRemark = (test: TestResult, text: string): string | undefined =>
  languageOfPart(test, remarkPath(text));

/** The same publication in one of its languages; the very same where it is the main one, and each time it is asked for. */
export function inLanguage(publication: Publication, tag: string): Publication {
  if (tag === publication.house.language) return publication;
  const made = onceOf(spoken, publication, () => new Map<string, Publication>());
  const own = made.get(tag) ?? translated(publication, tag);
  made.set(tag, own);
  return own;
}
const spoken = new WeakMap<Publication, Map<string, Publication>>();

function translated(publication: Publication, tag: string): Publication {
  const { house, translations = [] } = publication;
  const main = house.language;
  const words = translations.find(translation => translation.tag === tag);
  const named = <T extends object>({
    value,
    untranslated,
  }: Translated<T>): T & { untranslated: Untranslated } => ({
    ...value,
    untranslated: { language: main, paths: new Set(untranslated) },
  });
  const own: House = {
    ...named(translateHouse(house, words?.house)),
    language: tag,
    mainLanguage: main,
  };
  const cars = publication.cars.map(car => named(translateCar(car, words?.cars.get(car.id))));
  const roads = publication.roads.map(road => named(translateRoad(road, words?.roads.get(road.id))));
  const { methodology } = words ?? {};
  return {
    ...publication,
    house: own,
    cars,
    roads,
    tests: publication.tests.map(test => testIn(test, own, cars, roads, words)),
    ...(methodology === undefined
      ? {}
      : { methodologyMarkdown: methodology.markdown, methodologyFile: methodology.file }),
    untranslated: { language: main, paths: new Set(methodology === undefined ? ['methodology'] : []) },
  };
}

function testIn(
  test: TestResult,
  house: House,
  cars: readonly Car[],
  roads: readonly Road[],
  words: Translation | undefined,
): TestResult {
  const { value: content, untranslated } = translateTest(test.content, words?.tests.get(test.id));
  const article = words?.articles.get(test.id);
  const translated = new Map([
    ...pairs(test.content.attempts, content.attempts),
    ...pairs(test.content.conditions, content.conditions),
  ]);
  const methods = new Map(house.launch_methods.map(({ id, name }) => [id, name]));
  const say = (text: string): string => translated.get(text) ?? text;
  return changedTest(
    test,
    {
      content,
      car: cars.find(({ id }) => id === test.car.id) ?? test.car,
      road: roads.find(({ id }) => id === test.road.id) ?? test.road,
      ...(article === undefined ? {} : { articleMarkdown: article.markdown, articleFile: article.file }),
      untranslated: {
        language: house.mainLanguage ?? house.language,
        paths: new Set([...untranslated, ...(article === undefined ? ['article'] : [])]),
      },
    },
    attempt => {
      const launchName = methods.get(attempt.launchId ?? '');
      return {
        ...attempt,
        ...(launchName === undefined ? {} : { launchName }),
        ...(attempt.note === undefined ? {} : { note: say(attempt.note) }),
        ...(attempt.setAside === undefined ? {} : { setAside: say(attempt.setAside) }),
      };
    },
  );
}

/** Each remark with its translation, from lists in the same order. */
function pairs(
  before: readonly { readonly note?: string | undefined; readonly set_aside?: string | undefined }[],
  after: readonly { readonly note?: string | undefined; readonly set_aside?: string | undefined }[],
): [string, string][] {
  return before.flatMap((main, i) =>
    (['note', 'set_aside'] as const).flatMap((key): [string, string][] => {
      const [text, said] = [main[key], after[i]?.[key]];
      return text === undefined || said === undefined ? [] : [[text, said]];
    }),
  );
}
