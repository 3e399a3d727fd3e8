import type { APIRoute } from 'astro';
import { COLOUR, FACE } from '../../pipeline/look.ts';

/** The colours and faces of figures and overlays, as custom properties for the pages. */
export const GET: APIRoute = () => {
  const colours = Object.entries(COLOUR).map(([name, value]) => `  --${name}: ${value};`);
  const css = `:root {
${colours.join('\n')}
  --serif: '${FACE.text}', 'Serif stand-in', serif;
  --sans: '${FACE.chart}', 'Sans stand-in', sans-serif;
}
`;
  return new Response(css, { headers: { 'Content-Type': 'text/css; charset=utf-8' } });
};
