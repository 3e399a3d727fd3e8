import type { APIRoute } from 'astro';
import { type PageFont, pageFonts } from '../../fonts.ts';

export const getStaticPaths = async () =>
  (await pageFonts()).map(font => ({ params: { name: font.name }, props: { font } }));

export const GET: APIRoute<{ font: PageFont }> = ({ props }) =>
  new Response(new Uint8Array(props.font.bytes), { headers: { 'Content-Type': 'font/woff2' } });
