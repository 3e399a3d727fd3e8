import type { APIRoute } from 'astro';
import { COLOUR } from '../../pipeline/look.ts';

/** A rising curve on paper: the speed of a standing start. */
export const GET: APIRoute = () => {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 32 32"><rect width="32" height="32" fill="${COLOUR.paper}"/><path d="M5 26C9 26 9 8 27 7" fill="none" stroke="${COLOUR.accent}" stroke-width="3.5"/><path d="M5 28h22" stroke="${COLOUR.ink}" stroke-width="1.5"/></svg>`;
  return new Response(svg, { headers: { 'Content-Type': 'image/svg+xml' } });
};
