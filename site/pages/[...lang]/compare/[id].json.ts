import type { APIRoute } from 'astro';
import { type CompareData, compareDataOf } from '../../../../pipeline/article/compare-data.ts';
import { pageAddresses } from '../../../address.ts';
import { ofEachTest, publication } from '../../../publication.ts';

export const getStaticPaths = () => ofEachTest(({ id }) => [{ params: { id }, props: {} }]);

/** One test as the page of comparisons sets it beside others. */
export const GET: APIRoute = async ({ params }) => {
  const whole = await publication(params.lang);
  const data: CompareData = compareDataOf(params.id!, whole, pageAddresses(whole.house));
  return new Response(JSON.stringify(data), { headers: { 'Content-Type': 'application/json' } });
};
