/** A test's article with the figures and tables of its press folder, for the site's page and other systems alike. */
import { type Article, articleToHtml } from '../article/article.ts';
import { figureToHtml } from '../article/figure-html.ts';
import { notesHeading, notesHtml } from '../article/number-notes.ts';
import { languagePath } from '../result/in-language.ts';
import type { House, Publication, TestResult } from '../result/result.ts';
import { scrollRegion, withAddresses } from '../table/html.ts';
import type { PressFigure, PressPicture, PressTest } from './manifest.ts';

/** Where things are, seen from where the article will stand. */
export interface Addresses {
  /** Of a file of the press folder, as the manifest names it. */
  file(path: string): string;
  /** Of a page, such as `/methodology/`. */
  page(path: string): string;
}

/** The article, its figures as the press folder holds them; what it lacks is among the article's problems. */
export function pressArticle(
  test: TestResult,
  publication: Publication,
  press: Pick<PressTest, 'figures' | 'tables'>,
  addresses: Addresses,
): Article {
  return articleToHtml({
    test,
    house: publication.house,
    publication,
    figureKinds: [...new Set(press.figures.map(({ kind }) => kind))],
    tableKinds: press.tables.map(({ kind }) => kind),
    figureHtml: use => {
      const figure = press.figures.find(({ key }) => key === use.key);
      return figure === undefined
        ? { reason: 'the press folder does not hold it' }
        : pressFigureHtml(figure, use.number, addresses, publication.house);
    },
    tableHtml: kind => {
      const table = press.tables.find(other => other.kind === kind)!;
      return `<div class="table-block" id="table-${kind}">${scrollRegion(table.caption, withAddresses(table.html, addresses.page), publication.house)}</div>`;
    },
    address: addresses.page,
  });
}

function pressFigureHtml(
  figure: PressFigure,
  number: number,
  { file, page }: Addresses,
  house: House,
): string {
  const at = ({ path, widthPx, heightPx }: PressPicture) => ({ address: file(path), widthPx, heightPx });
  return figureToHtml(
    {
      number,
      caption: figure.caption,
      altText: figure.altText,
      files: { narrow: at(figure.files.narrow), wide: at(figure.files.wide) },
      tableHtml: withAddresses(figure.tableHtml, page),
      downloads: [
        { label: 'SVG', address: file(figure.files.wide.path) },
        { label: 'PNG', address: file(figure.png.path) },
      ],
    },
    house,
  );
}

/** Where the files of a test lie that are others in each language: `press/<test>`, `press/<test>/de`. */
export const pressFolder = ({ id }: Pick<TestResult, 'id'>, house: House): string =>
  `press/${id}${languagePath(house)}`;

/** Article and notes as one piece for another publishing system; its links lead to the publication's own pages. */
export function articlePiece(
  test: TestResult,
  publication: Publication,
  press: Pick<PressTest, 'figures' | 'tables'>,
): string {
  const folder = `${pressFolder(test, publication.house)}/`;
  const site = publication.house.site.replace(/\/$/, '') + languagePath(publication.house);
  const addresses: Addresses = {
    // The piece lies in the folder itself.
    file: path => path.replace(folder, ''),
    page: path => site + path,
  };
  const { html, numbers } = pressArticle(test, publication, press, addresses);
  const notes = notesHtml(numbers, publication.house, addresses.page);
  return notes === '' ? html : `${html}\n<h2 id="numbers">${notesHeading(publication.house)}</h2>\n${notes}`;
}
