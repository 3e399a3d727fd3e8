/** A test's article for its page: the same function the press folder uses, with this site's addresses. */
import { type Article, articleToHtml } from '../pipeline/article/article.ts';
import { figureToHtml, type ShownFigure } from '../pipeline/article/figure-html.ts';
import type { FigureUse } from '../pipeline/article/figures-used.ts';
import { scrollRegion } from '../pipeline/article/table-html.ts';
import type { PressFigure, PressTest } from '../pipeline/press/manifest.ts';
import { ProblemError } from '../pipeline/problem.ts';
import type { Publication, TestResult } from '../pipeline/result/result.ts';
import { address, fileAddress } from './address.ts';

/** @throws ProblemError where the article has errors, so that no page is published without its numbers. */
export function articleOf(test: TestResult, publication: Publication, press: PressTest): Article {
  const article = articleToHtml({
    test,
    house: publication.house,
    publication,
    figureKinds: [...new Set(press.figures.map(({ kind }) => kind))],
    tableKinds: press.tables.map(({ kind }) => kind),
    figureHtml: use => {
      const figure = press.figures.find(({ key }) => key === use.key);
      return figure === undefined
        ? { reason: 'the press folder does not hold it' }
        : figureToHtml(shownFigure(figure, use.number));
    },
    tableHtml: kind => {
      const table = press.tables.find(other => other.kind === kind)!;
      return `<div class="table-block" id="table-${kind}">${scrollRegion(table.caption, table.html)}</div>`;
    },
    address,
  });
  const errors = article.problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0) throw new ProblemError(errors);
  return article;
}

export function shownFigure(figure: PressFigure, number: FigureUse['number']): ShownFigure {
  const at = ({ path, widthPx, heightPx }: PressFigure['png']) => ({
    address: fileAddress(path),
    widthPx,
    heightPx,
  });
  return {
    number,
    caption: figure.caption,
    altText: figure.altText,
    files: { narrow: at(figure.files.narrow), wide: at(figure.files.wide) },
    tableHtml: figure.tableHtml,
    downloads: [
      { label: 'SVG', address: fileAddress(figure.files.wide.path) },
      { label: 'PNG', address: fileAddress(figure.png.path) },
    ],
  };
}
