/** What the pages of each test are made from, as keys to keep them under: all of them, and those parts that hang on less. */
import { havePage, secondsOf } from '../article/pair.ts';
import { digestOf } from '../cache/digest.ts';
import type { Store } from '../cache/store.ts';
import { inLanguage, languagesOf, languageWord } from '../result/in-language.ts';
import type { Publication } from '../result/result.ts';
import { testNames } from '../result/tests-compared.ts';
import { type PressTest, pressFile, socialPictureOf } from './manifest.ts';
import type { ReadableOutput } from './output.ts';
import { testDigest, testsInView } from './test-key.ts';
import { pairPart, WORKINGS_PART } from './wanted-pages.ts';

export interface PageKeys {
  /** By id of each test the key of all its pages in every language. */
  readonly whole: ReadonlyMap<string, string>;
  /** The keys of the parts of one test's pages, by name; asked for only where `whole` is not kept. */
  partsOf(testId: string): Promise<ReadonlyMap<string, string>>;
}

/**
 * @param surroundings digest of the code that makes pages
 * @param forPages what the pages are told of the press folders
 */
export function pageKeys(
  publication: Publication,
  surroundings: string,
  forPages: Pick<ReadableOutput, 'files' | 'read'>,
  store: Store,
): PageKeys {
  const spoken = languagesOf(publication.house).map((tag, index) => {
    const own = inLanguage(publication, tag);
    return {
      own,
      lang: index === 0 ? undefined : languageWord(tag),
      views: testsInView(own, store),
      house: digestOf(own.house),
    };
  });
  const whole = new Map(publication.tests.map(({ id }) => [id, [surroundings]]));
  for (const { own, lang, views } of spoken) {
    const names = testNames(own.tests, own.house);
    const nameOf = new Map(own.tests.map((test, place) => [test, names[place]]));
    for (const { test, key, shownDigest } of views) {
      const beside = own.tests.filter(other => other === test || havePage(test, other));
      const shown = beside.map(other => [nameOf.get(other), shownDigest(other)]);
      whole.get(test.id)!.push(digestOf([key, shown, forPages.files.get(pressFile(test.id, lang))]));
    }
  }
  const made = (from: readonly unknown[]): string => digestOf([surroundings, from]);

  async function partsOf(testId: string): Promise<ReadonlyMap<string, string>> {
    const from = new Map<string, unknown[]>();
    const add = (part: string, what: unknown): void => {
      from.set(part, [...(from.get(part) ?? []), what]);
    };
    for (const { own, lang, views, house } of spoken) {
      const { test, shownDigest } = views.find(view => view.test.id === testId)!;
      add(WORKINGS_PART, [house, testDigest(test)]);
      const social = await socialPictureOf(
        lang,
        async language => JSON.parse(await forPages.read(pressFile(testId, language))) as PressTest,
      );
      const first = digestOf([house, social, shownDigest(test)]);
      for (const second of secondsOf(test, own.tests)) add(pairPart(second.id), [first, shownDigest(second)]);
    }
    return new Map([...from].map(([part, what]) => [part, made(what)]));
  }
  return { whole: new Map([...whole].map(([id, from]) => [id, digestOf(from)])), partsOf };
}
