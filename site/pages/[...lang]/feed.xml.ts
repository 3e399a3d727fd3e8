import type { APIRoute } from 'astro';
import { feedText } from '../../../pipeline/data/feed.ts';
import { oneInEveryLanguage, publication } from '../../publication.ts';

export const getStaticPaths = oneInEveryLanguage;

/** Tests and corrections in the language of its path. */
export const GET: APIRoute = async ({ params }) =>
  new Response(feedText(await publication(params.lang)), {
    headers: { 'Content-Type': 'application/atom+xml; charset=utf-8' },
  });
