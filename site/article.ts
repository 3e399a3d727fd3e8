/** A test's article for its page: the same function the press folder uses, with this site's addresses. */
import type { Article } from '../pipeline/article/article.ts';
import type { PressTest } from '../pipeline/press/manifest.ts';
import { pressArticle } from '../pipeline/press/press-article.ts';
import { ProblemError } from '../pipeline/problem.ts';
import type { Publication, TestResult } from '../pipeline/result/result.ts';
import { fileAddress, pageAddresses } from './address.ts';

/** @throws ProblemError where the article has errors, so that no page is published without its numbers. */
export function articleOf(test: TestResult, publication: Publication, press: PressTest): Article {
  const article = pressArticle(test, publication, press, {
    file: fileAddress,
    page: pageAddresses(publication.house),
  });
  const errors = article.problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new ProblemError(errors);
  return article;
}
