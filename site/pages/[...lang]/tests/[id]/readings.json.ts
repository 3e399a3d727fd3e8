/** The readings that a test was worked out from, for working it out anew. */
import type { APIRoute } from 'astro';
import { publishedTest } from '../../../../../pipeline/recompute/published.ts';
import type { House, TestResult } from '../../../../../pipeline/result/result.ts';
import { inEveryLanguage } from '../../../../publication.ts';

interface Props {
  readonly test: TestResult;
  readonly house: House;
}

export const getStaticPaths = () =>
  inEveryLanguage(({ tests, house }) =>
    tests.map(test => ({ params: { id: test.id }, props: { test, house } })),
  );

export const GET: APIRoute<Props> = ({ props: { test, house } }) => Response.json(publishedTest(test, house));
