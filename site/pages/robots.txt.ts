import type { APIRoute } from 'astro';
import { address } from '../address.ts';

/** Everything may be read; where the list of pages stands. */
export const GET: APIRoute = ({ site, url }) =>
  new Response(
    `User-agent: *\nAllow: /\n\nSitemap: ${new URL(address('/sitemap-index.xml'), site ?? url)}\n`,
    { headers: { 'Content-Type': 'text/plain; charset=utf-8' } },
  );
