/** The readings that a test was worked out from, for working it out anew. */
import type { APIRoute } from 'astro';
import { WORKINGS_PART } from '../../../../../pipeline/press/wanted-pages.ts';
import { publishedTest } from '../../../../../pipeline/recompute/published.ts';
import type { House, TestResult } from '../../../../../pipeline/result/result.ts';
import { ofEachTest } from '../../../../publication.ts';

interface Props {
  readonly test: TestResult;
  readonly house: House;
}

export const getStaticPaths = () =>
  ofEachTest((test, { house }, isWanted) =>
    isWanted(WORKINGS_PART) ? [{ params: { id: test.id }, props: { test, house } }] : [],
  );

export const GET: APIRoute<Props> = ({ props: { test, house } }) => Response.json(publishedTest(test, house));
