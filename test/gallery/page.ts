/** The gallery's one page. */
import { escapeHtml } from '../../pipeline/escape-html.ts';
import { FIGURE_LAYOUTS } from '../../pipeline/figure/figure.ts';
import { FIGURE_KINDS } from '../../pipeline/figure/figures.ts';
import { COLOUR, type Paper } from '../../pipeline/look.ts';
import { FRAME_SIZES } from '../../pipeline/overlay/sizes.ts';
import { tableToHtml } from '../../pipeline/table/html.ts';
import { TABLES } from '../../pipeline/table/tables.ts';
import type { GalleryCase } from './cases.ts';
import { figureAddress, madeOf, overlayAddress, overlaysOf, PAPERS, shownOn } from './pictures.ts';

const STYLE = `
body { margin: 24px; background: #8c8c8c; color: ${COLOUR.ink}; font: 15px/1.45 system-ui, sans-serif; }
h1, h2, h3, p { margin: 0 0 8px; } section { margin: 0 0 40px; }
.row { display: flex; flex-wrap: wrap; gap: 14px; align-items: flex-start; margin: 0 0 26px; }
.row figure { margin: 0; } figcaption { font-size: 12px; } img { display: block; }
.stills img { width: 480px; height: auto; background: linear-gradient(90deg, #fff 50%, #000 50%); }
.stills img.upright { width: 200px; }
table { background: ${COLOUR.paper}; border-collapse: collapse; margin: 0 0 16px; font-size: 13px; }
td, th { padding: 3px 8px; text-align: left; } .end { text-align: right; }
nav a { margin: 0 12px 0 0; color: inherit; }`;

/** `language` ends the names of the pages: nothing in English, `-de` in German. Figures in every layout at their real sizes, tables, overlays over white and black; pictures by address. */
export function indexHtml(cases: readonly GalleryCase[], paper: Paper, language = ''): string {
  const file = (name: Paper, ending: string): string => `${name === 'light' ? 'index' : name}${ending}.html`;
  return [
    '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Gallery</title>',
    `<style>${STYLE}</style></head><body><h1>Gallery</h1>`,
    `<nav>${PAPERS.map(name => `<a href="${file(name, language)}">${name} paper</a>`).join('')}</nav>`,
    `<nav><a href="${file(paper, '')}">English</a><a href="${file(paper, '-de')}">Deutsch</a></nav>`,
    `<nav>${cases.map(({ id }) => `<a href="#${id}">${escapeHtml(id)}</a>`).join('')}</nav>`,
    ...cases.map(one => caseHtml(one, paper)),
    '</body></html>\n',
  ].join('\n');
}

function caseHtml(one: GalleryCase, paper: Paper): string {
  const figures = FIGURE_KINDS.map(kind => {
    const made = madeOf(one, kind);
    if ('reason' in made) return `<h3>${kind}</h3><p>Not drawn: ${escapeHtml(made.reason)}</p>`;
    const pictures = FIGURE_LAYOUTS.map(layout => {
      const address = figureAddress(one, kind, layout, shownOn(layout, paper));
      return `<figure><img src="${address}" alt="${escapeHtml(made.altText)}" loading="lazy"><figcaption>${layout}</figcaption></figure>`;
    });
    return `<h3>${kind}</h3><div class="row">${pictures.join('')}</div><details><summary>Caption, alternative text, numbers</summary><p>${escapeHtml(made.caption)}</p><p>${escapeHtml(made.altText)}</p>${tableToHtml(made.table, one.house)}</details>`;
  });
  const tables = Object.entries(TABLES).map(
    ([kind, { make }]) => `<h3>${kind}</h3>${tableToHtml(make(one.test, one.house, one.others), one.house)}`,
  );
  const overlays = overlaysOf(one).map(overlay => {
    const stills = FRAME_SIZES.map(({ name, widthPx, heightPx }) => {
      const upright = heightPx > widthPx ? ' class="upright"' : '';
      return `<figure><img${upright} src="${overlayAddress(one, overlay, name)}" alt="${escapeHtml(overlay.altText)}" loading="lazy"><figcaption>${escapeHtml(overlay.name)}, ${name}</figcaption></figure>`;
    });
    return `<div class="row stills">${stills.join('')}</div>`;
  });
  return `<section id="${one.id}"><h2>${escapeHtml(one.describes)}</h2>${figures.join('\n')}<h2>Tables</h2>${tables.join('\n')}<h2>Overlays</h2>${overlays.join('\n')}</section>`;
}
