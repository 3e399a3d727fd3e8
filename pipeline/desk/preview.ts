/** The article as readers will get it, as one page that needs nothing besides itself and runs no script. */
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { articleToHtml } from '../article/article.ts';
import { figureToHtml } from '../article/figure-html.ts';
import { notesHtml } from '../article/number-notes.ts';
import { escapeHtml } from '../escape-html.ts';
import { FIGURE_KINDS } from '../figure/figures.ts';
import { renderFigure } from '../figure/render.ts';
import { catalogue } from '../language.ts';
import { loadLettering } from '../lettering/fonts.ts';
import { cautionOf } from '../result/caution.ts';
import { scrollRegion } from '../table/html.ts';
import { TABLE_KINDS } from '../table/tables.ts';
import type { OpenTest } from './desk.ts';
import { figureOf, tableHtml } from './pictures.ts';

/** The program's own folder: the content may lie elsewhere. */
const PROGRAM = join(import.meta.dirname, '../..');
const STYLES = ['base', 'article', 'tables', 'print'];

const WORDS = catalogue({
  en: { nothing: 'Nothing can be shown before there are a car and a road.', caution: 'Caution.' },
  de: { nothing: 'Zu sehen ist etwas, sobald Wagen und Strecke gewählt sind.', caution: 'Achtung.' },
});

/** Problems of the article stand above it, so that a preview is there however far the writing is. */
export async function articlePreview(open: OpenTest): Promise<string> {
  const { result, publication, draft } = open;
  const { house } = publication;
  const title = draft.parsed.partly.title ?? open.id;
  if (result === undefined) return page(house.language, title, `<p>${escapeHtml(WORDS(house).nothing)}</p>`);
  const pictures: Promise<void>[] = [];
  const drawn = new Map<string, string>();
  const article = articleToHtml({
    test: result,
    house,
    publication,
    figureKinds: FIGURE_KINDS,
    tableKinds: TABLE_KINDS,
    figureHtml: ({ kind, number }) => {
      const made = figureOf(open, kind);
      const mark = `figure-to-come-${number}`;
      pictures.push(
        (async () => {
          const lettering = await loadLettering();
          const [wide, narrow] = [
            await renderFigure(made, 'wide', lettering),
            await renderFigure(made, 'narrow', lettering),
          ];
          const at = ({ svgOutlined, widthPx, heightPx }: typeof wide) => ({
            address: `data:image/svg+xml;base64,${Buffer.from(svgOutlined).toString('base64')}`,
            widthPx,
            heightPx,
          });
          drawn.set(
            mark,
            figureToHtml(
              {
                number,
                caption: made.caption,
                altText: made.altText,
                files: { wide: at(wide), narrow: at(narrow) },
                tableHtml: '<table></table>',
              },
              house,
            ).replace(/<details>.*<\/details>/s, ''),
          );
        })(),
      );
      return `<div id="${mark}"></div>`;
    },
    tableHtml: kind => scrollRegion(kind, tableHtml(open, kind), house),
  });
  await Promise.all(pictures);
  const html = article.html.replace(
    /<div id="(figure-to-come-\d+)"><\/div>/g,
    (_, mark: string) => drawn.get(mark) ?? '',
  );
  const faults = article.problems
    .map(({ what, mend }) => `<li>${escapeHtml(`${what}. ${mend}`)}</li>`)
    .join('');
  return page(
    house.language,
    title,
    [
      faults === '' ? '' : `<ul class="warnings">${faults}</ul>`,
      `<article><header class="test-head"><div class="title"><h1>${escapeHtml(title)}</h1>`,
      `<p class="standfirst">${escapeHtml(draft.parsed.partly.standfirst ?? '')}</p></div></header>`,
      `<section class="part"><div class="content prose lead-paragraph">${html}</div></section>`,
      `<section class="part"><div class="content">${notesHtml(article.numbers, house)}</div></section>`,
      `<p class="caution"><strong>${WORDS(house).caution}</strong> ${escapeHtml(cautionOf(house))}</p></article>`,
    ].join('\n'),
  );
}

let styles: Promise<string> | undefined;

async function page(language: string, title: string, body: string): Promise<string> {
  styles ??= readStyles();
  return [
    `<!doctype html><html lang="${escapeHtml(language)}"><head><meta charset="utf-8">`,
    `<meta name="viewport" content="width=device-width, initial-scale=1"><title>${escapeHtml(title)}</title>`,
    `<style>${await styles}</style></head><body><main class="sheet">${body}</main></body></html>`,
  ].join('');
}

async function readStyles(): Promise<string> {
  const sheets = STYLES.map(name => readFile(join(PROGRAM, 'site/styles', `${name}.css`), 'utf8'));
  return `${await fontFaces()}\n${(await Promise.all(sheets)).join('\n')}`.replaceAll('</', '<\\/');
}

/** Inside a frame without an origin of its own, fonts must come with the page. */
async function fontFaces(): Promise<string> {
  const require = createRequire(import.meta.url);
  const face = async (family: string, file: string, weight: number): Promise<string> => {
    const bytes = await readFile(require.resolve(`@fontsource/${file}-latin-${weight}-normal.woff2`));
    return `@font-face{font-family:"${family}";font-weight:${weight};src:url(data:font/woff2;base64,${bytes.toString('base64')}) format("woff2")}`;
  };
  return (
    await Promise.all([
      face('Source Serif 4', 'source-serif-4/files/source-serif-4', 400),
      face('Source Serif 4', 'source-serif-4/files/source-serif-4', 600),
      face('Source Sans 3', 'source-sans-3/files/source-sans-3', 400),
      face('Source Sans 3', 'source-sans-3/files/source-sans-3', 600),
    ])
  ).join('');
}
