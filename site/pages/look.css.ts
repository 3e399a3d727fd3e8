import type { APIRoute } from 'astro';
import { COLOUR, FACE } from '../../pipeline/look.ts';
import { address } from '../address.ts';
import { fontPath, PAGE_CHARACTERS, PAGE_FAMILY, type PageFont, pageFonts, unicodeRange } from '../fonts.ts';

/**
 * Optional: a face that comes late is left for the next page, which finds it fetched. Swapped in, it moved up to a third
 * of a narrow window's text under the reader's eyes (`Page.astro` asks for the faces before anything else).
 */
const faceCss = (font: PageFont): string => `@font-face {
  font-family: '${PAGE_FAMILY[font.face]}';
  font-weight: ${font.weight};
  font-style: ${font.style};
  font-display: optional;
  src: url('${address(fontPath(font))}') format('woff2');
  unicode-range: ${unicodeRange(PAGE_CHARACTERS)};
}
`;

/** The colours and faces of figures and overlays, as custom properties for the pages. */
export const GET: APIRoute = async () => {
  const colours = Object.entries(COLOUR).map(([name, value]) => `  --${name}: ${value};`);
  const css = `${(await pageFonts()).map(faceCss).join('')}:root {
${colours.join('\n')}
  --serif: '${PAGE_FAMILY.serif}', '${FACE.text}', 'Serif stand-in', serif;
  --sans: '${PAGE_FAMILY.sans}', '${FACE.chart}', 'Sans stand-in', sans-serif;
}
`;
  return new Response(css, { headers: { 'Content-Type': 'text/css; charset=utf-8' } });
};
