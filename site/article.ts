/** A test's article for its page: the same function the press folder uses, with this site's addresses. */
import type { Article } from '../pipeline/article/article.ts';
import type { PressTest } from '../pipeline/press/manifest.ts';
import { pressArticle } from '../pipeline/press/press-article.ts';
import { ProblemError } from '../pipeline/problem.ts';
import { languageOfPart } from '../pipeline/result/in-language.ts';
import type { Publication, TestResult } from '../pipeline/result/result.ts';
import { fileAddress, pageAddresses } from './address.ts';
import { pressOf } from './press.ts';
import { publication } from './publication.ts';

/**
 * Where the article has no translation it is that of the main language, with the figures of that language; its links
 * lead to pages of the language around it.
 * @throws ProblemError where the article has errors, so that no page is published without its numbers.
 */
export async function articleOf(test: TestResult, whole: Publication, press: PressTest): Promise<Article> {
  const page = pageAddresses(whole.house);
  const main = languageOfPart(test, 'article') === undefined ? undefined : await publication();
  const article =
    main === undefined
      ? pressArticle(test, whole, press, { file: fileAddress, page })
      : pressArticle(main.tests.find(({ id }) => id === test.id)!, main, await pressOf(test.id), {
          file: fileAddress,
          page,
        });
  const errors = article.problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new ProblemError(errors);
  return article;
}
